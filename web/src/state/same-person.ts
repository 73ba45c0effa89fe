/** One person under one name in several builds: who works on others, what naming them would take, and naming them there. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Person } from '#shared/contract/calendar.ts';
import type { Elsewhere } from '#shared/contract/elsewhere.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { busyOf } from '#shared/time/elsewhere.ts';
import { ask } from './api.ts';
import { pathOf } from './snapshot.ts';

/** A build of the store, as its list tells it. */
export interface OtherBuild {
  readonly id: string;
  readonly name: string;
  readonly archivedAt: string | null;
  readonly place: number;
  readonly people: readonly {
    readonly key: string;
    readonly name: string;
    readonly sharedAs: string | null;
  }[];
}

export function listBuilds(): Promise<OtherBuild[]> {
  return ask<OtherBuild[]>('GET', '/api/builds');
}

/** What a person of another build is planned for there, under a name they may not have yet. */
export async function busyThere(build: string, person: string, sharedAs: string): Promise<Elsewhere> {
  const [file, plan] = await Promise.all([
    ask<BuildFile>('GET', `${pathOf(build)}/file`),
    ask<Plan>('GET', `${pathOf(build)}/plan`),
  ]);
  const people = file.people.map((one) => ({ ...one, sharedAs: one.key === person ? sharedAs : null }));
  return busyOf({ ...file, people }, plan);
}

/** Gives a person of another build the name they share: a change of that build, which can be undone there. */
export async function nameThere(build: string, person: string, sharedAs: string): Promise<void> {
  const path = `${pathOf(build)}/people/${encodeURIComponent(person)}`;
  const { version, value } = await ask<{ version: number; value: Person }>('GET', path);
  const edit = { noun: 'people', id: person, version, value: { ...value, sharedAs } };
  const label = `${value.name} works on several builds`;
  await ask('POST', `${pathOf(build)}/changes`, { label, edits: [edit] });
}
