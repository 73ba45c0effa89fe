/** A way through the compiled graph told as a chain of tasks: gates drop out, and each step says why. */
import type { ChainStep } from '../contract/plan.ts';
import type { CompiledGraph } from '../graph/compile.ts';
import type { Names } from './names.ts';

/** @param arcs of the compiled graph, head to tail, from a task to a task (or round to the first task) */
export function chainOf(graph: CompiledGraph, sources: Int32Array, arcs: readonly number[]): ChainStep[] {
  const steps: ChainStep[] = [];
  let from = '';
  let entered: { zone: string; depth: string } | null = null;
  for (const arc of arcs) {
    const [v, w] = [sources[arc]!, graph.targets[arc]!];
    if (v < graph.taskCount) from = graph.ids[v]!;
    const origin = graph.origins[arc]!;
    if ('stated' in origin) {
      const { kind, reason } = origin.stated;
      steps.push({ from, to: graph.ids[w]!, by: 'link', kind, zone: null, depth: null, reason });
      continue;
    }
    const { zone, depth } = origin.cover;
    // The depth that matters is the one the first task works at, not those of the gates further in front.
    entered ??= { zone, depth };
    if (w >= graph.taskCount) continue;
    steps.push({ from, to: graph.ids[w]!, by: 'cover', kind: null, ...entered, reason: '' });
    entered = null;
  }
  return steps;
}

/** "it is hidden by “Fill” (left wall, middle, wires and pipes), which is linked before “Film”": a chain from its first task on. */
export function chainWords(steps: readonly ChainStep[], subject: string, names: Names): string {
  return steps.map((step, i) => `${i === 0 ? subject : 'which'} ${stepWords(step, names)}`).join(', ');
}

function stepWords({ to, by, zone, depth }: ChainStep, names: Names): string {
  if (by === 'link' || zone === null || depth === null) return `is linked before ${names.task(to)}`;
  return `is hidden by ${names.task(to)} (${names.zone(zone)}, ${names.depth(depth)})`;
}
