/** Arcs as arrays: grouped by the node they leave, turned round, and an order that keeps them all. */
import type { Digraph } from '../graph/compile.ts';

export function groupArcs(size: number, arcs: readonly (readonly [from: number, to: number])[]): Digraph {
  const offsets = new Int32Array(size + 1);
  for (const [from] of arcs) offsets[from + 1]!++;
  for (let v = 0; v < size; v++) offsets[v + 1]! += offsets[v]!;
  const next = offsets.slice();
  const targets = new Int32Array(arcs.length);
  for (const [from, to] of arcs) targets[next[from]!++] = to;
  return { size, offsets, targets };
}

export function turnedRound({ size, offsets, targets }: Digraph): Digraph {
  const arcs: [number, number][] = [];
  for (let v = 0; v < size; v++)
    for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) arcs.push([targets[arc]!, v]);
  return groupArcs(size, arcs);
}

/** Every node after all before it (A. B. Kahn, CACM 5:11, 1962). @throws RangeError on a circle */
export function orderOf({ size, offsets, targets }: Digraph): Int32Array {
  const waitingFor = incomingCounts(size, targets);
  const order = new Int32Array(size);
  let tail = 0;
  for (let v = 0; v < size; v++) if (waitingFor[v] === 0) order[tail++] = v;
  for (let head = 0; head < tail; head++) {
    const v = order[head]!;
    for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) {
      const w = targets[arc]!;
      waitingFor[w]!--;
      if (waitingFor[w] === 0) order[tail++] = w;
    }
  }
  if (tail < size) throw new RangeError('activities wait for each other in a circle');
  return order;
}

export function incomingCounts(size: number, targets: Int32Array): Int32Array {
  const counts = new Int32Array(size);
  for (const w of targets) counts[w]!++;
  return counts;
}
