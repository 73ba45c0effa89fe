/**
 * The task graph as arrays. Nodes: unfinished tasks (and finished ones that an unsigned check still keeps open) by
 * key, then gates by id; so the order of records in a file never shows. Arcs are grouped by the node they leave.
 */
import { keyOf, type Origin, type TaskGraph } from './task-graph.ts';

/** Arcs grouped by source: those of node v are `offsets[v] … offsets[v + 1]`. */
export interface Digraph {
  readonly size: number;
  readonly offsets: Int32Array;
  readonly targets: Int32Array;
}

export interface CompiledGraph extends Digraph {
  /** Task keys, then gate ids. */
  readonly ids: readonly string[];
  readonly indexOf: ReadonlyMap<string, number>;
  /** Nodes below this are tasks, the rest gates. */
  readonly taskCount: number;
  /** Where each arc comes from, in the order of `targets`. */
  readonly origins: readonly Origin[];
}

/**
 * @param live the tasks that are nodes, and whether each still waits for what comes before it (a finished task that
 *   an unsigned check keeps open does not); arcs that touch other tasks are left out
 */
export function compileGraph({ graph }: TaskGraph, live: ReadonlyMap<string, boolean>): CompiledGraph {
  const labels = graph.nodes().map((id) => graph.node(id)!);
  const tasks = labels
    .flatMap((label) => ('task' in label && live.has(label.task) ? [label.task] : []))
    .sort();
  const gates = labels.flatMap((label) => ('gate' in label ? [label.gate] : [])).sort();
  const ids = [...tasks, ...gates];
  const indexOf = new Map(ids.map((id, i) => [id, i]));
  const arcs: { from: number; to: number; rank: string; origin: Origin }[] = [];
  for (const edge of graph.edges()) {
    const from = indexOf.get(keyOf(edge.v));
    const to = indexOf.get(keyOf(edge.w));
    if (from !== undefined && to !== undefined && live.get(keyOf(edge.w)) !== false)
      arcs.push({ from, to, rank: edge.name ?? '', origin: graph.edge(edge)! });
  }
  arcs.sort((a, b) => a.from - b.from || a.to - b.to || (a.rank < b.rank ? -1 : 1));
  const offsets = new Int32Array(ids.length + 1);
  for (const { from } of arcs) offsets[from + 1]!++;
  for (let v = 0; v < ids.length; v++) offsets[v + 1]! += offsets[v]!;
  return {
    size: ids.length,
    taskCount: tasks.length,
    ids,
    indexOf,
    offsets,
    targets: Int32Array.from(arcs, ({ to }) => to),
    origins: arcs.map(({ origin }) => origin),
  };
}
