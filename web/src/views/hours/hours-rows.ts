/** Hours as the sheet lists them: entries by day, and what a picker of tasks offers first. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Hours } from '#shared/contract/log.ts';
import type { Plan } from '#shared/contract/plan.ts';

/** As `PickField` takes it. */
export interface Pickable {
  readonly key: string;
  readonly name: string;
  /** Stands beside the name: zone codes. */
  readonly more: string;
}

export interface LoggedDay {
  readonly day: string;
  readonly entries: readonly Hours[];
  readonly minutes: number;
}

/** Entries by day, the latest day first. */
export function byDay(hours: readonly Hours[]): LoggedDay[] {
  const days = new Map<string, Hours[]>();
  for (const entry of hours) days.set(entry.on, [...(days.get(entry.on) ?? []), entry]);
  return [...days]
    .toSorted(([a], [b]) => (a < b ? 1 : -1))
    .map(([day, entries]) => ({
      day,
      entries,
      minutes: entries.reduce((sum, { minutes }) => sum + minutes, 0),
    }));
}

/** Before a phase's key, so that tasks and phases can be picked from one list. */
export const PHASE = 'phase/';

/** Tasks to pick from: what is under way or ready first, then what is planned soonest; the finished come last. */
export function pickableTasks(file: Pick<BuildFile, 'tasks'>, plan: Pick<Plan, 'tasks'>): Pickable[] {
  const rank = { started: 0, 'not-started': 1, finished: 2 } as const;
  const start = (key: string) => plan.tasks[key]?.dates?.start ?? '9999';
  return file.tasks
    .toSorted(
      (a, b) =>
        rank[a.state] - rank[b.state] ||
        (start(a.key) < start(b.key) ? -1 : start(a.key) > start(b.key) ? 1 : a.key < b.key ? -1 : 1),
    )
    .map(({ key, name, places }) => ({
      key,
      name,
      more: [...new Set(places.map(({ zone }) => zone))].slice(0, 4).join(' '),
    }));
}

export function pickablePhases({ phases }: Pick<BuildFile, 'phases'>): Pickable[] {
  return phases.map(({ key, name }) => ({ key: PHASE + key, name, more: 'whole phase' }));
}

/** Those that have every typed word, in any script's plain letters. */
export function findIn(all: readonly Pickable[], text: string): Pickable[] {
  const parts = plain(text).split(' ').filter(Boolean);
  return all.filter(({ name, more }) => parts.every((part) => plain(`${name} ${more}`).includes(part)));
}

function plain(words: string): string {
  return words.toLowerCase().normalize('NFKD').replace(/\p{M}/gu, '');
}
