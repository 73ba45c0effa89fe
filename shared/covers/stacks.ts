/**
 * Who works where in each zone's stack, and what each task puts out of reach there. The position of a depth is its
 * index in the zone's own list; the first is reached last. The cover rule needs only a task's deepest place in a
 * zone (it is reached last) and the furthest depth it hides.
 */
import type { BuildFile } from '../contract/build-file.ts';
import { byKey } from '../contract/by-key.ts';
import type { Exceptions } from './exceptions.ts';
import type { Task } from '../contract/task.ts';

export interface StackEntry {
  readonly task: Task;
  /** Position of its deepest place in the zone: what hides this, hides the task. */
  readonly reach: number;
  /** Position of its place furthest in front. */
  readonly front: number;
  /** The furthest position it hides, with all before it; -1 when it hides nothing. */
  readonly hides: number;
}

export interface Stack {
  readonly zone: string;
  readonly depths: readonly string[];
  /** By task key. */
  readonly entries: readonly StackEntry[];
}

/** One stack per zone, by zone key; tasks by key: the order of records never matters. */
export function stacksOf(file: BuildFile): Stack[] {
  const position = new Map(
    file.zones.map((zone) => [zone.key, new Map(zone.depths.map((depth, i) => [depth, i]))]),
  );
  const entries = new Map<string, StackEntry[]>(file.zones.map((zone) => [zone.key, []]));
  for (const task of file.tasks.toSorted(byKey)) {
    const here = new Map<string, { reach: number; front: number; hides: number }>();
    for (const { zone, depth, hides } of task.places) {
      const at = position.get(zone)!.get(depth)!;
      const hidden = hides === null ? -1 : position.get(zone)!.get(hides)!;
      const entry = here.get(zone);
      if (entry === undefined) here.set(zone, { reach: at, front: at, hides: hidden });
      else {
        entry.reach = Math.min(entry.reach, at);
        entry.front = Math.max(entry.front, at);
        entry.hides = Math.max(entry.hides, hidden);
      }
    }
    for (const [zone, entry] of here) entries.get(zone)!.push({ task, ...entry });
  }
  return file.zones
    .toSorted(byKey)
    .map((zone) => ({ zone: zone.key, depths: zone.depths, entries: entries.get(zone.key)! }));
}

/** Does `cover` put `inner` out of reach in this stack? Not when each would hide the other (two coats). */
export function hidesIn(inner: StackEntry, cover: StackEntry): boolean {
  return inner !== cover && inner.reach <= cover.hides && !(cover.reach <= inner.hides);
}

/** Where the one hides the other, with the depth the hidden one works at; null where it does not, or is excepted. */
export function coverBetween(
  stacks: readonly Stack[],
  exceptions: Exceptions,
  inner: string,
  cover: string,
): { readonly zone: string; readonly depth: string } | null {
  if (exceptions.has(inner, cover)) return null;
  for (const { zone, depths, entries } of stacks) {
    const under = entries.find(({ task }) => task.key === inner);
    const over = entries.find(({ task }) => task.key === cover);
    if (under !== undefined && over !== undefined && hidesIn(under, over))
      return { zone, depth: depths[under.reach]! };
  }
  return null;
}
