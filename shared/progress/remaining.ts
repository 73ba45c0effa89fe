/** What is left of each task, in clock minutes, and how much of it is done. */
import type { Task } from '../contract/task.ts';
import { paceOf, type Paces } from './pace.ts';

/** A started task is never taken for nearly nothing: at least this share of its estimate is left. */
const LEAST_LEFT = 0.1;

/**
 * Clock minutes still to work: likely × pace, rounded up; for a started task the builder's own word, else what the
 * logged hours leave of the estimate, × pace. Without the pace: the estimate's own minutes, before correction.
 */
export function remainingMinutes(task: Task, logged: number, pace: number): number {
  return wholeMinutes(minutesLeft(task, logged, pace));
}

/** The same before it is rounded up. */
export function minutesLeft(task: Task, logged: number, pace: number): number {
  if (task.state === 'finished') return 0;
  return task.remainingMinutes ?? leftOfEstimate(task, logged) * pace;
}

/** Rounds up, once the last digits a product of decimals carries are off: 60 × 1.1 is 66, not 67. */
export function wholeMinutes(minutes: number): number {
  return Math.ceil(Math.round(minutes * 1e6) / 1e6);
}

/** Clock minutes left of the estimate, before any pace. */
function leftOfEstimate(task: Task, logged: number): number {
  const { likely } = task.minutes;
  if (task.state === 'not-started') return likely;
  return Math.max(LEAST_LEFT * likely, likely - logged / task.people);
}

export function plannedMinutes(task: Task, logged: number, paces: Paces): number {
  return remainingMinutes(task, logged, paceOf(task, paces));
}

/** Share done, 0..1: finished all, started by the hours, a started task without any work left not quite. */
export function shareDone(task: Task, logged: number, remaining: number): number {
  if (task.state === 'finished') return 1;
  if (task.state === 'not-started') return 0;
  const whole = logged + remaining * task.people;
  return whole === 0 ? 0 : logged / whole;
}
