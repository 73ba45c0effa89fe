/**
 * A working set: the minutes at which some work can go on, over the whole span of a calendar, with the four questions
 * a schedule asks of it. Pieces are stretches without a break; pieces of one day at most 90 minutes apart are one
 * sitting (lunch does not end it). Counting is by prefix sums; a table by day and one by worked minutes give the
 * piece at once, so each question costs a few steps however long the calendar.
 */
import { DAY } from './clock.ts';

/**
 * No admissible minute before the end of the calendar; instants from here on, a thousand years ahead, count as never.
 * So far inside 32 bits that a wait can be added to any instant, and one instant taken from another, without a wrap.
 */
export const NEVER_AGAIN = 0x2000_0000;
/** No admissible minute back to the beginning of the calendar; instants up to here count as never. */
export const NEVER_BEFORE = -0x2000_0000;

/** Worked minutes per entry of the look-up by worked minutes: 2^7. */
export const SHIFT = 7;

/** Runs longer than this look up where they end; shorter ones walk there, which is a few pieces at most. */
const FAR = 1024;

/** Numbers per row, and where they stand in it. */
export const ROW = 4;
export const END = 1;
export const BEFORE = 2;
export const SITTING_END = 3;
const NEXT_BEFORE = ROW + BEFORE;
/** Later than every instant, more than every count. */
export const BEYOND = 0x3fff_ffff;

export interface WorkingSet {
  /** First minute of the span; whole days. */
  readonly from: number;
  readonly to: number;
  /** Instants, one per piece, rising. */
  readonly starts: Int32Array;
  readonly ends: Int32Array;
  /**
   * A row per piece, together because they are asked for together: its start, its end, the worked minutes before it
   * and at the end of its sitting. One row more lies beyond everything, so that no search needs to look for the end.
   */
  readonly rows: Int32Array;
  /** Per piece: worked minutes at the beginning of its sitting. */
  readonly sittingStart: Int32Array;
  readonly total: number;
  readonly longestSitting: number;
  /** Per day of the span: the row of the first piece that ends after 00:00. */
  readonly rowOfDay: Int32Array;
  /** Per 128 worked minutes: the row of the piece that holds the first of them. */
  readonly rowOfWorked: Int32Array;
}

/** The row of the first piece that ends after `instant`; the one beyond if none does. */
function rowAt({ from, to, rows, rowOfDay }: WorkingSet, instant: number): number {
  if (instant <= from) return 0;
  if (instant >= to) return rows.length - ROW;
  let row = rowOfDay[((instant - from) / DAY) | 0]!;
  while (rows[row + END]! <= instant) row += ROW;
  return row;
}

/** The row of the piece that holds worked minute number `index`. */
function rowOf({ rows, rowOfWorked }: WorkingSet, index: number): number {
  let row = rowOfWorked[index >> SHIFT]!;
  while (rows[row + NEXT_BEFORE]! <= index) row += ROW;
  return row;
}

/** Worked minutes before `instant`, counted from the beginning of the span. */
export function workedBefore(set: WorkingSet, instant: number): number {
  const { rows } = set;
  const row = rowAt(set, instant);
  const since = instant - rows[row]!;
  return rows[row + BEFORE]! + (since > 0 ? since : 0);
}

/** The instant at which worked minute number `index` begins. @param index 0 ≤ index < total */
export function minuteAt(set: WorkingSet, index: number): number {
  const { rows } = set;
  const row = rowOf(set, index);
  return rows[row]! + index - rows[row + BEFORE]!;
}

/** Where a search writes what it found, so that a pass over many tasks makes no objects. Instants. */
export interface Run {
  start: number;
  finish: number;
}

/**
 * The first admissible start at or after `instant` for work of `minutes`: a worked minute from which the sitting has
 * at least `sitting` worked minutes left, early enough that the work ends within the calendar.
 * @param run where the start and the end of its last worked minute go
 * @returns false if there is none
 */
export function firstRun(
  set: WorkingSet,
  instant: number,
  minutes: number,
  sitting: number,
  run: Run,
): boolean {
  const { rows, total } = set;
  if (sitting > set.longestSitting) return false;
  let row = rowAt(set, instant);
  const since = instant - rows[row]!;
  let index = rows[row + BEFORE]! + (since > 0 ? since : 0);
  while (rows[row + SITTING_END]! - index < sitting) {
    // Too late in this sitting: on to the first piece of the next.
    index = rows[row + SITTING_END]!;
    while (rows[row + BEFORE]! < index) row += ROW;
  }
  if (index >= total || index + minutes > total) return false;
  setRun(set, row, index, minutes, run);
  return true;
}

/** @returns the start of `firstRun`; NEVER_AGAIN if there is none */
export function firstStart(set: WorkingSet, instant: number, minutes: number, sitting: number): number {
  const run = { start: 0, finish: 0 };
  return firstRun(set, instant, minutes, sitting, run) ? run.start : NEVER_AGAIN;
}

/** The run of `minutes` from worked minute number `index` on, which lies in the piece of that row. */
function setRun(set: WorkingSet, row: number, index: number, minutes: number, run: Run): void {
  const { rows } = set;
  const start = rows[row]! + index - rows[row + BEFORE]!;
  run.start = start;
  const end = start + minutes;
  // Nearly all work of an evening ends in the piece it began in.
  run.finish = end <= rows[row + END]! ? end : endOf(set, row, index + minutes - 1);
}

