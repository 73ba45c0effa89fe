/**
 * The delay test: a task that drives the finish is put off by 600 days, and the finish has to move by as much
 * (DCMA-EA PAM 200.1, check 12). It is a test of logic, so it runs on a clock that never stops: days off and seasons would
 * add days or swallow some. What the calendar makes of it is told beside it.
 */
import type { Logic } from '../schedule/draft.ts';
import { criticalPath, earlyEnd, type CriticalPath } from '../schedule/critical-path.ts';
import { forward } from '../schedule/forward.ts';
import { CLOCK, markUneven, NO_UPPER, type Network } from '../schedule/network.ts';
import { DAY } from '../time/clock.ts';
import type { WorkingSet } from '../time/working-set.ts';

export const DELAY_DAYS = 600;
/** So many driving tasks are put off, one after another; each costs a pass. */
const MOST_TESTED = 25;

export interface DelayTest {
  /** Task nodes put off, and by how many minutes the finish moved for each. */
  readonly tested: readonly { readonly node: number; readonly moved: number }[];
  /** Whole days by which one of them moves the finish on the calendar; null where it goes beyond it. */
  readonly onCalendar: number | null;
}

/** Null where the finish has no date. @param floor what is finished still waits until then */
export function delayTest({ net: dated, basis }: Logic, floor: number | null): DelayTest | null {
  const { sets } = basis.calendar;
  const net = withoutUpper(dated);
  const onCalendar = criticalPath(net, sets, floor, null);
  const clock = aroundTheClock(net);
  const path = criticalPath(clock, [], floor, null);
  if (onCalendar.end === null || path.end === null) return null;
  const { end, early, totalFloat } = path;
  const driving = Array.from({ length: net.taskCount }, (_, v) => v)
    .filter((v) => totalFloat[v] === 0)
    .toSorted((a, b) => early.start[a]! - early.start[b]! || a - b)
    .slice(0, MOST_TESTED);
  const tested = driving.map((node) => ({
    node,
    moved: (endWithDelay(clock, [], floor, path, node) ?? end) - end,
  }));
  const first = driving.find((v) => onCalendar.totalFloat[v] === 0) ?? driving[0];
  const late = first === undefined ? null : endWithDelay(net, sets, floor, onCalendar, first);
  return { tested, onCalendar: late === null ? null : Math.round((late - onCalendar.end) / DAY) };
}

/** The early end when that node begins 600 days after its early start. */
function endWithDelay(
  net: Network,
  sets: readonly WorkingSet[],
  floor: number | null,
  { early }: CriticalPath,
  node: number,
): number | null {
  const lower = net.lower.slice();
  lower[node] = early.start[node]! + DELAY_DAYS * DAY;
  const delayed = { ...net, lower };
  return earlyEnd(delayed, forward(delayed, sets), floor);
}

/** The same network where no date is fixed from above: what has to be met by a date is not what drives the finish. */
export function withoutUpper(net: Network): Network {
  const free = {
    ...net,
    upper: new Int32Array(net.size).fill(NO_UPPER),
    uneven: new Uint8Array(net.size),
  };
  markUneven(free);
  return free;
}

/** The same network where everything is worked day and night. */
function aroundTheClock(net: Network): Network {
  const always = () => new Int32Array(net.size).fill(CLOCK);
  const clock = { ...net, set: always(), waitSet: always(), uneven: new Uint8Array(net.size) };
  markUneven(clock);
  return clock;
}
