/**
 * When tasks may have been finished of which only the order is known: as late as the as-of instant allows once every
 * wait between them, and the last one too, is over. So nothing that is in still hardens, and no date contradicts a link.
 */
import type { Graph, Edge } from '@dagrejs/graphlib';
import type { Task } from '../contract/task.ts';
import { nodeId, type NodeLabel, type Origin, type TaskGraph } from '../graph/task-graph.ts';
import { DAY, instantOf, type Clock } from '../time/clock.ts';

type Drawn = Graph<unknown, NodeLabel, Origin>;

/** No guess lies further back than this, whatever waits are strung together. */
const FURTHEST_BACK = 3653 * DAY;

/** Among edges those whose first task ends before the second starts or ends: covers, FS and FF. */
export function finishEdges(edges: readonly Edge[] | undefined | void, graph: Drawn): Edge[] {
  return (edges ?? []).filter((edge) => {
    const origin = graph.edge(edge)!;
    return 'cover' in origin || origin.stated.kind === 'FS' || origin.stated.kind === 'FF';
  });
}

/**
 * @param taken keys of the tasks to date
 * @param asOf minutes from the build's start
 * @param finishBy the latest finish of a task after which its wait is over by an instant
 * @returns minutes from the build's start by task key, first to last; negative before the build's first day
 */
export function guessedFinishes(
  { graph }: TaskGraph,
  taken: ReadonlySet<string>,
  taskOf: ReadonlyMap<string, Task>,
  clock: Clock,
  asOf: number,
  finishBy: (task: Task, instant: number) => number,
): Map<string, number> {
  const order = orderOf(graph, taken);
  const instant = (text: string | null) => (text === null ? null : instantOf(clock, text));

  // From the last back: what follows, and the wait before it, bounds each from above.
  const latest = new Map<string, number>();
  for (const node of order.toReversed()) {
    const task = taskAt(graph, taskOf, node);
    let bound = task === null ? Infinity : finishBy(task, asOf);
    for (const edge of finishEdges(graph.outEdges(node), graph)) {
      const next = latest.get(edge.w) ?? instant(taskAt(graph, taskOf, edge.w)?.startedAt ?? null);
      if (next === null) continue;
      const before = task === null ? next : beforeOf(task, graph.edge(edge)!, next, finishBy);
      bound = Math.min(bound, before);
    }
    latest.set(node, bound);
  }

  // From the first on: what is known to have been finished before bounds each from below.
  const dates = new Map<string, number>();
  const ended = new Map<string, number>();
  for (const node of order) {
    let bound = asOf - FURTHEST_BACK;
    for (const edge of finishEdges(graph.inEdges(node), graph)) {
      const before = ended.get(edge.v) ?? instant(taskAt(graph, taskOf, edge.v)?.finishedAt ?? null);
      if (before !== null) bound = Math.max(bound, before);
    }
    const task = taskAt(graph, taskOf, node);
    if (task === null) ended.set(node, bound);
    else {
      const at = Math.min(asOf, Math.max(bound, latest.get(node)!));
      const end = Math.max(at, instant(task.startedAt) ?? at);
      ended.set(node, end);
      dates.set(task.key, end);
    }
  }
  return dates;
}

/** The latest finish of a task that lets what follows it be at `next`. */
function beforeOf(
  task: Task,
  origin: Origin,
  next: number,
  finishBy: (task: Task, instant: number) => number,
): number {
  if ('cover' in origin) return finishBy(task, next);
  const { kind, lagMinutes, lagOn } = origin.stated;
  const lagged = next - (lagOn === 'clock' ? lagMinutes : 0);
  return kind === 'FS' ? finishBy(task, lagged) : lagged;
}

/** Null for a gate. */
function taskAt(graph: Drawn, taskOf: ReadonlyMap<string, Task>, node: string): Task | null {
  const label = graph.node(node)!;
  return 'task' in label ? taskOf.get(label.task)! : null;
}

/**
 * Those tasks and the gates, each behind all that comes before it unless both lie on one circle: the reverse of the
 * order in which a walk along the edges is done with them. The walk keeps its own way, so that no chain is too long.
 */
function orderOf(graph: Drawn, taken: ReadonlySet<string>): string[] {
  const tasks = [...taken].map(nodeId);
  const gates = graph.nodes().filter((node) => 'gate' in graph.node(node)!);
  const nodes = new Set([...tasks.sort(), ...gates.sort()]);
  const next = (node: string) =>
    finishEdges(graph.outEdges(node), graph)
      .map(({ w }) => w)
      .filter((w) => nodes.has(w));
  const seen = new Set<string>();
  const done: string[] = [];
  for (const root of nodes) {
    if (seen.has(root)) continue;
    seen.add(root);
    const way = [{ node: root, left: next(root) }];
    while (way.length > 0) {
      const { node, left } = way.at(-1)!;
      const to = left.pop();
      if (to === undefined) {
        done.push(node);
        way.pop();
      } else if (!seen.has(to)) {
        seen.add(to);
        way.push({ node: to, left: next(to) });
      }
    }
  }
  return done.toReversed();
}