/** The end of worked minute number `last`, which lies in a piece after that row. */
function endOf(set: WorkingSet, row: number, last: number): number {
  const { rows } = set;
  let at = row + ROW;
  if (last - rows[at + BEFORE]! > FAR) at = rowOf(set, last);
  while (rows[at + NEXT_BEFORE]! <= last) at += ROW;
  return rows[at]! + last - rows[at + BEFORE]! + 1;
}

/** `firstStart` in worked minutes: from number `index` on. @returns -1 if there is none */
export function firstStartIndex(set: WorkingSet, index: number, minutes: number, sitting: number): number {
  if (sitting > set.longestSitting) return -1;
  let at = index;
  while (at + minutes <= set.total) {
    const end = set.rows[rowOf(set, at) + SITTING_END]!;
    if (end - at >= sitting) return at;
    at = end;
  }
  return -1;
}

/** `firstStartIndex` turned round: the last worked minute up to number `index` that leaves enough. @returns -1 if there is none */
export function lastStartIndex(set: WorkingSet, index: number, sitting: number): number {
  if (sitting > set.longestSitting) return -1;
  let at = Math.min(index, set.total - 1);
  while (at >= 0) {
    const row = rowOf(set, at);
    const end = set.rows[row + SITTING_END]!;
    if (end - at >= sitting) return at;
    // Back to the last minute of its sitting that leaves enough, or on to the sitting before.
    const first = set.sittingStart[row / ROW]!;
    at = end - sitting >= first ? end - sitting : first - 1;
  }
  return -1;
}

/** When work of `minutes` begun at the worked minute `start` ends: the end of its last worked minute. */
export function finishOf(set: WorkingSet, start: number, minutes: number): number {
  const { rows } = set;
  const row = rowAt(set, start);
  const end = start + minutes;
  return end <= rows[row + END]! ? end : endOf(set, row, rows[row + BEFORE]! + end - rows[row]! - 1);
}

/** Do two worked minutes lie in one sitting? */
export function inSameSitting(set: WorkingSet, one: number, other: number): boolean {
  return set.rows[rowAt(set, one) + SITTING_END] === set.rows[rowAt(set, other) + SITTING_END];
}

/**
 * The last admissible start that is not after `latestStart` and whose run of `minutes` ends by `latestFinish`.
 * @param run where the start and the end of its last worked minute go
 * @returns false if there is none
 */
export function lastRun(
  set: WorkingSet,
  latestStart: number,
  latestFinish: number,
  minutes: number,
  sitting: number,
  run: Run,
): boolean {
  const { rows } = set;
  if (sitting > set.longestSitting) return false;
  let row = rowAt(set, latestFinish - 1);
  const since = latestFinish - rows[row]!;
  let index = rows[row + BEFORE]! + (since > 0 ? since : 0) - minutes;
  if (latestStart < set.to) index = Math.min(index, workedBefore(set, latestStart + 1) - 1);
  if (index < 0) return false;
  if (rows[row + BEFORE]! - index > FAR) row = rowOf(set, index);
  while (rows[row + BEFORE]! > index) row -= ROW;
  while (rows[row + SITTING_END]! - index < sitting) {
    // Too late in its sitting: back to the last minute of it that leaves enough, or on to the sitting before.
    index = rows[row + SITTING_END]! - sitting;
    const first = set.sittingStart[row / ROW]!;
    if (index < first) index = first - 1;
    if (index < 0) return false;
    while (rows[row + BEFORE]! > index) row -= ROW;
  }
  setRun(set, row, index, minutes, run);
  return true;
}

/** @returns the start of `lastRun`; NEVER_BEFORE if there is none */
export function lastStart(
  set: WorkingSet,
  latestStart: number,
  latestFinish: number,
  minutes: number,
  sitting: number,
): number {
  const run = { start: 0, finish: 0 };
  return lastRun(set, latestStart, latestFinish, minutes, sitting, run) ? run.start : NEVER_BEFORE;
}

/** The earliest instant by which `minutes` have been worked since `instant`: a wait or lag that runs in this set. */
export function after(set: WorkingSet, instant: number, minutes: number): number {
  if (minutes === 0) return instant;
  const index = workedBefore(set, instant) + minutes;
  return index > set.total ? NEVER_AGAIN : minuteAt(set, index - 1) + 1;
}

/** The latest instant from which `minutes` are worked by `instant`: the reverse of `after`. */
export function backFrom(set: WorkingSet, instant: number, minutes: number): number {
  if (minutes === 0) return instant;
  const index = workedBefore(set, instant) - minutes;
  if (index < 0) return NEVER_BEFORE;
  // Everything up to the beginning of worked minute `index` has had `index` minutes before it, the gap before it too.
  return index < set.total ? minuteAt(set, index) : set.to;
}

/** The stretches in which the work of `minutes` begun at `start` goes on: `[start, end]` instants. */
export function runPieces(set: WorkingSet, start: number, minutes: number): [number, number][] {
  const out: [number, number][] = [];
  let left = minutes;
  for (let p = rowAt(set, start) / ROW; left > 0 && p < set.starts.length; p++) {
    const from = Math.max(start, set.starts[p]!);
    const to = Math.min(set.ends[p]!, from + left);
    out.push([from, to]);
    left -= to - from;
  }
  return out;
}
