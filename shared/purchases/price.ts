/** What a purchase costs as far as its prices are known, for a row of a list. */
import type { Purchase } from '../contract/purchase.ts';
import { costOf } from '../money/cost.ts';

export interface Price {
  /** Minor units of the build's currency. */
  readonly amount: number;
  /** Lines nobody has put a price to yet: they are left out. */
  readonly unpriced: number;
}

/** @param own the build's currency */
export function priceOf(purchase: Purchase, own: string): Price {
  const { total, unpriced } = costOf(purchase, own);
  return { amount: total, unpriced };
}
