/**
 * A working set: the minutes at which some work can go on, over the whole span of a calendar, with the four questions
 * a schedule asks of it. Pieces are stretches without a break; pieces of one day at most 90 minutes apart are one
 * sitting (lunch does not end it). Counting is by prefix sums; a table by day and one by worked minutes give the
 * piece at once, so each question costs a few steps however long the calendar.
 */
import { DAY } from './clock.ts';
import type { Availability } from './availability.ts';
import type { Patterns } from './patterns.ts';

/** No admissible minute before the end of the calendar. */
export const NEVER_AGAIN = 0x7fff_ffff;
/** No admissible minute back to the beginning of the calendar. */
export const NEVER_BEFORE = -0x8000_0000;

/** Pieces of one day with at most this many minutes between them are one sitting. */
const LONGEST_LUNCH = 90;

/** Worked minutes per entry of the look-up by worked minutes: 2^7. */
const SHIFT = 7;

export interface WorkingSet {
  /** First minute of the span; whole days. */
  readonly from: number;
  readonly to: number;
  /** Instants, one per piece, rising. */
  readonly starts: Int32Array;
  readonly ends: Int32Array;
  /** Worked minutes before each piece; one entry more, the total. */
  readonly before: Int32Array;
  /** Worked minutes at the end of each piece's sitting, and at its beginning. */
  readonly sittingEnd: Int32Array;
  readonly sittingStart: Int32Array;
  readonly total: number;
  readonly longestSitting: number;
  /** Per day of the span: the first piece that ends after 00:00. */
  readonly pieceOfDay: Int32Array;
  /** Per 128 worked minutes: the piece that holds the first of them. */
  readonly pieceOfWorked: Int32Array;
}

/** @param origin instant of the span's first 00:00, whole days from the build's start */
export function workingSet(days: Availability, origin: number, patterns: Patterns): WorkingSet {
  const flat: number[] = [];
  for (let d = 0; d < days.length; d++) {
    const stretches = patterns.at(days[d]!);
    const base = origin + d * DAY;
    for (let i = 0; i < stretches.length; i += 2) {
      const start = base + stretches[i]!;
      // A window up to 24:00 and one from 00:00 are one piece: nobody puts the tools down at midnight.
      if (flat.length > 0 && flat[flat.length - 1] === start)
        flat[flat.length - 1] = base + stretches[i + 1]!;
      else flat.push(start, base + stretches[i + 1]!);
    }
  }
  return fromPieces(flat, origin, origin + days.length * DAY);
}

function fromPieces(flat: readonly number[], from: number, to: number): WorkingSet {
  const count = flat.length / 2;
  const starts = new Int32Array(count);
  const ends = new Int32Array(count);
  const before = new Int32Array(count + 1);
  for (let p = 0; p < count; p++) {
    starts[p] = flat[2 * p]!;
    ends[p] = flat[2 * p + 1]!;
    before[p + 1] = before[p]! + ends[p]! - starts[p]!;
  }
  const sittingStart = new Int32Array(count);
  const sittingEnd = new Int32Array(count);
  let longestSitting = 0;
  for (let p = 0; p < count;) {
    let last = p;
    while (last + 1 < count && sameSitting(ends[last]!, starts[last + 1]!)) last++;
    for (let q = p; q <= last; q++) {
      sittingStart[q] = before[p]!;
      sittingEnd[q] = before[last + 1]!;
    }
    longestSitting = Math.max(longestSitting, before[last + 1]! - before[p]!);
    p = last + 1;
  }
  const total = before[count]!;
  const pieceOfDay = new Int32Array((to - from) / DAY + 1);
  for (let d = 0, p = 0; d < pieceOfDay.length; d++) {
    while (p < count && ends[p]! <= from + d * DAY) p++;
    pieceOfDay[d] = p;
  }
  const pieceOfWorked = new Int32Array((total >> SHIFT) + 1);
  for (let b = 0, p = 0; b < pieceOfWorked.length; b++) {
    while (p + 1 < count && before[p + 1]! <= b << SHIFT) p++;
    pieceOfWorked[b] = p;
  }
  return {
    from,
    to,
    starts,
    ends,
    before,
    sittingStart,
    sittingEnd,
    total,
    longestSitting,
    pieceOfDay,
    pieceOfWorked,
  };
}

