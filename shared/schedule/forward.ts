/**
 * The forward pass: the earliest dates, in the same sweep that finds the order (Kahn's queue). A node is placed when
 * the last one before it has been; what never can be placed, or waits for such a one, stays out.
 */
import {
  after,
  firstRun,
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
  isPlain,
  isWorking,
  kindOf,
  NO_LOWER,
  NOT_BEGUN,
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
  readonly waitingFor: Int32Array;
  /** Nodes nothing holds any more: [0, tail). One entry more than nodes, for a node written before it is counted. */
  readonly queue: Uint32Array;
  tail: number;
}

export function boundsOf(net: Network): Bounds {
  const waitingFor = net.waitingFor.slice();
  const queue = new Uint32Array(net.size + 1);
  let tail = 0;
  for (let v = 0; v < net.size; v++) if (waitingFor[v] === 0) queue[tail++] = v;
  return { lower: net.lower.slice(), lowerFinish: net.lowerFinish.slice(), waitingFor, queue, tail };
}

/**
 * Earliest dates of every node that can be placed. O(nodes + arcs). Plain arcs, nearly all of them, are swept without a
 * branch: which bound is the later one, and whether an arc is the last into its node, no processor guesses well.
 */
export function forward(net: Network, sets: readonly WorkingSet[]): Forward {
  const { codes, offsets, minutes, uneven } = net;
  const start = new Int32Array(net.size).fill(UNPLACED);
  const finish = new Int32Array(net.size).fill(UNPLACED);
  const ready = new Int32Array(net.size).fill(UNPLACED);
  const bounds = boundsOf(net);
  const { lower, lowerFinish, queue, waitingFor } = bounds;
  const run = { start: 0, finish: 0 };
  let tail = bounds.tail;
  for (let head = 0; head < tail; head++) {
    const v = queue[head]!;
    const length = minutes[v]!;
    const least = lower[v]!;
    const leastFinish = lowerFinish[v]!;
    const set = net.set[v]!;
    // Held by a wait or lag that never ends.
    if (least >= UNPLACED || leastFinish >= UNPLACED) continue;
    let s: number;
    let f: number;
    if (set === CLOCK || length === 0) {
      const by = (leastFinish - length) | 0;
      s = by > least ? by : least;
      f = s + length;
    } else {
      const open = sets[set]!;
      const from = leastFinish === NO_LOWER ? least : leastStart(open, least, leastFinish, length);
      if (!firstRun(open, from, length, net.sitting[v]!, run)) continue;
      s = run.start;
      f = run.finish;
    }
    if (f >= UNPLACED) continue;
    start[v] = s;
    finish[v] = f;
    const r = uneven[v] === 0 ? f : readyAt(net, sets, v, f);
    if (r === UNPLACED) continue;
    ready[v] = r;
    const end = offsets[v + 1]!;
    for (let arc = offsets[v]!; arc < end; arc++) {
      const code = codes[arc]!;
      const w = targetOf(code);
      if (!isPlain(code)) {
        if (!bind(net, sets, v, s, f, r, arc, bounds)) continue;
      } else {
        const more = (r - lower[w]!) | 0;
        lower[w]! += more & ~(more >> 31);
      }
      const left = (waitingFor[w]! - 1) | 0;
      waitingFor[w] = left;
      queue[tail] = w;
      tail += (left - 1) >>> 31;
    }
  }
  bounds.tail = tail;
  return { start, finish, ready, order: queue.subarray(0, tail) };
}

/** The first admissible start not before `lower` whose run ends at or after `lowerFinish`. */
export function earliestStart(
  set: WorkingSet,
  lower: number,
  lowerFinish: number,
  minutes: number,
  sitting: number,
): number {
  return firstStart(set, leastStart(set, lower, lowerFinish, minutes), minutes, sitting);
}

/** The first instant not before `lower` from which a run ends at or after `lowerFinish`; UNPLACED if there is none. */
export function leastStart(set: WorkingSet, lower: number, lowerFinish: number, minutes: number): number {
  const index = leastIndex(set, lowerFinish, minutes);
  if (index >= set.total) return UNPLACED;
  return index > 0 ? Math.max(lower, minuteAt(set, index)) : lower;
}

/** The number of the first worked minute from which a run ends at or after that instant. */
export function leastIndex(set: WorkingSet, lowerFinish: number, minutes: number): number {
  return lowerFinish === NO_LOWER ? 0 : Math.max(0, workedBefore(set, lowerFinish - 1) + 1 - minutes);
}

/** When the wait after a finish is over; UNPLACED if never. */
export function readyAt(net: Network, sets: readonly WorkingSet[], v: number, finish: number): number {
  const wait = net.wait[v]!;
  const from = net.readyFrom[v]!;
  let ready = finish;
  if (wait > 0)
    ready = net.waitSet[v] === CLOCK ? finish + wait : after(sets[net.waitSet[v]!]!, finish, wait);
  if (ready < from) ready = from;
  return ready < UNPLACED ? ready : UNPLACED;
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
  const { waitingFor, queue } = bounds;
  for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) {
    if (!bind(net, sets, v, start, finish, ready, arc, bounds)) continue;
    const w = targetOf(codes[arc]!);
    if (--waitingFor[w]! === 0) queue[bounds.tail++] = w;
  }
}

/** Tells the target of an arc how early it may be. @returns false for a lag that never ends: it holds for good */
function bind(
  net: Network,
  sets: readonly WorkingSet[],
  v: number,
  start: number,
  finish: number,
  ready: number,
  arc: number,
  { lower, lowerFinish }: Bounds,
): boolean {
  const code = net.codes[arc]!;
  const w = targetOf(code);
  const kind = kindOf(code);
  const begun = net.begun[v] === NOT_BEGUN ? start : net.begun[v]!;
  let bound = kind === 0 ? ready : kind === FF ? finish : begun;
  if (isLagged(code)) {
    const lag = net.lags[arc]!;
    bound = isWorking(code) && net.set[w] !== CLOCK ? after(sets[net.set[w]!]!, bound, lag) : bound + lag;
    if (bound >= NEVER_AGAIN) return false;
  }
  const into = kind === 0 || kind === SS ? lower : lowerFinish;
  if (bound > into[w]!) into[w] = bound;
  return true;
}
