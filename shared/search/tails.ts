/** Longest paths of the plain project, resources left aside. */
import type { CompiledProject } from './project.ts';

export interface Tails {
  /** Per activity: the earliest start. */
  readonly heads: Int32Array;
  /** Per activity: from its start to the end of the project at least, itself included. */
  readonly tails: Int32Array;
  /** The critical path. */
  readonly length: number;
}

/** O(activities + arcs). */
export function tailsOf({ size, durations, after, topological }: CompiledProject): Tails {
  const { offsets, targets } = after;
  const heads = new Int32Array(size);
  const tails = new Int32Array(size);
  let length = 0;
  for (const v of topological) {
    const finish = heads[v]! + durations[v]!;
    if (finish > length) length = finish;
    for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++)
      if (heads[targets[arc]!]! < finish) heads[targets[arc]!] = finish;
  }
  for (let i = size - 1; i >= 0; i--) {
    const v = topological[i]!;
    let rest = 0;
    for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) rest = Math.max(rest, tails[targets[arc]!]!);
    tails[v] = rest + durations[v]!;
  }
  return { heads, tails, length };
}
