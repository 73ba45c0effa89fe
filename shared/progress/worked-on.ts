/**
 * What hours do to the task they are logged to: one not begun is begun, and "how far is it?" sets what is left, or
 * finishes it. A finished task stays finished.
 */
import type { Task } from '../contract/task.ts';
import { remainingAt } from './how-far.ts';

/** A share done above 0 and below 1, or done, or nothing said. */
export type HowFar = number | 'done' | null;

export interface Worked {
  /** When the work began and when it ended, as written. */
  readonly began: string;
  readonly ended: string;
  /** The day up to which the build is told: nothing lies after it. Null: it has none. */
  readonly asOf: string | null;
  readonly howFar: HowFar;
  /** Person-minutes logged to the task with these. */
  readonly logged: number;
}

/** The task as it is afterwards; the same object where nothing changes. */
export function workedOn(task: Task, { began, ended, asOf, howFar, logged }: Worked): Task {
  if (task.state === 'finished') return task;
  const told = (instant: string) => (asOf !== null && instant > asOf ? asOf : instant);
  const startedAt = task.state === 'not-started' || task.startedAt === null ? told(began) : task.startedAt;
  if (howFar === 'done') {
    const at = told(ended);
    return {
      ...task,
      state: 'finished',
      startedAt,
      finishedAt: at < startedAt ? startedAt : at,
      remainingMinutes: null,
    };
  }
  if (howFar !== null)
    return { ...task, state: 'started', startedAt, remainingMinutes: remainingAt(howFar, logged, task) };
  return task.state === 'not-started' ? { ...task, state: 'started', startedAt } : task;
}
