/**
 * Wrong orders: stated links that force a cover before what it hides, or that run in a circle, and covers that hide
 * each other round several zones. Each cause is told once, by the shortest cycle through it, with the smallest repair;
 * what the links then still leave in a circle cannot be placed.
 */
import type { ChainStep, OrderError, Repair } from '../contract/plan.ts';
import type { Link } from '../contract/task.ts';
import type { CompiledGraph } from '../graph/compile.ts';
import { knots } from '../graph/components.ts';
import { arcSources } from '../graph/feedback-arcs.ts';
import { shortestPath } from '../graph/shortest-path.ts';
import { smallestRepair } from '../graph/smallest-repair.ts';
import { subgraph } from '../graph/subgraph.ts';
import { chainOf, chainWords } from './chain.ts';
import type { Exceptions } from './exceptions.ts';
import type { Names } from './names.ts';
import { coverBetween, type Stack } from './stacks.ts';
import type { TaskGraph } from '../graph/task-graph.ts';

export interface OrderFindings {
  readonly errors: OrderError[];
  /** Stated links the suggested repairs drop. */
  readonly leftOut: Link[];
  /** 1 per arc of the graph that is left out for the plan to be possible. */
  readonly left: Uint8Array;
  /** Tasks that no repair of links can order. */
  readonly unordered: ReadonlySet<string>;
}

/** A link with a reason is dropped only if no other will do. */
const REASON_WEIGHT = 1;

export function orderFindings(
  graph: CompiledGraph,
  { stacks, exceptions }: TaskGraph,
  names: Names,
): OrderFindings {
  const left = new Uint8Array(graph.targets.length);
  const errors: OrderError[] = [];
  const leftOut: Link[] = [];
  if (knots(graph).length === 0) return { errors, leftOut, left, unordered: new Set() };
  const sources = arcSources(graph);

  const unordered = new Set<string>();
  const asideForCovers: number[] = [];
  for (const knot of coverKnots(graph)) {
    errors.push(coverError(graph, sources, knot, names));
    for (const node of knot) if (node < graph.taskCount) unordered.add(graph.ids[node]!);
    asideForCovers.push(...arcsWithin(graph, knot));
  }
  for (const arc of asideForCovers) left[arc] = 1;

  for (const knot of knots(graph, left)) {
    const part = subgraph(graph, knot, left);
    const dread = Float64Array.from(part.arcs, (arc) => dreadOf(graph, arc));
    const repair = smallestRepair(part, dread);
    if (repair === null) throw new RangeError('a knot without stated links is a cover knot');
    const dropped = repair.arcs.map((arc) => part.arcs[arc]!);
    for (const arc of dropped) left[arc] = 1;
    for (const arc of dropped) {
      const link = (graph.origins[arc] as { stated: Link }).stated;
      leftOut.push(link);
      // With the other dropped links gone, every cycle left in the knot runs through this one.
      left[arc] = 0;
      const way = shortestPath(graph, graph.taskCount, graph.targets[arc]!, sources[arc]!, left);
      left[arc] = 1;
      const [first, ...back] = chainOf(graph, sources, [arc, ...(way ?? [])]);
      // Where a link only repeats what a cover asks for, the cover teaches more.
      const told = back.map((step) => coverStep(step, stacks, exceptions) ?? step);
      errors.push(linkError(link, [first!, ...told], repair.exact, names));
    }
  }
  for (const arc of asideForCovers) left[arc] = 0;
  return { errors, leftOut, left, unordered };
}

function coverStep(
  { from, to }: ChainStep,
  stacks: readonly Stack[],
  exceptions: Exceptions,
): ChainStep | null {
  const place = coverBetween(stacks, exceptions, from, to);
  return place === null ? null : { from, to, by: 'cover', kind: null, ...place, reason: '' };
}

function dreadOf(graph: CompiledGraph, arc: number): number {
  const origin = graph.origins[arc]!;
  if (!('stated' in origin)) return Infinity;
  return 1 + (origin.stated.reason.trim() === '' && origin.stated.why === null ? 0 : REASON_WEIGHT);
}

