/**
 * What a search knows of a problem: how a list becomes a schedule. One search serves every decoder, so nothing here
 * speaks of resources or calendars. A decoder that can also place from the end back gets forward-backward improvement.
 */
import type { Digraph } from '../graph/compile.ts';

/**
 * A schedule in arrays that are filled anew by each decoding. Starts and finishes may be any whole numbers that rise with
 * time: the search only sorts lists by them. Along an arc of the order neither falls.
 */
export interface Schedule {
  readonly starts: Int32Array;
  readonly finishes: Int32Array;
  /** Compared first to last, less is better. */
  readonly objective: Float64Array;
}

/** Places every activity of a list, first to last. Keeps no reference to either argument. */
export type Decode = (list: Int32Array, into: Schedule) => void;

export interface Decoder {
  readonly size: number;
  /** How many numbers an objective has. */
  readonly goals: number;
  /** v → w: w stands after v in every list. No circles. */
  readonly order: Digraph;
  /** Each activity of the list as early as it can be. */
  readonly forward: Decode;
  /**
   * The list runs from the last activity to the first; each is placed as late as it can be, then all are moved so that
   * the first begins where a forward schedule does. Null where time cannot be turned round.
   */
  readonly backward: Decode | null;
  /** No schedule is better; null where nothing is known. */
  readonly bound: Float64Array | null;
  /** Who is urgent in a forward list: the least first, late finishes for one. */
  readonly urgency: Float64Array;
}

export function emptySchedule({ size, goals }: Pick<Decoder, 'size' | 'goals'>): Schedule {
  return { starts: new Int32Array(size), finishes: new Int32Array(size), objective: new Float64Array(goals) };
}

/** Below 0 if a is better, 0 if they are alike. */
export function compareObjectives(a: Float64Array, b: Float64Array): number {
  for (let i = 0; i < a.length; i++) {
    if (a[i]! < b[i]!) return -1;
    if (a[i]! > b[i]!) return 1;
  }
  return 0;
}
