/**
 * Strongly connected components: the knots of an order. Tarjan's method (SIAM J. Comput. 1:2, 1972), iterative with
 * a stack of its own, because a plan may be a chain of ten thousand.
 */
import type { Digraph } from './compile.ts';

/**
 * @param left 1 per arc that is left out, or null
 * @returns the components of two nodes or more, nodes rising, components by their first node. O(nodes + arcs)
 */
export function knots({ size, offsets, targets }: Digraph, left: Uint8Array | null = null): Int32Array[] {
  const UNSEEN = -1;
  const seenAt = new Int32Array(size).fill(UNSEEN);
  const low = new Int32Array(size);
  const onStack = new Uint8Array(size);
  const stack = new Int32Array(size);
  const path = new Int32Array(size);
  const nextArc = new Int32Array(size);
  const found: Int32Array[] = [];
  let seen = 0;
  let stacked = 0;
  for (let root = 0; root < size; root++) {
    if (seenAt[root] !== UNSEEN) continue;
    let deep = 0;
    path[0] = root;
    enter(root);
    while (deep >= 0) {
      const v = path[deep]!;
      if (nextArc[v]! < offsets[v + 1]!) {
        const arc = nextArc[v]!++;
        if (left !== null && left[arc] !== 0) continue;
        const w = targets[arc]!;
        if (seenAt[w] === UNSEEN) {
          path[++deep] = w;
          enter(w);
        } else if (onStack[w] !== 0 && seenAt[w]! < low[v]!) low[v] = seenAt[w]!;
      } else {
        if (low[v] === seenAt[v]) close(v);
        deep--;
        if (deep >= 0 && low[v]! < low[path[deep]!]!) low[path[deep]!] = low[v]!;
      }
    }
  }
  return found.sort((a, b) => a[0]! - b[0]!);

  function enter(v: number): void {
    seenAt[v] = low[v] = seen++;
    nextArc[v] = offsets[v]!;
    stack[stacked++] = v;
    onStack[v] = 1;
  }

  function close(v: number): void {
    let first = stacked;
    do onStack[stack[--first]!] = 0;
    while (stack[first] !== v);
    if (stacked - first > 1) found.push(stack.slice(first, stacked).sort());
    stacked = first;
  }
}
