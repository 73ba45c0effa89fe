/**
 * The purchases to look at, soonest first: to order within a fortnight or overdue, due within a fortnight, refunds that
 * have not come in.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Plan } from '../contract/plan.ts';
import type { Purchase } from '../contract/purchase.ts';
import { dayNumber } from '../time/days.ts';

const DAYS = 14;

export interface LookAt {
  readonly why: 'order' | 'due' | 'refund';
  readonly purchase: Purchase;
  /** The last day to order, the day it comes, the day it went back. */
  readonly on: string;
  /** Which return; -1 for the others. */
  readonly index: number;
}

export function toLookAt({ purchases }: Pick<BuildFile, 'purchases'>, plan: Plan): LookAt[] {
  const until = dayNumber(plan.asOf.slice(0, 10)) + DAYS;
  const soon = (day: string | null): day is string => day !== null && dayNumber(day) <= until;
  const found = purchases.flatMap((purchase): LookAt[] => {
    const { orderBy, arrives } = plan.purchases[purchase.key]!;
    const refunds = purchase.returns.flatMap(({ on, refundedOn, refund }, index): LookAt[] =>
      refundedOn === null && refund > 0 ? [{ why: 'refund', purchase, on, index }] : [],
    );
    const toCome = purchase.state === 'ordered' || purchase.state === 'part-received';
    if (soon(orderBy)) return [{ why: 'order', purchase, on: orderBy, index: -1 }, ...refunds];
    if (toCome && soon(arrives)) return [{ why: 'due', purchase, on: arrives, index: -1 }, ...refunds];
    return refunds;
  });
  return found.toSorted((a, b) =>
    a.on < b.on ? -1 : a.on > b.on ? 1 : a.purchase.key < b.purchase.key ? -1 : 1,
  );
}
