/** What a purchase costs as far as its prices are known: lines with their tax, charges, shipping, less the discount. */
import type { Purchase } from '../contract/purchase.ts';
import { lineTotal, rounded, withTax } from '../money/paid.ts';

export interface Price {
  /** Minor units of the build's currency. */
  readonly amount: number;
  /** Lines nobody has put a price to yet: they are left out. */
  readonly unpriced: number;
}

export function priceOf({ lines, charges, shipping, discount, rate }: Purchase): Price {
  const known = lines.filter(({ unitPrice }) => unitPrice !== null);
  const parts = [
    ...known.map(lineTotal),
    ...charges.map(({ amount, ...tax }) => withTax(amount, tax)),
    shipping,
    -discount,
  ];
  return {
    amount: rounded(parts.reduce((sum, part) => sum + part, 0) * rate),
    unpriced: lines.length - known.length,
  };
}
