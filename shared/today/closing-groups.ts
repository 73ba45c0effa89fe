/** Closings that are one event for the builder: the same task closes several zones as it starts. */
import type { Closing } from '../contract/plan.ts';

export interface ClosingGroup {
  readonly by: string;
  readonly on: string;
  readonly closings: readonly Closing[];
  readonly missing: readonly string[];
  readonly unsigned: Closing['unsigned'];
  readonly undelivered: Closing['undelivered'];
  readonly undecided: readonly string[];
}

/** With a date, soonest first; what several zones miss is named once. */
export function closingGroups(closings: readonly Closing[]): ClosingGroup[] {
  const groups = new Map<string, Closing[]>();
  for (const closing of closings
    .filter(({ at }) => at !== null)
    .toSorted((a, b) => (a.at! < b.at! ? -1 : a.at! > b.at! ? 1 : 0))) {
    const group = groups.get(closing.by);
    if (group === undefined) groups.set(closing.by, [closing]);
    else if (!group.some(({ zone }) => zone === closing.zone)) group.push(closing);
  }
  return [...groups].map(([by, group]) => ({
    by,
    on: group[0]!.on!,
    closings: group,
    missing: [...new Set(group.flatMap(({ missing }) => missing))],
    unsigned: once(
      group.flatMap(({ unsigned }) => unsigned),
      ({ task, holdPoint }) => `${task} ${holdPoint}`,
    ),
    undelivered: once(
      group.flatMap(({ undelivered }) => undelivered),
      ({ purchase, line }) => `${purchase} ${line}`,
    ),
    undecided: [...new Set(group.flatMap(({ undecided }) => undecided))],
  }));
}

/** Everything a group misses, counted once. */
export function groupMisses({ missing, unsigned, undelivered, undecided }: ClosingGroup): number {
  return missing.length + unsigned.length + undelivered.length + undecided.length;
}

function once<T>(items: readonly T[], nameOf: (item: T) => string): T[] {
  return [...new Map(items.map((item) => [nameOf(item), item])).values()];
}
