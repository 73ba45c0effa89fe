/**
 * The backward pass: the latest dates that keep what comes after, in the reverse of the forward order, and the slack
 * between the two. Definitions as in GAO-16-89G, Schedule Assessment Guide (2015), on the real calendar.
 */
import {
  backFrom,
  lastRun,
  NEVER_BEFORE,
  workedBefore,
  type Run,
  type WorkingSet,
} from '../time/working-set.ts';
import { UNPLACED, type Forward } from './forward.ts';
import {
  CLOCK,
  FF,
  isLagged,
  isPlain,
  isWorking,
  kindOf,
  NO_UPPER,
  NOT_BEGUN,
  SS,
  targetOf,
  type Network,
} from './network.ts';

/** No latest date: something that depends on the node has none, or the calendar does not reach back far enough. */
export const UNKNOWN = NEVER_BEFORE;

export interface Latest {
  readonly start: Int32Array;
  readonly finish: Int32Array;
}

/**
 * @param end the instant by which every wait must be over. O(nodes + arcs)
 * @returns per node the last admissible start and the finish of the run begun there; UNKNOWN where there is none
 */
export function backward(net: Network, sets: readonly WorkingSet[], early: Forward, end: number): Latest {
  const late = unknown(net.size);
  sweep(net, sets, early, end, late, late);
  return late;
}

/**
 * The last dates of each node that move no successor's early date nor the end: what free slack is measured to.
 * Gates pass on the limits of the tasks behind them, because only tasks have dates.
 */
export function lastFree(net: Network, sets: readonly WorkingSet[], early: Forward, end: number): Latest {
  const free = unknown(net.size);
  const limit = unknown(net.size);
  for (let v = 0; v < net.taskCount; v++) {
    if (early.start[v] === UNPLACED) continue;
    limit.start[v] = early.start[v]!;
    limit.finish[v] = early.finish[v]!;
  }
  sweep(net, sets, early, end, limit, free);
  return free;
}

function unknown(size: number): Latest {
  return { start: new Int32Array(size).fill(UNKNOWN), finish: new Int32Array(size).fill(UNKNOWN) };
}

/** @param limit what successors allow; @param out where the last dates go, for gates into `limit` too */
function sweep(
  net: Network,
  sets: readonly WorkingSet[],
  early: Forward,
  end: number,
  limit: Latest,
  out: Latest,
): void {
  const { codes, offsets, uneven } = net;
  const run = { start: 0, finish: 0 };
  for (let i = early.order.length - 1; i >= 0; i--) {
    const v = early.order[i]!;
    if (early.start[v] === UNPLACED) continue;
    const even = uneven[v] === 0;
    let startBy = even ? NO_UPPER : net.upper[v]!;
    let finishBy = NO_UPPER;
    let readyBy = end;
    const arcEnd = offsets[v + 1]!;
    for (let arc = offsets[v]!; arc < arcEnd; arc++) {
      const code = codes[arc]!;
      const w = targetOf(code);
      if (isPlain(code)) {
        // Without a branch: which of two bounds is the earlier one no processor guesses well.
        const more = (limit.start[w]! - readyBy) | 0;
        readyBy = (readyBy + (more & (more >> 31))) | 0;
        continue;
      }
      const kind = kindOf(code);
      let bound = kind === 0 || kind === SS ? limit.start[w]! : limit.finish[w]!;
      if (isLagged(code)) {
        const lag = net.lags[arc]!;
        bound =
          isWorking(code) && net.set[w] !== CLOCK ? backFrom(sets[net.set[w]!]!, bound, lag) : bound - lag;
      }
      if (kind === 0) {
        if (bound < readyBy) readyBy = bound;
      } else if (kind === FF) {
        if (bound < finishBy) finishBy = bound;
      } else if (bound < startBy) startBy = bound;
    }
    const readied = even ? readyBy : finishFor(net, sets, v, readyBy);
    if (readied < finishBy) finishBy = readied;
    if (startBy <= UNKNOWN || finishBy <= UNKNOWN) continue;
    // What hangs on the start of a started task hangs on a day that has been: only its finish can still be late.
    if (!even && net.begun[v] !== NOT_BEGUN) startBy = NO_UPPER;
    place(net, sets, v, startBy, finishBy, out, run);
    if (v >= net.taskCount && limit !== out) {
      limit.start[v] = out.start[v]!;
      limit.finish[v] = out.finish[v]!;
    }
  }
}

/** The last finish after which the wait is over by `ready`. */
export function finishFor(net: Network, sets: readonly WorkingSet[], v: number, ready: number): number {
  const wait = net.wait[v]!;
  if (wait === 0) return ready;
  return net.waitSet[v] === CLOCK ? ready - wait : backFrom(sets[net.waitSet[v]!]!, ready, wait);
}

function place(
  net: Network,
  sets: readonly WorkingSet[],
  v: number,
  startBy: number,
  finishBy: number,
  out: Latest,
  run: Run,
): void {
  const minutes = net.minutes[v]!;
  const set = net.set[v]!;
  if (minutes === 0 || set === CLOCK) {
    const by = finishBy - minutes;
    const s = startBy < by ? startBy : by;
    if (s <= UNKNOWN) return;
    out.start[v] = s;
    out.finish[v] = s + minutes;
  } else if (lastRun(sets[set]!, startBy, finishBy, minutes, net.sitting[v]!, run)) {
    out.start[v] = run.start;
    out.finish[v] = run.finish;
  }
}

/**
 * Worked minutes of a node between two instants; clock minutes for one that needs nobody.
 * Negative when `to` is the earlier.
 */
export function workedBetween(
  net: Network,
  sets: readonly WorkingSet[],
  v: number,
  from: number,
  to: number,
): number {
  const set = net.minutes[v] === 0 ? CLOCK : net.set[v]!;
  return set === CLOCK ? to - from : workedBefore(sets[set]!, to) - workedBefore(sets[set]!, from);
}
