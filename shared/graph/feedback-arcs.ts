/**
 * Which single arcs of a cycle lie on every cycle of the graph, in one linear sweep. Without the cycle's arcs the
 * rest must be acyclic; every other cycle is then made of jumps from one node of the cycle to another, and an arc is
 * on all of them when no jump passes over it. (The idea of M. R. Garey, R. E. Tarjan, "A linear-time algorithm for
 * finding all feedback vertices", Inf. Proc. Letters 7:6, 1978, put to arcs.)
 */
import type { Digraph } from './compile.ts';
import { topologicalOrder } from './order.ts';

/**
 * @param cycle arcs of one cycle, in order
 * @param left 1 per arc that is left out
 * @returns for each arc of the cycle, whether leaving it out too leaves no cycle. O(nodes + arcs)
 */
export function feedbackArcs(
  graph: Digraph,
  cycle: readonly number[],
  sources: Int32Array,
  left: Uint8Array,
): boolean[] {
  const length = cycle.length;
  const rest = left.slice();
  for (const arc of cycle) rest[arc] = 1;
  const order = topologicalOrder(graph, rest);
  if (order.length < graph.size) return cycle.map(() => false);

  // Place of each node on the cycle: arc i runs from place i to place i + 1.
  const place = new Int32Array(graph.size).fill(-1);
  cycle.forEach((arc, i) => (place[sources[arc]!] = i));

  // Over paths beside the cycle: the furthest and the nearest place each node leads to, and is led to from.
  const furthestTo = new Int32Array(graph.size).fill(-1);
  const nearestTo = new Int32Array(graph.size).fill(length);
  const furthestFrom = new Int32Array(graph.size).fill(-1);
  eachArc(order, true, (v, w) => {
    furthestTo[v] = Math.max(furthestTo[v]!, furthestTo[w]!, place[w]!);
    nearestTo[v] = Math.min(nearestTo[v]!, nearestTo[w]!, place[w] === -1 ? length : place[w]!);
  });
  eachArc(order, false, (v, w) => {
    furthestFrom[w] = Math.max(furthestFrom[w]!, furthestFrom[v]!, place[v]!);
  });

  // A forward jump i → j passes over arcs i … j-1; a backward one over all but j … i-1.
  const over = new Int32Array(length + 1);
  let firstBack = length;
  let lastBack = 0;
  for (let v = 0; v < graph.size; v++) {
    const i = place[v]!;
    if (i === -1) continue;
    if (furthestTo[v]! > i) {
      over[i]!++;
      over[furthestTo[v]!]!--;
    }
    if (nearestTo[v]! < i) firstBack = Math.min(firstBack, i);
    if (furthestFrom[v]! > i) lastBack = Math.max(lastBack, i);
  }
  let passing = 0;
  return cycle.map((_, i) => {
    passing += over[i]!;
    return passing === 0 && i >= lastBack && i < firstBack;
  });

  function eachArc(nodes: Uint32Array, backwards: boolean, visit: (v: number, w: number) => void): void {
    for (let n = 0; n < nodes.length; n++) {
      const v = nodes[backwards ? nodes.length - 1 - n : n]!;
      for (let arc = graph.offsets[v]!; arc < graph.offsets[v + 1]!; arc++)
        if (rest[arc] === 0) visit(v, graph.targets[arc]!);
    }
  }
}

/** The node each arc leaves. */
export function arcSources({ size, offsets, targets }: Digraph): Int32Array {
  const sources = new Int32Array(targets.length);
  for (let v = 0; v < size; v++) sources.fill(v, offsets[v], offsets[v + 1]);
  return sources;
}
