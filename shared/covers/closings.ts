/**
 * The closings ahead: what each covering task will put out of reach, when it starts, and all that must be in, signed,
 * delivered and decided before. A closing's date is the start of its task, not its end.
 */
import type { Closing, PlannedTask } from '../contract/plan.ts';
import type { Task } from '../contract/task.ts';
import { dayText } from '../time/days.ts';
import type { Basis } from '../schedule/basis.ts';
import { unsigned } from './checks.ts';
import type { Exceptions } from './exceptions.ts';
import { hidesIn, type Stack } from './stacks.ts';

/** One per zone and covering task that has not begun; by date, those without a date last. */
export function closingsOf(
  basis: Basis,
  stacks: readonly Stack[],
  exceptions: Exceptions,
  planned: Readonly<Record<string, PlannedTask>>,
): Closing[] {
  const closings: Closing[] = [];
  for (const stack of stacks)
    for (const cover of stack.entries) {
      if (cover.hides < 0 || cover.task.state !== 'not-started') continue;
      const behind = stack.entries
        .filter((inner) => hidesIn(inner, cover) && !exceptions.has(inner.task.key, cover.task.key))
        .map((entry) => entry.task);
      const { dates, because } = planned[cover.task.key]!;
      closings.push({
        zone: stack.zone,
        depth: stack.depths[cover.hides]!,
        by: cover.task.key,
        on: dates === null ? null : dates.start.slice(0, 10),
        at: dates?.start ?? null,
        ...lacks(basis, cover.task, behind),
        heldBy: because,
      });
    }
  return closings.sort(
    (a, b) => compare(a.at ?? '~', b.at ?? '~') || compare(a.zone, b.zone) || compare(a.by, b.by),
  );
}

type Lacks = Pick<Closing, 'missing' | 'behind' | 'unsigned' | 'undelivered' | 'undecided'>;

function lacks(basis: Basis, cover: Task, behind: readonly Task[]): Lacks {
  const missing = behind.filter((task) => task.state !== 'finished');
  const waiting = [...missing, cover];
  const undelivered = new Map<string, Lacks['undelivered'][number]>();
  for (const task of waiting)
    for (const { purchase, line, inHand, day } of basis.partsOf.get(task.key) ?? [])
      if (!inHand)
        undelivered.set(`${purchase.key} ${line.key}`, {
          purchase: purchase.key,
          line: line.key,
          name: line.name,
          arrives: day === null ? null : dayText(day),
        });
  const tasks = new Set(waiting.map(({ key }) => key));
  const purchases = new Set([...undelivered.values()].map(({ purchase }) => purchase));
  return {
    missing: missing.map(({ key }) => key),
    behind: behind.length,
    unsigned: [
      ...behind.flatMap((task) =>
        unsigned(task).map((hold) => ({ task: task.key, holdPoint: hold.key, name: hold.name })),
      ),
      ...unsigned(cover)
        .filter((hold) => hold.when === 'entry')
        .map((hold) => ({ task: cover.key, holdPoint: hold.key, name: hold.name })),
    ],
    undelivered: [...undelivered.keys()].sort().map((id) => undelivered.get(id)!),
    undecided: basis.file.decisions
      .filter(
        (decision) =>
          decision.chosen === null &&
          (decision.locksTasks.some((key) => tasks.has(key)) ||
            decision.locksPurchases.some((key) => purchases.has(key))),
      )
      .map(({ key }) => key)
      .sort(),
  };
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
