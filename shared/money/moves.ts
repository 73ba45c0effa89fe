/**
 * What was paid for a purchase and what came back, in the build's currency, by day. Of a foreign purchase the running
 * sum is converted, not each part, so that parts paid and the whole refunded come to nothing, to the minor unit.
 */
import type { Purchase } from '../contract/purchase.ts';
import { inBuildCurrency } from './cost.ts';

export interface PaymentMove {
  readonly on: string;
  /** Who paid; null: nobody is named. */
  readonly by: string | null;
  readonly amount: number;
}

export interface RefundMove {
  /** Null: not in yet. */
  readonly on: string | null;
  readonly line: string;
  readonly amount: number;
}

export interface Moves {
  /** Up to the day, by day. */
  readonly paid: readonly PaymentMove[];
  /** Written down for days after it, by day. */
  readonly scheduled: readonly PaymentMove[];
  readonly refunded: readonly RefundMove[];
  /** Agreed, not in by the day. */
  readonly refundsOut: readonly RefundMove[];
}

/** @param own the build's currency. @param on the as-of day */
export function movesOf(purchase: Purchase, own: string, on: string): Moves {
  const { payments, returns } = purchase;
  if (payments.length === 0 && returns.length === 0) return NONE;
  const isIn = ({ on: day }: { on: string | null }) => day !== null && day <= on;
  const allPaid = converted(payments.toSorted(byDay), purchase, own);
  const back = returns.map(({ refundedOn, line, refund }) => ({ on: refundedOn, line, amount: refund }));
  // Those that are in first, so that what is in never depends on what is still out.
  const allBack = converted([...back.filter(isIn), ...back.filter((one) => !isIn(one))], purchase, own);
  return {
    paid: allPaid.filter(isIn).map(({ on: day, by, amount }) => ({ on: day, by, amount })),
    scheduled: allPaid
      .filter((one) => !isIn(one))
      .map(({ on: day, by, amount }) => ({ on: day, by, amount })),
    refunded: allBack.filter(isIn),
    refundsOut: allBack.filter((one) => !isIn(one)),
  };
}

const NONE: Moves = { paid: [], scheduled: [], refunded: [], refundsOut: [] };

function converted<T extends { readonly amount: number }>(
  list: readonly T[],
  purchase: Purchase,
  own: string,
): T[] {
  let sum = 0;
  let before = 0;
  return list.map((one) => {
    sum += one.amount;
    const now = inBuildCurrency(sum, purchase, own);
    const amount = now - before;
    before = now;
    return { ...one, amount };
  });
}

function byDay(a: { readonly on: string }, b: { readonly on: string }): number {
  return a.on < b.on ? -1 : a.on > b.on ? 1 : 0;
}

export function sumOf(moves: readonly { readonly amount: number }[]): number {
  return moves.reduce((sum, { amount }) => sum + amount, 0);
}
