/**
 * Reopening: what reaching a closed depth again would cost. The covers that hide it come off, and whatever stands in
 * front of them with them; each goes back. Person-minutes.
 */
import type { Task } from '../contract/task.ts';
import type { Stack, StackEntry } from './stacks.ts';

/** Shares of the work's own hours, where nobody gave a figure: off, and back. */
const TAKE_OFF = 0.3;
const PUT_BACK = 0.7;

export interface Reopening {
  readonly personMinutes: number;
  /** From the outside in: what comes off first stands first. */
  readonly parts: readonly { readonly task: string; readonly personMinutes: number }[];
}

/**
 * @param position of the depth in the stack
 * @param counts whether a task counts as in; by default what is in now: covers begun or finished, the rest finished
 */
export function reopeningOf(
  { entries }: Stack,
  position: number,
  counts: (task: Task, hidesIt: boolean) => boolean = isIn,
): Reopening {
  const covers = entries.filter((entry) => entry.hides >= position && counts(entry.task, true));
  if (covers.length === 0) return { personMinutes: 0, parts: [] };
  const innermost = covers.reduce((least, cover) => Math.min(least, cover.reach), Infinity);
  const off = new Set<StackEntry>(covers);
  for (const entry of entries) if (entry.front > innermost && counts(entry.task, false)) off.add(entry);
  const parts = [...off]
    .sort((a, b) => b.front - a.front || (a.task.key < b.task.key ? -1 : 1))
    .map(({ task }) => ({ task: task.key, personMinutes: ownShare(task) }));
  return { personMinutes: parts.reduce((sum, part) => sum + part.personMinutes, 0), parts };
}

function isIn(task: Task, hidesIt: boolean): boolean {
  return task.state === 'finished' || (hidesIt && task.state === 'started');
}

/** Off and back for one zone: a task in n zones counts 1/n for each. */
export function ownShare(task: Task): number {
  return Math.round(reopenMinutes(task) / Math.max(1, new Set(task.places.map(({ zone }) => zone)).size));
}

/** Off and back for the whole task. */
export function reopenMinutes({ reopenMinutes: given, minutes, people }: Task): number {
  return given ?? Math.round((TAKE_OFF + PUT_BACK) * minutes.likely * people);
}
