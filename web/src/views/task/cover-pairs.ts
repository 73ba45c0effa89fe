/** The order that follows from places alone: what a task hides comes before it, what hides it comes after it. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { Exceptions } from '#shared/covers/exceptions.ts';
import { hidesIn, stacksOf, type Stack } from '#shared/covers/stacks.ts';

export interface CoverPair {
  /** The other task. */
  readonly task: string;
  /** Where the one hides the other, and the depth the hidden one works at. */
  readonly places: readonly { readonly zone: string; readonly depth: string }[];
}

export interface CoverPairs {
  /** Hidden by the task: they come before it. */
  readonly behind: readonly CoverPair[];
  /** They hide the task: they come after it. */
  readonly inFront: readonly CoverPair[];
}

export function coverPairs(
  file: BuildFile,
  key: string,
  stacks: readonly Stack[] = stacksOf(file),
): CoverPairs {
  const exceptions = new Exceptions(file.exceptions);
  const behind = new Map<string, { zone: string; depth: string }[]>();
  const inFront = new Map<string, { zone: string; depth: string }[]>();
  for (const { zone, depths, entries } of stacks) {
    const own = entries.find(({ task }) => task.key === key);
    if (own === undefined) continue;
    for (const other of entries) {
      const name = other.task.key;
      if (hidesIn(other, own) && !exceptions.has(name, key)) add(behind, name, zone, depths[other.reach]!);
      if (hidesIn(own, other) && !exceptions.has(key, name)) add(inFront, name, zone, depths[own.reach]!);
    }
  }
  return { behind: listed(behind), inFront: listed(inFront) };
}

type Places = Map<string, { zone: string; depth: string }[]>;

function add(pairs: Places, task: string, zone: string, depth: string): void {
  pairs.set(task, [...(pairs.get(task) ?? []), { zone, depth }]);
}

function listed(pairs: Places): CoverPair[] {
  return [...pairs].map(([task, places]) => ({ task, places }));
}
