/** Where two runs of work meet, without making their pieces. */
import type { WorkingSet } from '../time/working-set.ts';

/**
 * The end of the last stretch of `set` within [from, to) in which the work of the other run also goes on: a later start
 * that does not lie behind it would meet it again. @returns -Infinity if they never meet
 */
export function lastMeeting(
  set: WorkingSet,
  from: number,
  to: number,
  other: WorkingSet,
  otherFrom: number,
  otherTo: number,
): number {
  const begin = Math.max(from, otherFrom);
  const end = Math.min(to, otherTo);
  let p = lastPieceBefore(set, end);
  let q = lastPieceBefore(other, end);
  while (p >= 0 && q >= 0 && set.ends[p]! > begin && other.ends[q]! > begin) {
    const meet = Math.max(set.starts[p]!, other.starts[q]!, begin);
    const part = Math.min(set.ends[p]!, other.ends[q]!, end);
    if (meet < part) return Math.min(set.ends[p]!, to);
    if (set.starts[p]! > other.starts[q]!) p--;
    else q--;
  }
  return -Infinity;
}

/** The start of the first such stretch. @returns Infinity if they never meet */
export function firstMeeting(
  set: WorkingSet,
  from: number,
  to: number,
  other: WorkingSet,
  otherFrom: number,
  otherTo: number,
): number {
  const begin = Math.max(from, otherFrom);
  const end = Math.min(to, otherTo);
  let p = lastPieceBefore(set, begin + 1);
  let q = lastPieceBefore(other, begin + 1);
  if (p < 0) p = 0;
  if (q < 0) q = 0;
  while (p < set.starts.length && q < other.starts.length) {
    const meet = Math.max(set.starts[p]!, other.starts[q]!, begin);
    if (meet >= end) break;
    if (meet < Math.min(set.ends[p]!, other.ends[q]!)) return Math.max(set.starts[p]!, from);
    if (set.ends[p]! < other.ends[q]!) p++;
    else q++;
  }
  return Infinity;
}

/** The last piece that begins before an instant; -1 if none does. */
function lastPieceBefore({ starts }: WorkingSet, instant: number): number {
  let low = 0;
  let high = starts.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (starts[middle]! < instant) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
