/**
 * The cover rule as links: what a task puts out of reach comes before it. All pairs of a zone would be many, so each
 * depth of a zone gets one gate of no length: work → gate of its depth → gate of the next … → the task that covers.
 * Their number stays linear in tasks and depths. A cover gets single links instead where a gate would say too much:
 * when it has an exception, when it works among what it hides itself, or when something hides it in turn.
 */
import type { Exceptions } from './exceptions.ts';
import { hidesIn, type Stack } from './stacks.ts';

export interface CoverLink {
  readonly from: string;
  readonly to: string;
  readonly zone: string;
  /** The depth whose work, with all behind it, comes first. */
  readonly depth: string;
}

export interface CoverGraph {
  /** Gate ids, by zone and depth. */
  readonly gates: readonly string[];
  readonly links: readonly CoverLink[];
}

/** Keys cannot hold a bar, so a gate can never be taken for a task. */
export function gateId(zone: string, depth: string): string {
  return `${zone}|${depth}`;
}

export function coverGraph(stacks: readonly Stack[], exceptions: Exceptions): CoverGraph {
  const gates: string[] = [];
  const links: CoverLink[] = [];
  for (const stack of stacks) addStack(stack, exceptions, gates, links);
  return { gates, links };
}

function addStack(
  { zone, depths, entries }: Stack,
  exceptions: Exceptions,
  gates: string[],
  links: CoverLink[],
): void {
  const covers = entries.filter((entry) => entry.hides >= 0);
  if (covers.length === 0) return;
  const hiddenInTurn = furthestHidden(entries, depths.length);
  const gated = covers.filter(
    (cover) =>
      cover.reach > cover.hides &&
      !exceptions.anyFor(cover.task.key) &&
      hiddenInTurn[cover.hides]! < cover.reach,
  );
  const top = Math.max(-1, ...gated.map((cover) => cover.hides));
  for (let d = 0; d <= top; d++) {
    gates.push(gateId(zone, depths[d]!));
    if (d > 0)
      links.push({
        from: gateId(zone, depths[d - 1]!),
        to: gateId(zone, depths[d]!),
        zone,
        depth: depths[d]!,
      });
  }
  for (const { task, reach } of entries)
    if (reach <= top)
      links.push({ from: task.key, to: gateId(zone, depths[reach]!), zone, depth: depths[reach]! });
  for (const { task, hides } of gated)
    links.push({ from: gateId(zone, depths[hides]!), to: task.key, zone, depth: depths[hides]! });

  const throughGates = new Set(gated);
  for (const cover of covers) {
    if (throughGates.has(cover)) continue;
    for (const inner of entries)
      if (hidesIn(inner, cover) && !exceptions.has(inner.task.key, cover.task.key))
        links.push({ from: inner.task.key, to: cover.task.key, zone, depth: depths[inner.reach]! });
  }
}

/** Per position: the furthest position hidden by any task that works at or behind it. */
function furthestHidden(entries: Stack['entries'], depths: number): Int32Array {
  const furthest = new Int32Array(depths).fill(-1);
  for (const { reach, hides } of entries) furthest[reach] = Math.max(furthest[reach]!, hides);
  for (let d = 1; d < depths; d++) furthest[d] = Math.max(furthest[d]!, furthest[d - 1]!);
  return furthest;
}