/** Two windows of one day, at most 90 minutes apart. */
function sameSitting(end: number, start: number): boolean {
  return start - end <= LONGEST_LUNCH && Math.floor((end - 1) / DAY) === Math.floor(start / DAY);
}

/** The first piece that ends after `instant`; the number of pieces if none does. */
export function pieceAt(set: WorkingSet, instant: number): number {
  if (instant <= set.from) return 0;
  if (instant >= set.to) return set.starts.length;
  let p = set.pieceOfDay[((instant - set.from) / DAY) | 0]!;
  while (p < set.ends.length && set.ends[p]! <= instant) p++;
  return p;
}

/** Worked minutes before `instant`, counted from the beginning of the span. */
export function workedBefore(set: WorkingSet, instant: number): number {
  const p = pieceAt(set, instant);
  const start = set.starts[p];
  return start === undefined || instant <= start ? set.before[p]! : set.before[p]! + instant - start;
}

/** The instant at which worked minute number `index` begins. @param index 0 ≤ index < total */
export function minuteAt(set: WorkingSet, index: number): number {
  let p = set.pieceOfWorked[index >> SHIFT]!;
  while (set.before[p + 1]! <= index) p++;
  return set.starts[p]! + index - set.before[p]!;
}

/**
 * The first admissible start at or after `instant` for work of `minutes`: a worked minute from which the sitting has
 * at least `sitting` worked minutes left, early enough that the work ends within the calendar.
 * @returns NEVER_AGAIN if there is none
 */
export function firstStart(set: WorkingSet, instant: number, minutes: number, sitting: number): number {
  if (sitting > set.longestSitting) return NEVER_AGAIN;
  let p = pieceAt(set, instant);
  let index = set.before[p]!;
  if (p < set.starts.length && instant > set.starts[p]!) index += instant - set.starts[p]!;
  while (p < set.starts.length && set.sittingEnd[p]! - index < sitting) {
    // Too late in this sitting: on to the first piece of the next.
    const end = set.sittingEnd[p]!;
    while (p < set.starts.length && set.before[p]! < end) p++;
    index = end;
  }
  return index + minutes <= set.total && p < set.starts.length
    ? set.starts[p]! + index - set.before[p]!
    : NEVER_AGAIN;
}

/** When work of `minutes` begun at the worked minute `start` ends: the end of its last worked minute. */
export function finishOf(set: WorkingSet, start: number, minutes: number): number {
  const p = pieceAt(set, start);
  const end = start + minutes;
  // Nearly all work of an evening ends in the piece it began in.
  if (end <= set.ends[p]!) return end;
  return minuteAt(set, set.before[p]! + start - set.starts[p]! + minutes - 1) + 1;
}

/**
 * The last admissible start that is not after `latestStart` and whose run of `minutes` ends by `latestFinish`.
 * @returns NEVER_BEFORE if there is none
 */
export function lastStart(
  set: WorkingSet,
  latestStart: number,
  latestFinish: number,
  minutes: number,
  sitting: number,
): number {
  if (sitting > set.longestSitting) return NEVER_BEFORE;
  let index = workedBefore(set, latestFinish) - minutes;
  if (latestStart < set.to) index = Math.min(index, workedBefore(set, latestStart + 1) - 1);
  if (index < 0) return NEVER_BEFORE;
  let p = set.pieceOfWorked[index >> SHIFT]!;
  while (set.before[p + 1]! <= index) p++;
  while (set.sittingEnd[p]! - index < sitting) {
    // Too late in its sitting: back to the last minute of it that leaves enough, or on to the sitting before.
    index = set.sittingEnd[p]! - sitting;
    if (index < set.sittingStart[p]!) index = set.sittingStart[p]! - 1;
    if (index < 0) return NEVER_BEFORE;
    while (set.before[p]! > index) p--;
  }
  return set.starts[p]! + index - set.before[p]!;
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
  for (let p = pieceAt(set, start); left > 0 && p < set.starts.length; p++) {
    const from = Math.max(start, set.starts[p]!);
    const to = Math.min(set.ends[p]!, from + left);
    out.push([from, to]);
    left -= to - from;
  }
  return out;
}
