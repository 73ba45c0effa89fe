/** Another device, as a program would be one: through the interface. */
import { expect } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { idOf, type NounName } from '#shared/contract/nouns.ts';
import type { House } from './house.ts';

interface Snapshot {
  readonly revision: number;
  readonly file: BuildFile;
  readonly versions: Record<string, Record<string, number>>;
}

export async function snapshotOf(house: House, build = 'wagtail'): Promise<Snapshot> {
  return (await (await fetch(`${house.url}/api/builds/${build}/snapshot`)).json()) as Snapshot;
}

export async function fileOf(house: House): Promise<BuildFile> {
  return (await snapshotOf(house)).file;
}

/** Changes some fields of a record, whatever it is by now. */
export async function changeElsewhere(
  house: House,
  noun: NounName,
  id: string,
  part: object,
  label = 'Change it elsewhere',
): Promise<void> {
  const { file, versions } = await snapshotOf(house);
  const record = file[noun].find((one) => idOf(noun, one) === id);
  await send(house, label, {
    noun,
    id,
    version: versions[noun]?.[id] ?? null,
    value: { ...record, ...part },
  });
}

export async function changeHeadElsewhere(house: House, part: object): Promise<void> {
  const { file, versions } = await snapshotOf(house);
  const value = { ...file.build, order: file.order, ...part };
  await send(house, 'Change the build elsewhere', {
    noun: 'build',
    id: 'build',
    version: versions['build']!['build']!,
    value,
  });
}

export async function undoElsewhere(house: House): Promise<void> {
  const response = await fetch(`${house.url}/api/builds/wagtail/undo`, { method: 'POST' });
  expect(response.status).toBe(200);
}

/** What was done, newest first. */
export async function labelsOf(house: House): Promise<string[]> {
  const entries = (await (await fetch(`${house.url}/api/builds/wagtail/history`)).json()) as {
    kind: string;
    label: string;
  }[];
  return entries.map(({ kind, label }) => (kind === 'do' ? label : `${kind}: ${label}`));
}

async function send(house: House, label: string, edit: object): Promise<void> {
  const response = await fetch(`${house.url}/api/builds/wagtail/changes`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ label, edits: [edit] }),
  });
  expect(response.status, await response.text()).toBe(200);
}
