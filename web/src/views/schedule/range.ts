/** The stretch of time the axis covers, told from the plan. */
import { weekdayOf } from '#shared/time/days.ts';
import type { AxisRange } from './axis.ts';
import type { Bar } from './bars.ts';

/** Days before this week at the left edge. */
const BEFORE = 14;
/** Drawn by the day from this week on. */
const NEAR = 13 * 7;
/** Left free behind the last mark. */
const MARGIN = 28;
/** However short the plan, so much is shown. */
const LEAST = 56;

/** @param today @param target @param start days since 1970-01-01; the target may be missing */
export function rangeOf(
  bars: Iterable<Pick<Bar, 'end' | 'waitTo'>>,
  today: number,
  target: number | null,
  start: number,
): AxisRange {
  const monday = Math.floor(today) - weekdayOf(Math.floor(today));
  const from = Math.max(monday - BEFORE, start - weekdayOf(start));
  let last = Math.max(from + LEAST, target ?? 0);
  for (const { end, waitTo } of bars) last = Math.max(last, Math.ceil(waitTo ?? end));
  return { first: Math.min(from, start), from, turn: monday + NEAR, to: last + MARGIN };
}
