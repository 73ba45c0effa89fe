/**
 * The critical chains, each from a source to the end: tasks of least slack joined by links without room between them.
 * There can be exponentially many, so enough are listed that every critical task stands on one.
 */
import { firstStart, type WorkingSet } from '../time/working-set.ts';
import type { CriticalPath } from './critical-path.ts';
import { earliestStart } from './forward.ts';
import { arcBound } from './incoming.ts';
import { CLOCK, FF, kindOf, NO_LOWER, SF, targetOf, type Network } from './network.ts';

/** @returns chains of task nodes, the first node of each without a critical task just before it */
export function criticalChains(net: Network, sets: readonly WorkingSet[], path: CriticalPath): number[][] {
  const critical = new Uint8Array(net.size);
  for (let v = 0; v < net.taskCount; v++)
    critical[v] = path.totalFloat[v] !== null && path.totalFloat[v] === path.least ? 1 : 0;
  const { next, previous } = tightLinks(net, sets, path, critical);
  const covered = new Uint8Array(net.taskCount);
  const chains: number[][] = [];
  // In the order of the early dates: most tasks are then covered by the chain of one before them.
  for (const v of path.early.order) {
    if (v >= net.taskCount || critical[v] === 0 || covered[v] === 1) continue;
    const chain = [v];
    for (let w = previous[v]!; w !== -1; w = previous[w]!) chain.unshift(w);
    for (let w = next[v]!; w !== -1; w = next[w]!) chain.push(w);
    for (const w of chain) covered[w] = 1;
    chains.push(chain);
  }
  return chains;
}

/** For each critical task: one critical task before and one after it with no room between; -1 where there is none. */
function tightLinks(net: Network, sets: readonly WorkingSet[], path: CriticalPath, critical: Uint8Array) {
  const next = new Int32Array(net.taskCount).fill(-1);
  const previous = new Int32Array(net.taskCount).fill(-1);
  const seenGate = new Int32Array(net.size).fill(-1);
  for (let v = 0; v < net.taskCount; v++) {
    if (critical[v] === 0) continue;
    const through = [v];
    for (let i = 0; i < through.length; i++) {
      const u = through[i]!;
      for (let arc = net.offsets[u]!; arc < net.offsets[u + 1]!; arc++) {
        const w = targetOf(net.codes[arc]!);
        if (w >= net.taskCount) {
          // Behind a gate the task's own bound counts, not the gate's time, which another may have set.
          if (seenGate[w] !== v) through.push(w);
          seenGate[w] = v;
        } else if (critical[w] === 1 && isTight(net, sets, path, v, w, arc, u !== v)) {
          if (next[v] === -1) next[v] = w;
          if (previous[w] === -1) previous[w] = v;
        }
      }
    }
  }
  return { next, previous };
}

/** Does the link leave no admissible start between its bound and the early date? */
function isTight(
  net: Network,
  sets: readonly WorkingSet[],
  { early }: CriticalPath,
  v: number,
  w: number,
  arc: number,
  gated: boolean,
): boolean {
  const kind = gated ? 0 : kindOf(net.codes[arc]!);
  const bound = gated ? early.ready[v]! : arcBound(net, sets, early, v, arc);
  const set = net.set[w]!;
  const minutes = net.minutes[w]!;
  if (kind === FF || kind === SF) {
    if (minutes === 0 || set === CLOCK) return bound === early.finish[w];
    // No earlier start would end at or after the bound.
    return earliestStart(sets[set]!, NO_LOWER, bound, minutes, net.sitting[w]!) === early.start[w];
  }
  if (minutes === 0 || set === CLOCK) return bound === early.start[w];
  return firstStart(sets[set]!, bound, minutes, net.sitting[w]!) === early.start[w];
}
