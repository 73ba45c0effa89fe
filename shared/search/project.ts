/**
 * The plain resource-constrained project: whole durations, finish-to-start links, renewable resources with constant
 * capacities (A. A. B. Pritsker, L. J. Watters, P. M. Wolfe, Management Science 16, 1969). Compiled to arrays once.
 */
import type { Digraph } from '../graph/compile.ts';
import { groupArcs, orderOf, turnedRound } from './arcs.ts';

export interface Project {
  readonly capacities: readonly number[];
  readonly activities: readonly Activity[];
}

export interface Activity {
  readonly duration: number;
  /** Of each resource, while it lasts; as long as `capacities`. */
  readonly demands: readonly number[];
  /** Activities that start once this one has ended. */
  readonly successors: readonly number[];
}

export interface CompiledProject {
  readonly size: number;
  readonly durations: Int32Array;
  readonly capacities: Int32Array;
  /** Of activity v for resource k: at `v * capacities.length + k`. */
  readonly demands: Int32Array;
  readonly after: Digraph;
  readonly before: Digraph;
  /** Every activity after all before it. */
  readonly topological: Int32Array;
  /** The sum of durations: no schedule made from a list is longer. */
  readonly horizon: number;
}

/** A profile has a place for each unit of time. */
export const LONGEST = 1 << 22;
/** A capacity and its guard bit fit into a word. */
export const LARGEST = 2 ** 31 - 1;

/** @throws RangeError on circles, on numbers that are not whole or out of range, on demands above the capacity */
export function compileProject({ capacities, activities }: Project): CompiledProject {
  const size = activities.length;
  const kinds = capacities.length;
  const demands = new Int32Array(size * kinds);
  for (const capacity of capacities)
    if (!isWhole(capacity, LARGEST)) throw new RangeError(`${capacity} is no capacity`);
  activities.forEach((activity, v) => {
    if (!isWhole(activity.duration, LONGEST)) throw new RangeError(`activity ${v} has no whole duration`);
    if (activity.demands.length !== kinds)
      throw new RangeError(`activity ${v} has not a demand per resource`);
    activity.demands.forEach((demand, k) => {
      if (!isWhole(demand, capacities[k]!))
        throw new RangeError(`activity ${v} asks ${demand} of resource ${k}, which has ${capacities[k]!}`);
      demands[v * kinds + k] = demand;
    });
    for (const w of activity.successors)
      if (!isWhole(w, size - 1)) throw new RangeError(`activity ${v} has a successor ${w} that is not there`);
  });
  const horizon = activities.reduce((sum, { duration }) => sum + duration, 0);
  if (horizon > LONGEST) throw new RangeError(`the durations add up to more than ${LONGEST}`);
  const after = groupArcs(
    size,
    activities.flatMap(({ successors }, v) => [...new Set(successors)].map((w) => [v, w] as const)),
  );
  return {
    size,
    durations: Int32Array.from(activities, ({ duration }) => duration),
    capacities: Int32Array.from(capacities),
    demands,
    after,
    before: turnedRound(after),
    topological: orderOf(after),
    horizon,
  };
}

// Helpers

function isWhole(value: number, most: number): boolean {
  return Number.isInteger(value) && value >= 0 && value <= most;
}
