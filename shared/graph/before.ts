/**
 * What comes just before a task: by a stated link, or because the task hides it. Gates are looked through, so only
 * tasks are named, finished ones too: their waits and checks still hold what follows.
 */
import type { Link } from '../contract/task.ts';
import { keyOf, nodeId, type TaskGraph } from './task-graph.ts';

export interface Before {
  /** The key of the task that comes first. */
  readonly task: string;
  /** The stated link; null: the task is hidden. */
  readonly link: Link | null;
}

/** By task, a stated link before a cover; each once. Linear in what lies behind its gates. */
export function beforeOf({ graph }: Pick<TaskGraph, 'graph'>, key: string): Before[] {
  const found = new Map<string, Before>();
  const seen = new Set([nodeId(key)]);
  for (const at of seen)
    for (const edge of graph.inEdges(at) ?? []) {
      const label = graph.node(edge.v)!;
      if ('gate' in label) {
        seen.add(edge.v);
        continue;
      }
      const origin = graph.edge(edge)!;
      const link = 'stated' in origin ? origin.stated : null;
      found.set(`${keyOf(edge.v)} ${link?.kind ?? '|'}`, { task: keyOf(edge.v), link });
    }
  return [...found.keys()].sort().map((name) => found.get(name)!);
}
