/** What is to be ordered this week, and what comes after: purchases not ordered yet, by their order-by date. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan, PlannedPurchase } from '#shared/contract/plan.ts';
import type { Purchase } from '#shared/contract/purchase.ts';
import { daysBetween } from '../../drawing/words.ts';

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
  return purchases
    .flatMap((purchase): ToOrder[] => {
      const planned = plan.purchases[purchase.key];
      if (planned === undefined || planned.orderBy === null) return [];
      const uses = purchase.lines
        .flatMap(({ neededBy }) => neededBy)
        .flatMap((task) => {
          const start =
            plan.tasks[task]?.state === 'finished' ? null : (plan.tasks[task]?.dates?.start ?? null);
          return start === null ? [] : [{ task, start }];
        })
        .toSorted((a, b) => (a.start < b.start ? -1 : a.start > b.start ? 1 : 0));
      return [
        {
          purchase,
          planned,
          orderBy: planned.orderBy,
          inDays: daysBetween(plan.asOf, planned.orderBy),
          task: uses[0]?.task ?? null,
          needed: uses[0]?.start.slice(0, 10) ?? null,
        },
      ];
    })
    .toSorted((a, b) =>
      a.orderBy < b.orderBy ? -1 : a.orderBy > b.orderBy ? 1 : a.purchase.key < b.purchase.key ? -1 : 1,
    );
}

/** "sheet adhesive 5 l", "rigid foam 20 mm and 2 more". */
export function purchaseWords({ lines }: Purchase): string {
  const [first, ...more] = lines;
  if (first === undefined) return 'a purchase without lines';
  return more.length === 0 ? first.name : `${first.name} and ${more.length} more`;
}
