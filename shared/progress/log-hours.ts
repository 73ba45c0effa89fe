/**
 * Hours as they are told: "Saturday, 6 h, these four tasks". One sitting becomes an entry per task, shared by what each
 * is estimated to still need, and the parts add up to what was told. Hours of a phase alone are sorted the same way.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Hours } from '../contract/log.ts';
import type { Plan } from '../contract/plan.ts';
import type { Task } from '../contract/task.ts';
import { estimatedOf } from './pace.ts';
import { shareOut } from './share-out.ts';

/** The most one person can work on one day, minutes. */
export const DAY_MINUTES = 1440;

export interface Part {
  readonly task: string;
  readonly minutes: number;
}

/** Person-minutes a task is estimated to still need; of a finished one, nothing. */
export function stillNeeds(task: Task, plan: Pick<Plan, 'tasks'>): number {
  return (plan.tasks[task.key]?.minutes ?? 0) * task.people;
}

/**
 * One part per task, by key. Where none of them needs anything more (all finished), by their estimates. A task may get
 * nothing when there are more tasks than minutes.
 */
export function splitOver(minutes: number, tasks: readonly Task[], plan: Pick<Plan, 'tasks'>): Part[] {
  const sorted = tasks.toSorted((a, b) => (a.key < b.key ? -1 : 1));
  const needs = sorted.map((task) => stillNeeds(task, plan));
  const weights = needs.every((need) => need === 0) ? sorted.map(estimatedOf) : needs;
  const parts = shareOut(minutes, weights);
  return sorted.map(({ key }, i) => ({ task: key, minutes: parts[i]! }));
}

/** What is told once: who, on which day, with which note. */
export type Told = Pick<Hours, 'person' | 'on' | 'note'>;

/** The entries of parts that got something. @param newKey a key for each new entry */
export function entriesOf(
  { person, on, note }: Told,
  parts: readonly Part[],
  phaseOf: (task: string) => string | null,
  newKey: () => string,
): (Hours & { key: string })[] {
  return parts
    .filter(({ minutes }) => minutes > 0)
    .map(({ task, minutes }) => ({ key: newKey(), task, phase: phaseOf(task), person, on, minutes, note }));
}

/**
 * An entry of a phase alone, or of nothing yet, sorted to tasks. The first part stays under its key, so that its
 * history goes on. @param parts add up to the entry's minutes
 * @throws RangeError if they do not
 */
export function sortedInto(
  entry: Hours & { readonly key: string },
  parts: readonly Part[],
  phaseOf: (task: string) => string | null,
  newKey: () => string,
): (Hours & { key: string })[] {
  const sum = parts.reduce((total, { minutes }) => total + minutes, 0);
  if (sum !== entry.minutes) throw new RangeError(`parts of ${sum} min for an entry of ${entry.minutes}`);
  let isFirst = true;
  return entriesOf(entry, parts, phaseOf, () => {
    const key = isFirst ? entry.key : newKey();
    isFirst = false;
    return key;
  });
}

/** Entries that nobody has sorted to a task yet, the latest first. */
export function unsortedHours({ hours }: Pick<BuildFile, 'hours'>): Hours[] {
  return hours
    .filter(({ task }) => task === null)
    .toSorted((a, b) => (a.on !== b.on ? (a.on < b.on ? 1 : -1) : (a.key ?? '') < (b.key ?? '') ? -1 : 1));
}

/** Minutes a person has logged on a day. @param without entries that are about to be replaced, by key */
export function loggedOn(
  { hours }: Pick<BuildFile, 'hours'>,
  person: string,
  on: string,
  without: ReadonlySet<string> = new Set(),
): number {
  return hours
    .filter((entry) => entry.person === person && entry.on === on && !without.has(entry.key ?? ''))
    .reduce((sum, { minutes }) => sum + minutes, 0);
}

/** How many minutes too long a person's day would become; 0 when it fits. */
export function beyondTheDay(
  file: Pick<BuildFile, 'hours'>,
  { person, on }: Pick<Told, 'person' | 'on'>,
  minutes: number,
): number {
  return Math.max(0, loggedOn(file, person, on) + minutes - DAY_MINUTES);
}
