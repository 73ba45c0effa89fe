/** What is still to be bought, in the order in which it must be ordered. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import type { Purchase } from '#shared/contract/purchase.ts';
import { daysBetween } from '../../drawing/words.ts';

export interface ToBuy {
  readonly purchase: Purchase;
  readonly orderBy: string | null;
}

export interface ShoppingPart {
  readonly title: string;
  readonly purchases: readonly ToBuy[];
}

/** Parts without a purchase are left out. */
export function shoppingList(file: BuildFile, plan: Plan): ShoppingPart[] {
  const open = file.purchases
    .filter(({ state }) => state === 'wanted' || state === 'quoted')
    .map((purchase): ToBuy => ({ purchase, orderBy: plan.purchases[purchase.key]?.orderBy ?? null }))
    .toSorted((a, b) => ((a.orderBy ?? '9999') < (b.orderBy ?? '9999') ? -1 : 1));
  const days = ({ orderBy }: ToBuy) => (orderBy === null ? null : daysBetween(plan.asOf, orderBy));
  const part = (title: string, holds: (left: number | null) => boolean): ShoppingPart => ({
    title,
    purchases: open.filter((one) => holds(days(one))),
  });
  return [
    part('Order within 7 days', (left) => left !== null && left <= 7),
    part('Order within 30 days', (left) => left !== null && left > 7 && left <= 30),
    part('Order later', (left) => left !== null && left > 30),
    part('No day known yet', (left) => left === null),
  ].filter(({ purchases }) => purchases.length > 0);
}
