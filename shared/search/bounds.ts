/**
 * Makespans that no schedule can beat, by what proves them: the critical path; the work of a resource between the
 * earliest any of a set can start and the shortest path behind any of it; pairs that cannot share a moment. All are
 * classical (R. Klein, A. Scholl, "Computing lower bounds by destructive improvement", EJOR 112, 1999).
 */
import type { CompiledProject } from './project.ts';
import { tailsOf, type Tails } from './tails.ts';

export interface Bounds {
  readonly criticalPath: number;
  readonly resourceEnergy: number;
  readonly disjointPairs: number;
  /** The greatest of them. */
  readonly best: number;
}

/** O(resources · activities²). */
export function boundsOf(project: CompiledProject): Bounds {
  const tails = tailsOf(project);
  const criticalPath = tails.length;
  const resourceEnergy = energyBound(project, tails);
  const disjointPairs = pairBound(project, tails);
  return {
    criticalPath,
    resourceEnergy,
    disjointPairs,
    best: Math.max(criticalPath, resourceEnergy, disjointPairs),
  };
}

// Helpers

/** For each head h and each rest r: h + the work of all activities with such a head and rest or more + r. */
function energyBound(project: CompiledProject, { heads, tails }: Tails): number {
  const { size, capacities, demands, durations } = project;
  const kinds = capacities.length;
  const rests = tails.map((tail, v) => tail - durations[v]!);
  const byRest = Int32Array.from(rests.keys()).sort((a, b) => rests[b]! - rests[a]!);
  let best = 0;
  for (let k = 0; k < kinds; k++)
    for (const head of new Set(heads)) {
      let work = 0;
      for (let i = 0; i < size; i++) {
        const v = byRest[i]!;
        if (heads[v]! < head || demands[v * kinds + k] === 0) continue;
        work += durations[v]! * demands[v * kinds + k]!;
        best = Math.max(best, head + Math.ceil(work / capacities[k]!) + rests[v]!);
      }
    }
  return best;
}

/** Of two that together ask too much one comes first. */
function pairBound(project: CompiledProject, { heads, tails }: Tails): number {
  const { size, capacities, demands, durations } = project;
  const kinds = capacities.length;
  const clash = (a: number, b: number) => {
    for (let k = 0; k < kinds; k++)
      if (demands[a * kinds + k]! + demands[b * kinds + k]! > capacities[k]!) return true;
    return false;
  };
  let best = 0;
  for (let a = 0; a < size; a++)
    for (let b = a + 1; b < size; b++) {
      if (durations[a] === 0 || durations[b] === 0 || !clash(a, b)) continue;
      const apart = Math.min(heads[a]! + durations[a]! + tails[b]!, heads[b]! + durations[b]! + tails[a]!);
      best = Math.max(best, apart);
    }
  return best;
}
