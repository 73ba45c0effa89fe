/**
 * The kept list: the order in which tasks get their dates. What the builder keeps in `order` stays in that order; what
 * is not in it yet goes in before the first with a later late start. Where nothing is kept: late start, then most
 * successors (MTS, R. Kolisch 1996), then key.
 */
import type { CompiledGraph } from '../../graph/compile.ts';
import { successorCounts } from '../../graph/reach.ts';
import { UNKNOWN } from '../backward.ts';
import type { CriticalPath } from '../critical-path.ts';

/** @returns every task node, first to last */
export function priorityList(graph: CompiledGraph, path: CriticalPath, kept: readonly string[]): number[] {
  const { early, late } = path;
  const key = (v: number) => (late === null || late.start[v] === UNKNOWN ? early.start[v]! : late.start[v]!);
  const after = successorCounts(graph, early.order, graph.taskCount);
  const known = new Set<number>();
  const list: number[] = [];
  for (const id of kept) {
    const v = graph.indexOf.get(id);
    if (v === undefined) continue;
    list.push(v);
    known.add(v);
  }
  const fresh = Array.from({ length: graph.taskCount }, (_, v) => v)
    .filter((v) => !known.has(v))
    .sort((a, b) => key(a) - key(b) || after[b]! - after[a]! || a - b);
  if (known.size === 0) return fresh;
  // Both lists are walked once: a fresh task goes before the first kept one that has to start later.
  const merged: number[] = [];
  let next = 0;
  for (const v of list) {
    while (next < fresh.length && key(fresh[next]!) < key(v)) merged.push(fresh[next++]!);
    merged.push(v);
  }
  return [...merged, ...fresh.slice(next)];
}
