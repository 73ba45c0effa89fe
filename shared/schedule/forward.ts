/**
 * The forward pass: the earliest dates, in the same sweep that finds the order (Kahn's queue). A node is placed when
 * the last one before it has been; what never can be placed, or waits for such a one, stays out.
 */
import {
  after,
  finishOf,
  firstStart,
  NEVER_AGAIN,
  workedBefore,
  minuteAt,
  type WorkingSet,
} from '../time/working-set.ts';
import {
  CLOCK,
  FF,
  isLagged,
  isWorking,
  kindOf,
  NO_LOWER,
  NOT_BEGUN,
  SF,
  SS,
  targetOf,
  type Network,
} from './network.ts';

/** Not placed: no minute of the calendar will do, or something before it is not placed. */
export const UNPLACED = NEVER_AGAIN;

export interface Dates {
  /** Per node: instants; UNPLACED where there are none. */
  readonly start: Int32Array;
  readonly finish: Int32Array;
  /** When the wait is over. */
  readonly ready: Int32Array;
}

export interface Forward extends Dates {
  /** The nodes reached, each after all before it. */
  readonly order: Uint32Array;
}

/** What placed nodes ask of the rest, while a schedule is built node by node. */
export interface Bounds {
  readonly lower: Int32Array;
  readonly lowerFinish: Int32Array;
  readonly waitingFor: Uint32Array;
  /** Nodes nothing holds any more: [0, tail). */
  readonly queue: Uint32Array;
  tail: number;
}

export function boundsOf(net: Network): Bounds {
  const waitingFor = net.waitingFor.slice();
  const queue = new Uint32Array(net.size);
  let tail = 0;
  for (let v = 0; v < net.size; v++) if (waitingFor[v] === 0) queue[tail++] = v;
  return { lower: net.lower.slice(), lowerFinish: net.lowerFinish.slice(), waitingFor, queue, tail };
}

/** Earliest dates of every node that can be placed. O(nodes + arcs) */
export function forward(net: Network, sets: readonly WorkingSet[]): Forward {
  const start = new Int32Array(net.size).fill(UNPLACED);
  const finish = new Int32Array(net.size).fill(UNPLACED);
  const ready = new Int32Array(net.size).fill(UNPLACED);
  const bounds = boundsOf(net);
  const { lower, lowerFinish, queue } = bounds;
  for (let head = 0; head < bounds.tail; head++) {
    const v = queue[head]!;
    const minutes = net.minutes[v]!;
    const set = net.set[v]!;
    let s: number;
    let f: number;
    // Held by a wait or lag that never ends.
    if (lower[v] === UNPLACED || lowerFinish[v] === UNPLACED) continue;
    if (minutes === 0) s = f = Math.max(lower[v]!, lowerFinish[v]!);
    else if (set === CLOCK) {
      s = lower[v]!;
      if (lowerFinish[v]! > s + minutes) s = lowerFinish[v]! - minutes;
      f = s + minutes;
    } else {
      s = earliestStart(sets[set]!, lower[v]!, lowerFinish[v]!, minutes, net.sitting[v]!);
      if (s === UNPLACED) continue;
      f = finishOf(sets[set]!, s, minutes);
    }
    start[v] = s;
    finish[v] = f;
    const r = readyAt(net, sets, v, f);
    if (r === UNPLACED) continue;
    ready[v] = r;
    release(net, sets, v, s, f, r, bounds);
  }
  return { start, finish, ready, order: queue.subarray(0, bounds.tail) };
}

/** The first admissible start not before `lower` whose run ends at or after `lowerFinish`. */
export function earliestStart(
  set: WorkingSet,
  lower: number,
  lowerFinish: number,
  minutes: number,
  sitting: number,
): number {
  let from = lower;
  if (lowerFinish !== NO_LOWER) {
    // The run ends at or after that instant when it starts with at least this many worked minutes behind it.
    const index = workedBefore(set, lowerFinish - 1) + 1 - minutes;
    if (index >= set.total) return UNPLACED;
    if (index > 0) from = Math.max(from, minuteAt(set, index));
  }
  return firstStart(set, from, minutes, sitting);
}

/** When the wait after a finish is over. */
export function readyAt(net: Network, sets: readonly WorkingSet[], v: number, finish: number): number {
  const wait = net.wait[v]!;
  let ready = finish;
  if (wait > 0)
    ready = net.waitSet[v] === CLOCK ? finish + wait : after(sets[net.waitSet[v]!]!, finish, wait);
  return Math.max(ready, net.readyFrom[v]!);
}

/** Tells what follows a placed node how early it may be, and queues what now waits for nothing else. */
export function release(
  net: Network,
  sets: readonly WorkingSet[],
  v: number,
  start: number,
  finish: number,
  ready: number,
  bounds: Bounds,
): void {
  const { codes, offsets } = net;
  const { lower, lowerFinish, waitingFor, queue } = bounds;
  const begun = net.begun[v] === NOT_BEGUN ? start : net.begun[v]!;
  const end = offsets[v + 1]!;
  for (let arc = offsets[v]!; arc < end; arc++) {
    const code = codes[arc]!;
    const w = targetOf(code);
    const kind = kindOf(code);
    let bound = kind === 0 ? ready : kind === FF ? finish : begun;
    if (isLagged(code)) {
      const lag = net.lags[arc]!;
      bound = isWorking(code) && net.set[w] !== CLOCK ? after(sets[net.set[w]!]!, bound, lag) : bound + lag;
      // A lag that never ends holds its task for good: it stays in the count of what is waited for.
      if (bound >= NEVER_AGAIN) continue;
    }
    if (kind === 0 || kind === SS) {
      if (bound > lower[w]!) lower[w] = bound;
    } else if (kind === FF || kind === SF) {
      if (bound > lowerFinish[w]!) lowerFinish[w] = bound;
    }
    if (--waitingFor[w]! === 0) queue[bounds.tail++] = w;
  }
}
