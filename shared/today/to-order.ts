/** What is to be ordered, by its last day: purchases not ordered yet, with the task that needs them first. */
import type { BuildFile } from '../contract/build-file.ts';
import type { Plan, PlannedPurchase } from '../contract/plan.ts';
import type { Purchase } from '../contract/purchase.ts';
import { dayNumber } from '../time/days.ts';

export interface ToOrder {
  readonly purchase: Purchase;
  readonly planned: PlannedPurchase;
  readonly orderBy: string;
  /** Days from now; below zero: too late already. */
  readonly inDays: number;
  /** The first task that needs it, and the day that starts; null where it has no date. */
  readonly task: string | null;
  readonly needed: string | null;
}

/** Soonest first. */
export function toOrder({ purchases }: BuildFile, plan: Plan): ToOrder[] {
  const today = dayNumber(plan.asOf.slice(0, 10));
  return purchases
    .flatMap((purchase): ToOrder[] => {
      const planned = plan.purchases[purchase.key];
      if (planned === undefined || planned.orderBy === null) return [];
      const uses = purchase.lines
        .flatMap(({ neededBy }) => neededBy)
        .flatMap((task) => {
          const { state, dates = null } = plan.tasks[task] ?? { state: 'finished' };
          return state === 'finished' || dates === null ? [] : [{ task, start: dates.start }];
        })
        .toSorted((a, b) => compare(a.start, b.start) || compare(a.task, b.task));
      return [
        {
          purchase,
          planned,
          orderBy: planned.orderBy,
          inDays: dayNumber(planned.orderBy) - today,
          task: uses[0]?.task ?? null,
          needed: uses[0]?.start.slice(0, 10) ?? null,
        },
      ];
    })
    .toSorted((a, b) => compare(a.orderBy, b.orderBy) || compare(a.purchase.key, b.purchase.key));
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
