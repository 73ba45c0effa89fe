/** From the open stretches of each day to a working set: pieces, sittings and the tables its questions look in. */
import type { Availability } from './availability.ts';
import { DAY } from './clock.ts';
import type { Patterns } from './patterns.ts';
import { BEFORE, BEYOND, END, ROW, SHIFT, SITTING_END, type WorkingSet } from './working-set.ts';

/** Pieces of one day with at most this many minutes between them are one sitting. */
export const LONGEST_LUNCH = 90;

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
  const rows = new Int32Array((count + 1) * ROW).fill(BEYOND);
  let total = 0;
  for (let p = 0; p < count; p++) {
    starts[p] = rows[p * ROW] = flat[2 * p]!;
    ends[p] = rows[p * ROW + END] = flat[2 * p + 1]!;
    rows[p * ROW + BEFORE] = total;
    total += ends[p]! - starts[p]!;
  }
  rows[count * ROW + BEFORE] = total;
  const before = (p: number) => rows[p * ROW + BEFORE]!;
  const sittingStart = new Int32Array(count);
  let longestSitting = 0;
  for (let p = 0; p < count;) {
    let last = p;
    while (last + 1 < count && sameSitting(ends[last]!, starts[last + 1]!)) last++;
    for (let q = p; q <= last; q++) {
      sittingStart[q] = before(p);
      rows[q * ROW + SITTING_END] = before(last + 1);
    }
    longestSitting = Math.max(longestSitting, before(last + 1) - before(p));
    p = last + 1;
  }
  const rowOfDay = new Int32Array((to - from) / DAY + 1);
  for (let d = 0, p = 0; d < rowOfDay.length; d++) {
    while (p < count && ends[p]! <= from + d * DAY) p++;
    rowOfDay[d] = p * ROW;
  }
  const rowOfWorked = new Int32Array((total >> SHIFT) + 1);
  for (let b = 0, p = 0; b < rowOfWorked.length; b++) {
    while (p + 1 < count && before(p + 1) <= b << SHIFT) p++;
    rowOfWorked[b] = p * ROW;
  }
  return { from, to, starts, ends, rows, sittingStart, total, longestSitting, rowOfDay, rowOfWorked };
}

/** Two windows of one day, at most 90 minutes apart. */
function sameSitting(end: number, start: number): boolean {
  return start - end <= LONGEST_LUNCH && Math.floor((end - 1) / DAY) === Math.floor(start / DAY);
}
