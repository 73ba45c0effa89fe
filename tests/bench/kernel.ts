/** The kernel as it is timed, on random networks made ready for it, and what else all contestants share. */
import type { Digraph } from '#shared/graph/compile.ts';
import { backward } from '#shared/schedule/backward.ts';
import { forward, type Forward } from '#shared/schedule/forward.ts';
import type { Network } from '#shared/schedule/network.ts';
import type { WorkingSet } from '#shared/time/working-set.ts';
import { onSets, randomNetwork, type Random } from './networks.ts';

export const LINKS = 3;

export interface Case {
  readonly graph: Digraph;
  readonly net: Network;
  readonly onCalendars: Network;
  readonly order: Uint32Array;
}

export function makeCase(size: number, sets: readonly WorkingSet[], random: Random): Case {
  const { graph, net } = randomNetwork(size, LINKS, random);
  return { graph, net, onCalendars: onSets(net, sets, random), order: forward(net, []).order.slice() };
}

/** Order, early dates, end and late dates: what is timed. */
export function bothPasses(net: Network, sets: readonly WorkingSet[]) {
  const early = forward(net, sets);
  const end = endOf(early);
  return { early, end, late: backward(net, sets, early, end) };
}

/** Per contestant: the next of the cases, round and round. */
export function turns(count: number): (name: string) => number {
  const at: Record<string, number> = {};
  return (name) => (at[name] = ((at[name] ?? -1) + 1) % count);
}

/** @throws Error if two contestants disagree: then there is nothing to compare */
export function same(theirs: number, ours: number, who: string): void {
  if (theirs !== ours) throw new Error(`${who} says ${theirs}, the kernel ${ours}`);
}

// Helpers

function endOf({ ready }: Forward): number {
  let end = 0;
  for (let v = 0; v < ready.length; v++) if (ready[v]! > end) end = ready[v]!;
  return end;
}
