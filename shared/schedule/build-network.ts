/**
 * From the compiled graph and the basis to the arrays of the passes: bounds from the as-of date, parts, fixed dates and
 * finished tasks, lags and waits with their sets. Links the repairs leave out and links of finished tasks are not arcs.
 */
import type { Link, Task } from '../contract/task.ts';
import type { CompiledGraph } from '../graph/compile.ts';
import { keyOf, nodeId, type Origin, type TaskGraph } from '../graph/task-graph.ts';
import { instantOf } from '../time/clock.ts';
import { after, NEVER_AGAIN, type WorkingSet } from '../time/working-set.ts';
import { relaxedSet, usableFrom, waitSet, type Basis } from './basis.ts';
import { arcCode, bareNetwork, CLOCK, KIND_CODE, markUneven, type Network } from './network.ts';

export interface BuiltNetwork {
  readonly net: Network;
  /** Per node: the bound on its start if every part were in hand. */
  readonly lowerWithoutParts: Int32Array;
}

/** @param left 1 per arc of `graph` to leave out. The nodes of the network are those of `graph`, in its order. */
export function buildNetwork(
  basis: Basis,
  { graph: drawn }: TaskGraph,
  graph: CompiledGraph,
  left: Uint8Array,
): BuiltNetwork {
  const kept = withoutLeft(graph, left);
  const net = bareNetwork(kept, graph.taskCount);
  for (let v = 0; v < graph.taskCount; v++) setNode(basis, net, v, graph.ids[v]!);
  for (let arc = 0; arc < kept.targets.length; arc++) {
    const origin = graph.origins[kept.arcs[arc]!]!;
    if ('stated' in origin) setArc(net, arc, kept.targets[arc]!, origin.stated);
  }
  for (const task of basis.tasks)
    if (task.state === 'finished' && !graph.indexOf.has(task.key))
      boundByFinished(basis, drawn, graph, net, task.key);
  markUneven(net);
  const lowerWithoutParts = net.lower.slice();
  for (let v = 0; v < graph.taskCount; v++) boundByParts(basis, net, v, graph.ids[v]!);
  return { net, lowerWithoutParts };
}

/** A task that has begun has what it needs, or does without. */
function boundByParts(basis: Basis, net: Network, v: number, key: string): void {
  if (basis.taskOf.get(key)!.state !== 'not-started') return;
  for (const part of basis.partsOf.get(key) ?? []) {
    const from = usableFrom(basis, part);
    if (from !== null) net.lower[v] = Math.max(net.lower[v]!, from);
  }
}

function withoutLeft(graph: CompiledGraph, left: Uint8Array) {
  const offsets = new Int32Array(graph.size + 1);
  const targets: number[] = [];
  const arcs: number[] = [];
  for (let v = 0; v < graph.size; v++) {
    for (let arc = graph.offsets[v]!; arc < graph.offsets[v + 1]!; arc++) {
      if (left[arc] !== 0) continue;
      targets.push(graph.targets[arc]!);
      arcs.push(arc);
    }
    offsets[v + 1] = targets.length;
  }
  return { size: graph.size, offsets, targets: Int32Array.from(targets), arcs };
}

function setNode(basis: Basis, net: Network, v: number, key: string): void {
  const task = basis.taskOf.get(key)!;
  const { sets } = basis.calendar;
  const set = relaxedSet(basis, task);
  net.set[v] = isContinuous(sets[set]!) ? CLOCK : set;
  net.wait[v] = task.waitMinutes;
  const waits = waitSet(basis, task);
  net.waitSet[v] = waits === null || isContinuous(sets[waits]!) ? CLOCK : waits;
  if (task.state === 'finished') {
    // Kept open by an unsigned check: signing takes no time, but it cannot be signed before now.
    const finished = instantOf(basis.clock, task.finishedAt!);
    net.lower[v] = Math.max(basis.asOf, finished);
    net.readyFrom[v] = readyOfFinished(basis, task);
    net.wait[v] = 0;
    net.begun[v] = instantOf(basis.clock, task.startedAt!);
    return;
  }
  net.minutes[v] = Math.min(basis.minutes.get(key)!, NEVER_AGAIN);
  net.sitting[v] = Math.min(task.shortestSitting, net.minutes[v]!);
  net.lower[v] = basis.asOf;
  if (task.state === 'started') net.begun[v] = instantOf(basis.clock, task.startedAt!);
  else if (task.fixedStart !== null) {
    const fixed = instantOf(basis.clock, task.fixedStart);
    net.lower[v] = Math.max(net.lower[v]!, fixed);
    net.upper[v] = fixed;
  }
}

function setArc(net: Network, arc: number, target: number, { kind, lagMinutes, lagOn }: Link): void {
  net.codes[arc] = arcCode(target, KIND_CODE[kind], lagMinutes, lagOn === 'working');
  net.lags[arc] = lagMinutes;
}

/** A finished task is no node: its dates bound what follows it. */
function boundByFinished(
  basis: Basis,
  drawn: TaskGraph['graph'],
  graph: CompiledGraph,
  net: Network,
  key: string,
): void {
  const task = basis.taskOf.get(key)!;
  for (const edge of drawn.outEdges(nodeId(key)) ?? []) {
    const w = graph.indexOf.get(keyOf(edge.w));
    if (w === undefined || basis.taskOf.get(keyOf(edge.w))?.state === 'finished') continue;
    const { bound, onFinish } = boundOfFinished(basis, net, task, w, drawn.edge(edge)!);
    const into = onFinish ? net.lowerFinish : net.lower;
    into[w] = Math.max(into[w]!, bound);
  }
}

/** What an edge from a finished task asks of the node it leads to: of its finish for FF and SF, else of its start. */
export function boundOfFinished(
  basis: Basis,
  net: Network,
  task: Task,
  w: number,
  origin: Origin,
): { bound: number; onFinish: boolean } {
  const link = 'stated' in origin ? origin.stated : null;
  const kind = link?.kind ?? 'FS';
  const from =
    kind === 'FS'
      ? readyOfFinished(basis, task)
      : instantOf(basis.clock, kind === 'FF' ? task.finishedAt! : task.startedAt!);
  const bound = link === null ? from : lagged(basis, net, w, from, link);
  return { bound: Math.min(bound, NEVER_AGAIN), onFinish: kind === 'FF' || kind === 'SF' };
}

function lagged(basis: Basis, net: Network, w: number, from: number, { lagMinutes, lagOn }: Link): number {
  const set = net.set[w]!;
  return lagOn === 'working' && set !== CLOCK
    ? after(basis.calendar.sets[set]!, from, lagMinutes)
    : from + lagMinutes;
}

/** When the wait of a finished task is, or was, over. */
export function readyOfFinished(basis: Basis, task: Task): number {
  const finished = instantOf(basis.clock, task.finishedAt!);
  const set = waitSet(basis, task);
  return set === null
    ? finished + task.waitMinutes
    : after(basis.calendar.sets[set]!, finished, task.waitMinutes);
}

function isContinuous(set: WorkingSet): boolean {
  return set.starts.length === 1 && set.starts[0] === set.from && set.ends[0] === set.to;
}
