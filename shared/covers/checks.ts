/** Checks: when one is signed, when it is due, and what an unsigned one keeps open. */
import type { HoldPoint, Task } from '../contract/task.ts';

/** Signed: the latest attempt passed; of several at the same minute the one written down last. */
export function isSigned({ attempts }: HoldPoint): boolean {
  const last = attempts.reduce((latest, { at }) => (at > latest ? at : latest), '');
  return attempts.findLast(({ at }) => at === last)?.pass ?? false;
}

export function unsigned(task: Task): HoldPoint[] {
  return task.holdPoints.filter((hold) => !isSigned(hold));
}

/** Due and not signed: entry checks once their task has begun, exit checks once it is finished. */
export function dueUnsigned(task: Task): HoldPoint[] {
  return unsigned(task).filter((hold) =>
    hold.when === 'entry' ? task.state !== 'not-started' : task.state === 'finished',
  );
}

/** Does an unsigned exit check keep the finished task open, and with it what follows? */
export function isOpen(task: Task): boolean {
  return task.state === 'finished' && unsigned(task).some((hold) => hold.when === 'exit');
}

/** "has failed", "is not signed". */
export function lackWords({ attempts }: HoldPoint): string {
  return attempts.length === 0 ? 'is not signed' : 'has failed and is not signed since';
}
