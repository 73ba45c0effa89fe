/** A task as it was before anybody began it: what copies and templates start from. */
import type { Task } from '../contract/task.ts';

/** Checks without attempts, steps not done, no dates of its own. */
export function notBegun(task: Task): Task {
  return {
    ...task,
    steps: task.steps.map((step) => ({ ...step, done: false })),
    holdPoints: task.holdPoints.map((hold) => ({ ...hold, attempts: [] })),
    state: 'not-started',
    startedAt: null,
    finishedAt: null,
    hoursKnown: true,
    remainingMinutes: null,
    fixedStart: null,
    fixedWhy: null,
  };
}
