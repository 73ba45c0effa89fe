/**
 * The critical path on the real calendar: early and late dates, total and free slack, and the chains of least slack.
 * A lower bound of what people can keep, because it asks only that enough of them are there, not that they are free.
 */
import type { WorkingSet } from '../time/working-set.ts';
import { backward, lastFree, UNKNOWN, workedBetween, type Latest } from './backward.ts';
import { forward, UNPLACED, type Forward } from './forward.ts';
import { NOT_BEGUN, type Network } from './network.ts';

export interface CriticalPath {
  readonly early: Forward;
  /** Null when the end is not known. */
  readonly late: Latest | null;
  /** The end of the last wait; null when something has no dates. */
  readonly end: number | null;
  /** Per task node, worked minutes; null where not known. */
  readonly totalFloat: readonly (number | null)[];
  readonly freeFloat: readonly (number | null)[];
  /** The least total slack of all; null when none is known. */
  readonly least: number | null;
}

/**
 * @param floor the build cannot end before this (the last wait of what is finished); null when there is none, UNPLACED
 *   when it never ends
 * @param target the end the latest dates keep; null: the early end
 */
export function criticalPath(
  net: Network,
  sets: readonly WorkingSet[],
  floor: number | null,
  target: number | null,
): CriticalPath {
  const early = forward(net, sets);
  const end = earlyEnd(net, early, floor);
  const lateEnd = target ?? end;
  const late = lateEnd === null ? null : backward(net, sets, early, lateEnd);
  const free = end === null ? null : lastFree(net, sets, early, end);
  const slackTo = (last: Latest | null) =>
    Array.from({ length: net.taskCount }, (_, v) => {
      if (last === null || early.start[v] === UNPLACED || last.start[v] === UNKNOWN) return null;
      const started = net.begun[v] !== NOT_BEGUN;
      const [from, to] = started ? [early.finish[v]!, last.finish[v]!] : [early.start[v]!, last.start[v]!];
      return workedBetween(net, sets, v, from, to);
    });
  const totalFloat = slackTo(late);
  const known = totalFloat.filter((slack) => slack !== null);
  return {
    early,
    late,
    end,
    totalFloat,
    freeFloat: slackTo(free),
    least: known.length === 0 ? null : known.reduce((a, b) => Math.min(a, b)),
  };
}

/** The end of the last wait; null when something has no dates. @param floor as for `criticalPath` */
export function earlyEnd(net: Network, early: Forward, floor: number | null): number | null {
  if (floor === UNPLACED) return null;
  let end = floor ?? UNKNOWN;
  for (let v = 0; v < net.taskCount; v++) {
    if (early.ready[v] === UNPLACED) return null;
    end = Math.max(end, early.ready[v]!);
  }
  return end === UNKNOWN ? null : end;
}
