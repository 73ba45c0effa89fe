/** Last chance of every depth of every zone: when it is out of reach, by what, and what reaching it again would cost. */
import type { LastChance, PlannedTask } from '../contract/plan.ts';
import type { Basis } from '../schedule/basis.ts';
import { reopeningOf } from './reopening.ts';
import type { Stack, StackEntry } from './stacks.ts';

/** One per zone and depth, by zone and from the metal outwards. */
export function lastChancesOf(
  basis: Basis,
  stacks: readonly Stack[],
  planned: Readonly<Record<string, PlannedTask>>,
): LastChance[] {
  const workers = workersOf(basis);
  return stacks.flatMap((stack) =>
    stack.depths.map((depth, position) => {
      const covers = stack.entries.filter((entry) => entry.hides >= position);
      const shut = earliest(
        covers.filter(({ task }) => task.startedAt !== null),
        ({ task }) => task.startedAt,
      );
      const next = shut ?? earliest(covers, ({ task }) => planned[task.key]!.dates?.start ?? null);
      const { personMinutes, parts } = reopeningOf(stack, position);
      return {
        zone: stack.zone,
        depth,
        at: next?.at ?? null,
        by: next?.by ?? null,
        closed: shut !== null,
        people: shut === null ? [] : (workers.get(shut.by) ?? []),
        reopenMinutes: personMinutes,
        reopens: [...parts],
      };
    }),
  );
}

function earliest(
  entries: readonly StackEntry[],
  when: (entry: StackEntry) => string | null,
): { at: string; by: string } | null {
  let first: { at: string; by: string } | null = null;
  for (const entry of entries) {
    const at = when(entry);
    if (at !== null && (first === null || at < first.at)) first = { at, by: entry.task.key };
  }
  return first;
}

/** Who logged hours to each task, by key. */
function workersOf({ file }: Basis): Map<string, string[]> {
  const workers = new Map<string, Set<string>>();
  for (const { task, person } of file.hours)
    if (task !== null) workers.set(task, (workers.get(task) ?? new Set()).add(person));
  return new Map([...workers].map(([task, people]) => [task, [...people].sort()]));
}
