/**
 * The shortest way from one node to another, counted in tasks: a step into a gate costs nothing, because
 * explanations never name gates. Breadth first with a two-ended queue.
 */
import type { Digraph } from './compile.ts';

/**
 * @param taskCount nodes below this are tasks, the rest gates
 * @param left 1 per arc that is left out, or null
 * @param within only through nodes marked 1, or null for all
 * @returns the arcs of the way, first to last; null if there is none. The same graph gives the same way. O(nodes + arcs)
 */
export function shortestPath(
  { size, offsets, targets }: Digraph,
  taskCount: number,
  from: number,
  to: number,
  left: Uint8Array | null = null,
  within: Uint8Array | null = null,
): number[] | null {
  const far = new Int32Array(size).fill(-1);
  const arcInto = new Int32Array(size).fill(-1);
  const nodeBefore = new Int32Array(size);
  let near: number[] = [from];
  let distance = 0;
  far[from] = 0;
  const settled = new Uint8Array(size);
  while (near.length > 0) {
    const next: number[] = [];
    // `near` grows while it is walked: gates reached at no cost belong to the same distance.
    for (let i = 0; i < near.length; i++) {
      const v = near[i]!;
      if (settled[v] !== 0) continue;
      settled[v] = 1;
      for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) {
        if (left !== null && left[arc] !== 0) continue;
        const w = targets[arc]!;
        if (within !== null && within[w] === 0) continue;
        const cost = w < taskCount ? 1 : 0;
        if (w === to && arcInto[to] === -1) return wayBack(v, arc);
        if (far[w] !== -1 && far[w]! <= distance + cost) continue;
        far[w] = distance + cost;
        arcInto[w] = arc;
        nodeBefore[w] = v;
        (cost === 0 ? near : next).push(w);
      }
    }
    near = next;
    distance++;
  }
  return null;

  function wayBack(last: number, lastArc: number): number[] {
    const way = [lastArc];
    for (let v = last; v !== from; v = nodeBefore[v]!) way.push(arcInto[v]!);
    return way.reverse();
  }
}
