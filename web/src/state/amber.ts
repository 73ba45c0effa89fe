/**
 * What is about to go wrong: the only things drawn in amber. (1) a wrong order; (2) a closing within 14 days that still
 * misses something; (3) an order-by date within 7 days that would move the finish.
 */
import type { Closing, OrderError, Plan } from '#shared/contract/plan.ts';
import { daysBetween } from '../drawing/words.ts';

const CLOSING_DAYS = 14;
const ORDER_DAYS = 7;

export function missesOf({ missing, unsigned, undelivered, undecided }: Closing): number {
  return missing.length + unsigned.length + undelivered.length + undecided.length;
}

export function closingIsAmber(closing: Closing, asOf: string): boolean {
  return closing.on !== null && missesOf(closing) > 0 && daysBetween(asOf, closing.on) <= CLOSING_DAYS;
}

/** Would its order-by date, within a week, move the finish? */
export function purchaseIsAmber({ purchases, asOf }: Plan, key: string): boolean {
  const planned = purchases[key];
  const last = planned?.orderByLatest ?? null;
  return planned?.arrives !== null && last !== null && daysBetween(asOf, last) <= ORDER_DAYS;
}

export function errorIsAmber({ rule }: OrderError): boolean {
  return (
    rule === 'wrong-order' ||
    rule === 'closed-too-early' ||
    rule === 'covers-in-a-circle' ||
    rule === 'covered-unchecked'
  );
}

/** Closings that have a date, soonest first. */
export function nextClosings({ closings }: Plan): Closing[] {
  return closings
    .filter(({ at }) => at !== null)
    .toSorted((a, b) => (a.at! < b.at! ? -1 : a.at! > b.at! ? 1 : a.zone < b.zone ? -1 : 1));
}