/** Knots that remain when every stated link is left out. */
function coverKnots(graph: CompiledGraph): Int32Array[] {
  return knots(
    graph,
    Uint8Array.from(graph.origins, (origin) => ('stated' in origin ? 1 : 0)),
  );
}

function arcsWithin(graph: CompiledGraph, knot: Int32Array): number[] {
  const inside = new Set(knot);
  const arcs: number[] = [];
  for (const v of knot)
    for (let arc = graph.offsets[v]!; arc < graph.offsets[v + 1]!; arc++)
      if (inside.has(graph.targets[arc]!) && !('stated' in graph.origins[arc]!)) arcs.push(arc);
  return arcs;
}

/** @param chain begins with the link that is to go */
function linkError({ from, to, kind }: Link, chain: ChainStep[], exact: boolean, names: Names): OrderError {
  const hidden = chain.find((step) => step.by === 'cover');
  const [, ...back] = chain;
  const repair: Repair = { kind: 'drop-links', links: [{ from, to, kind }], exact };
  const said = `${names.task(from)} is linked before ${names.task(to)}`;
  const but =
    hidden === undefined
      ? back.length === 1
        ? `${names.task(to)} before ${names.task(from)} as well: neither can come first`
        : `these links run in a circle: ${chainWords(back, names.task(to), names)}`
      : `${names.task(to)} has to come first: ${chainWords(back, 'it', names)}`;
  return {
    rule: 'wrong-order',
    tasks: chain.map((step) => step.from),
    zone: hidden?.zone ?? null,
    depth: hidden?.depth ?? null,
    sentence: `${said}, but ${but}.`,
    chain,
    repair,
    otherRepairs:
      hidden === undefined || back.length > 1
        ? []
        : [{ kind: 'exception', inner: hidden.from, cover: hidden.to }],
  };
}

function coverError(graph: CompiledGraph, sources: Int32Array, knot: Int32Array, names: Names): OrderError {
  const stated = Uint8Array.from(graph.origins, (origin) => ('stated' in origin ? 1 : 0));
  const within = new Uint8Array(graph.size);
  for (const node of knot) within[node] = 1;
  let shortest: number[] | null = null;
  for (const v of knot) {
    if (v >= graph.taskCount) continue;
    const way = shortestCycle(graph, v, stated, within);
    if (way !== null && (shortest === null || way.length < shortest.length)) shortest = way;
  }
  const chain = chainOf(graph, sources, shortest ?? []);
  const [first] = chain;
  // Somewhere round the circle a task is hidden in one zone and hides in another: there it can be taken apart.
  const turn = chain.findIndex((step, i) => step.zone !== chain[(i + 1) % chain.length]!.zone);
  const at = chain[Math.max(0, turn)];
  const otherRepairs: Repair[] = chain.flatMap((step): Repair[] => [
    { kind: 'exception', inner: step.from, cover: step.to },
    { kind: 'drop-place', task: step.from, zone: step.zone!, depth: step.depth! },
  ]);
  return {
    rule: 'covers-in-a-circle',
    tasks: chain.map((step) => step.from),
    zone: first?.zone ?? null,
    depth: first?.depth ?? null,
    sentence: `Covers run in a circle, so none of them can come first: ${chainWords(chain, names.task(chain[0]?.from ?? ''), names)}.`,
    chain,
    repair: at === undefined ? null : { kind: 'split', task: at.to, zone: at.zone! },
    otherRepairs,
  };
}

/** The shortest cycle through a task, as arcs. */
function shortestCycle(
  graph: CompiledGraph,
  v: number,
  left: Uint8Array,
  within: Uint8Array,
): number[] | null {
  let shortest: number[] | null = null;
  for (let arc = graph.offsets[v]!; arc < graph.offsets[v + 1]!; arc++) {
    const w = graph.targets[arc]!;
    if (left[arc] !== 0 || within[w] === 0) continue;
    const way = shortestPath(graph, graph.taskCount, w, v, left, within);
    if (way !== null && (shortest === null || way.length + 1 < shortest.length)) shortest = [arc, ...way];
  }
  return shortest;
}
