/**
 * The least two passes can cost: bare longest-path sweeps over offsets, targets and minutes, the order given and the
 * arrays for the results kept. No kinds, lags, waits, bounds or calendars, and no word where there is no order.
 */
import type { Digraph } from '#shared/graph/compile.ts';

/** Earliest starts into `start`. @returns the end */
export function sweepForward(
  { offsets, targets }: Digraph,
  minutes: Int32Array,
  order: Uint32Array,
  start: Int32Array,
): number {
  start.fill(0);
  let last = 0;
  for (let i = 0; i < order.length; i++) {
    const v = order[i]!;
    const end = start[v]! + minutes[v]!;
    if (end > last) last = end;
    const stop = offsets[v + 1]!;
    for (let arc = offsets[v]!; arc < stop; arc++) {
      const w = targets[arc]!;
      if (start[w]! < end) start[w] = end;
    }
  }
  return last;
}

/** Latest starts into `start`. */
export function sweepBackward(
  { offsets, targets }: Digraph,
  minutes: Int32Array,
  order: Uint32Array,
  end: number,
  start: Int32Array,
): void {
  for (let i = order.length - 1; i >= 0; i--) {
    const v = order[i]!;
    let finish = end;
    const stop = offsets[v + 1]!;
    for (let arc = offsets[v]!; arc < stop; arc++) {
      const next = start[targets[arc]!]!;
      if (next < finish) finish = next;
    }
    start[v] = finish - minutes[v]!;
  }
}

/** `sweepForward` with the greater of two picked by arithmetic: no branch, so none is guessed wrong. */
export function sweepForwardUnbranched(
  { offsets, targets }: Digraph,
  minutes: Int32Array,
  order: Uint32Array,
  start: Int32Array,
): number {
  start.fill(0);
  let last = 0;
  for (let i = 0; i < order.length; i++) {
    const v = order[i]!;
    const end = (start[v]! + minutes[v]!) | 0;
    if (end > last) last = end;
    const stop = offsets[v + 1]!;
    for (let arc = offsets[v]!; arc < stop; arc++) {
      const w = targets[arc]!;
      const more = (end - start[w]!) | 0;
      start[w]! += more & ~(more >> 31);
    }
  }
  return last;
}

/** `sweepBackward` likewise. */
export function sweepBackwardUnbranched(
  { offsets, targets }: Digraph,
  minutes: Int32Array,
  order: Uint32Array,
  end: number,
  start: Int32Array,
): void {
  for (let i = order.length - 1; i >= 0; i--) {
    const v = order[i]!;
    let finish = end | 0;
    const stop = offsets[v + 1]!;
    for (let arc = offsets[v]!; arc < stop; arc++) {
      const more = (start[targets[arc]!]! - finish) | 0;
      finish = (finish + (more & (more >> 31))) | 0;
    }
    start[v] = finish - minutes[v]!;
  }
}
