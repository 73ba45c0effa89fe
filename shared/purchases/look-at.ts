/**
 * The purchases to look at, soonest first: to order within a fortnight or overdue, due within a fortnight, in and not paid,
 * payments planned within a fortnight or in the month that empties the purse, what can go back or keeps only that long,
 * refunds that have not come in.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Plan } from '../contract/plan.ts';
import type { Purchase } from '../contract/purchase.ts';
import { monthOf } from '../money/months.ts';
import { dayNumber } from '../time/days.ts';

const DAYS = 14;

export interface LookAt {
  readonly why: 'order' | 'due' | 'unpaid' | 'payment' | 'try' | 'off' | 'refund';
  readonly purchase: Purchase;
  /** The last day to order, the day it comes or came, is paid, goes off, can go back or went back. */
  readonly on: string;
  /** Which return, payment or line; -1 for the others. */
  readonly index: number;
}

export function toLookAt({ purchases }: Pick<BuildFile, 'purchases'>, plan: Plan): LookAt[] {
  const asOf = plan.asOf.slice(0, 10);
  const until = dayNumber(asOf) + DAYS;
  const soon = (day: string | null): day is string => day !== null && dayNumber(day) <= until;
  const empty = plan.money.cash.empty?.month ?? null;
  const found = purchases.flatMap((purchase): LookAt[] => {
    const { orderBy, arrives, keeping } = plan.purchases[purchase.key]!;
    const { open } = plan.money.purchases[purchase.key]!;
    const one = (why: LookAt['why'], on: string, index = -1): LookAt => ({ why, purchase, on, index });
    const toCome = purchase.state === 'ordered' || purchase.state === 'part-received';
    const scheduled = purchase.payments.flatMap(({ on }, index) =>
      on > asOf && (soon(on) || monthOf(on) === empty) ? [one('payment', on, index)] : [],
    );
    return [
      ...(soon(orderBy) ? [one('order', orderBy)] : toCome && soon(arrives) ? [one('due', arrives)] : []),
      ...scheduled,
      ...(purchase.state === 'received' && open > 0 && scheduled.length === 0
        ? [one('unpaid', purchase.deliveries.at(-1)?.on ?? purchase.orderedOn ?? asOf)]
        : []),
      ...keeping.flatMap(({ line, returnBy, goesOff, untried, spoils }): LookAt[] => {
        const index = purchase.lines.findIndex(({ key }) => key === line);
        return [
          ...(untried && soon(returnBy) ? [one('try', returnBy, index)] : []),
          ...(spoils && soon(goesOff) ? [one('off', goesOff, index)] : []),
        ];
      }),
      ...purchase.returns.flatMap(({ on, refundedOn, refund }, index): LookAt[] =>
        refundedOn === null && refund > 0 ? [one('refund', on, index)] : [],
      ),
    ];
  });
  return found.toSorted((a, b) =>
    a.on < b.on ? -1 : a.on > b.on ? 1 : a.purchase.key < b.purchase.key ? -1 : 1,
  );
}
