/** What is due beside the work: waits that end today, checks that can be signed, questions to settle. */
import type { BuildFile } from '../contract/build-file.ts';
import type { Decision } from '../contract/log.ts';
import type { Plan } from '../contract/plan.ts';
import type { HoldPoint, Task } from '../contract/task.ts';
import { byKey } from '../contract/by-key.ts';
import { dueUnsigned } from '../covers/checks.ts';
import { decideBy } from '../decisions/decide-by.ts';
import { dayNumber } from '../time/days.ts';
import type { Lack, Standing } from './lacks.ts';

export interface EndingWait {
  readonly task: Task;
  readonly until: string;
  /** What may go on then, by key. */
  readonly frees: readonly string[];
}

/** Waits of finished tasks that end on the day of `at`, soonest first. */
export function endingWaits(
  file: BuildFile,
  plan: Plan,
  at: string,
  standings: readonly Standing[],
): EndingWait[] {
  return file.tasks
    .flatMap((task): EndingWait[] => {
      const until = plan.tasks[task.key]!.dates?.waitUntil ?? '';
      const ends =
        task.state === 'finished' && task.waitMinutes > 0 && until.slice(0, 10) === at.slice(0, 10);
      if (!ends || until === task.finishedAt) return [];
      const frees = standings.filter(({ before }) => before.some((one) => one.task === task.key));
      return [{ task, until, frees: frees.map((one) => one.task.key) }];
    })
    .sort((a, b) => (a.until === b.until ? byKey(a.task, b.task) : a.until < b.until ? -1 : 1));
}

export interface CheckToSign {
  readonly task: Task;
  readonly check: HoldPoint;
  /** What waits for it, by key: the task itself before its start, else what follows. */
  readonly holds: readonly string[];
}

/** Due and unsigned, or before a start that nothing else has to be finished, hard or signed for; by task. */
export function checksToSign(file: BuildFile, standings: readonly Standing[]): CheckToSign[] {
  const ofTask = new Map(standings.map((one) => [one.task.key, one]));
  return file.tasks.toSorted(byKey).flatMap((task) => {
    const own = ofTask.get(task.key);
    const near = task.state === 'not-started' && own !== undefined ? ownChecks(own) : [];
    return [...dueUnsigned(task), ...near].map((check) => ({
      task,
      check,
      holds:
        check.when === 'entry'
          ? [task.key]
          : standings
              .filter(({ lacks }) => lacks.some((lack) => lack.kind === 'check' && lack.check === check))
              .map((one) => one.task.key),
    }));
  });
}

/** Its own entry checks once all they look at is in: parts, people and weather may still be missing. */
function ownChecks({ task, lacks }: Standing): HoldPoint[] {
  const isOwn = (lack: Lack) => lack.kind === 'check' && lack.task === task.key;
  const waits = lacks.some((lack) => ['before', 'wait', 'check'].includes(lack.kind) && !isOwn(lack));
  return waits ? [] : lacks.flatMap((lack) => (lack.kind === 'check' ? [lack.check] : []));
}

export interface ToDecide {
  readonly decision: Decision;
  /** The last day; null where nothing that waits for it has one. */
  readonly by: string | null;
  /** Days from now, below zero when it is past. */
  readonly inDays: number | null;
}

/** Open questions to be settled within so many days, soonest first. */
export function decisionsToTake(file: BuildFile, plan: Plan, days: number): ToDecide[] {
  return file.decisions
    .filter(({ chosen }) => chosen === null)
    .map((decision) => {
      const by = decideBy(decision, plan);
      const inDays = by === null ? null : dayNumber(by) - dayNumber(plan.asOf.slice(0, 10));
      return { decision, by, inDays };
    })
    .filter(({ inDays }) => inDays !== null && inDays <= days)
    .sort((a, b) => a.inDays! - b.inDays! || byKey(a.decision, b.decision));
}
