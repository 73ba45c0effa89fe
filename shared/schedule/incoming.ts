/** The arcs of a network seen from the node they lead into, and how early each lets that node be. */
import { after, NEVER_AGAIN, type WorkingSet } from '../time/working-set.ts';
import type { Dates } from './forward.ts';
import {
  CLOCK,
  FF,
  isLagged,
  isWorking,
  kindOf,
  NO_LOWER,
  NOT_BEGUN,
  SF,
  targetOf,
  type Network,
} from './network.ts';

export interface Incoming {
  /** Per node: the arcs that lead into it. */
  readonly arcs: readonly (readonly number[])[];
  /** Per arc: the node it leaves. */
  readonly sources: Int32Array;
}

export function incomingOf(net: Network): Incoming {
  const arcs: number[][] = Array.from({ length: net.size }, () => []);
  const sources = new Int32Array(net.codes.length);
  for (let v = 0; v < net.size; v++)
    for (let arc = net.offsets[v]!; arc < net.offsets[v + 1]!; arc++) {
      sources[arc] = v;
      arcs[targetOf(net.codes[arc]!)]!.push(arc);
    }
  return { arcs, sources };
}

/** The bound an arc out of node `u` sets on its target: on the start, or on the finish for FF and SF. */
export function arcBound(
  net: Network,
  sets: readonly WorkingSet[],
  dates: Dates,
  u: number,
  arc: number,
): number {
  const code = net.codes[arc]!;
  const kind = kindOf(code);
  const begun = net.begun[u] === NOT_BEGUN ? dates.start[u]! : net.begun[u]!;
  const from = kind === 0 ? dates.ready[u]! : kind === FF ? dates.finish[u]! : begun;
  if (!isLagged(code) || from === NEVER_AGAIN) return from;
  const set = net.set[targetOf(code)]!;
  const lag = net.lags[arc]!;
  return isWorking(code) && set !== CLOCK ? after(sets[set]!, from, lag) : from + lag;
}

/** The latest of the bounds that placed nodes set on `v`: what its links alone allow. */
export function boundsInto(
  net: Network,
  sets: readonly WorkingSet[],
  { arcs, sources }: Incoming,
  dates: Dates,
  v: number,
): { lower: number; lowerFinish: number } {
  let lower = NO_LOWER;
  let lowerFinish = NO_LOWER;
  for (const arc of arcs[v]!) {
    const bound = arcBound(net, sets, dates, sources[arc]!, arc);
    const kind = kindOf(net.codes[arc]!);
    if (kind === FF || kind === SF) lowerFinish = Math.max(lowerFinish, bound);
    else lower = Math.max(lower, bound);
  }
  return { lower, lowerFinish };
}
