/** The states a task goes through by hand, each with the dates that belong to it. */
import type { Attempt, Task } from '#shared/contract/task.ts';

export function started(task: Task, at: string): Task {
  return { ...task, state: 'started', startedAt: at, finishedAt: null };
}

/** @param hoursKnown false: nobody knows what it took, so the pace leaves it out */
export function finished(
  task: Task,
  { began, at, hoursKnown }: { began: string; at: string; hoursKnown: boolean },
): Task {
  return { ...task, state: 'finished', startedAt: began, finishedAt: at, hoursKnown, remainingMinutes: null };
}

/** One state back: a finished task is under way again, one under way not begun. */
export function stepBack(task: Task): Task {
  if (task.state === 'finished') return { ...task, state: 'started', finishedAt: null, hoursKnown: true };
  return { ...task, state: 'not-started', startedAt: null, finishedAt: null, remainingMinutes: null };
}

export function withAttempt(task: Task, check: string, attempt: Attempt): Task {
  return {
    ...task,
    holdPoints: task.holdPoints.map((hold) =>
      hold.key === check ? { ...hold, attempts: [...hold.attempts, attempt] } : hold,
    ),
  };
}

export function withoutAttempt(task: Task, check: string, at: number): Task {
  return {
    ...task,
    holdPoints: task.holdPoints.map((hold) =>
      hold.key === check ? { ...hold, attempts: hold.attempts.toSpliced(at, 1) } : hold,
    ),
  };
}

export function withStep(task: Task, at: number, done: boolean): Task {
  return { ...task, steps: task.steps.map((step, i) => (i === at ? { ...step, done } : step)) };
}
