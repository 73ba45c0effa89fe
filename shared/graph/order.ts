/** A topological order by Kahn's method (A. B. Kahn, CACM 5:11, 1962): iterative, so a chain of any length passes. */
import type { Digraph } from './compile.ts';

/**
 * @param left 1 per arc that is left out, or null
 * @returns nodes so that each comes after all before it; shorter than `size` when there is a cycle. O(nodes + arcs)
 */
export function topologicalOrder(
  { size, offsets, targets }: Digraph,
  left: Uint8Array | null = null,
): Uint32Array {
  const waitingFor = new Uint32Array(size);
  for (let arc = 0; arc < targets.length; arc++)
    if (left === null || left[arc] === 0) waitingFor[targets[arc]!]!++;
  const order = new Uint32Array(size); // a queue that is never shifted: [head, tail) is waiting
  let head = 0;
  let tail = 0;
  for (let v = 0; v < size; v++) if (waitingFor[v] === 0) order[tail++] = v;
  while (head < tail) {
    const v = order[head++]!;
    for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) {
      if (left !== null && left[arc] !== 0) continue;
      const w = targets[arc]!;
      if (--waitingFor[w]! === 0) order[tail++] = w;
    }
  }
  return order.subarray(0, tail);
}

export function isAcyclic(graph: Digraph, left: Uint8Array | null = null): boolean {
  return topologicalOrder(graph, left).length === graph.size;
}
