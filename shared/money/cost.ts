/**
 * What a purchase costs: its lines with their tax, shipping, duties and fees with theirs, less the discount; or its
 * chosen quote, until every line has a confirmed price. A foreign purchase is booked at its rate; whatever is not on a
 * line is spread over the lines by value, the last taking the remainder.
 */
import type { Purchase, PurchaseLine } from '../contract/purchase.ts';
import { minorDigits } from './currency.ts';
import { rounded, spread } from './rounding.ts';

/** Minor units of the build's currency, tax included. */
export interface Cost {
  readonly total: number;
  /** Per line, in their order; they sum to the total where there are lines. */
  readonly lines: readonly number[];
  /** Lines nobody has put a price to yet: they count as nothing. */
  readonly unpriced: number;
  /** The total is what somebody offered, not a sum of prices. */
  readonly byQuote: boolean;
}

type Taxed = Pick<PurchaseLine, 'taxPercent' | 'taxIncluded'>;

/** Quantity times unit price with its tax, rounded once; 0 while the price is not known. Purchase's own minor units. */
export function lineTotal({ quantity, unitPrice, ...tax }: PurchaseLine): number {
  return withTax(quantity * (unitPrice ?? 0), tax);
}

/** An amount with its tax in it, rounded once. */
export function withTax(amount: number, { taxPercent, taxIncluded }: Taxed): number {
  return rounded(taxIncluded ? amount : (amount * (100 + taxPercent)) / 100);
}

/** Shipping with its tax, rounded once. Purchase's own minor units. */
export function shippingOf({
  shipping,
  shippingTaxPercent: taxPercent,
  shippingTaxIncluded: taxIncluded,
}: Pick<Purchase, 'shipping' | 'shippingTaxPercent' | 'shippingTaxIncluded'>): number {
  return withTax(shipping, { taxPercent, taxIncluded });
}

/** @param own the build's currency */
export function costOf(purchase: Purchase, own: string): Cost {
  const { lines } = purchase;
  const values = lines.map(lineTotal);
  const quote = standingQuote(purchase);
  const listed = quote === null ? withExtras(purchase, values) : spread(quote, values);
  const total = inBuildCurrency(quote ?? listTotal(purchase, values), purchase, own);
  return {
    total,
    lines: isForeign(purchase, own)
      ? spread(
          total,
          listed.map((amount) => Math.max(0, amount)),
        )
      : listed,
    unpriced: quote === null ? lines.filter(({ unitPrice }) => unitPrice === null).length : 0,
    byQuote: quote !== null,
  };
}

/** The chosen quote, in the purchase's own minor units; null where there is none or confirmed prices have replaced it. */
function standingQuote({ quotes, lines }: Purchase): number | null {
  const chosen = quotes.find((quote) => quote.chosen);
  if (chosen === undefined) return null;
  const known = lines.length > 0 && lines.every((line) => line.priceConfirmed && line.unitPrice !== null);
  return known ? null : chosen.amount;
}

/** What is on no line: shipping, duties and fees, less the discount. Purchase's own minor units, may be negative. */
export function extrasOf(purchase: Purchase): number {
  const { charges, discount } = purchase;
  return (
    charges.reduce((sum, { amount, ...tax }) => sum + withTax(amount, tax), shippingOf(purchase)) - discount
  );
}

function listTotal(purchase: Purchase, values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, extrasOf(purchase));
}

function withExtras(purchase: Purchase, values: readonly number[]): number[] {
  const extras = spread(extrasOf(purchase), values);
  return values.map((value, i) => value + extras[i]!);
}

export function isForeign({ currency }: Pick<Purchase, 'currency'>, own: string): boolean {
  return currency !== null && currency !== own;
}

/**
 * An amount of a purchase in the build's currency, at the rate at which it was booked: so many units of the build's
 * currency for one of the purchase's. Minor units of both, which may differ in size.
 */
export function inBuildCurrency(
  amount: number,
  { currency, rate }: Pick<Purchase, 'currency' | 'rate'>,
  own: string,
): number {
  if (currency === null || currency === own) return amount;
  return rounded(amount * rate * 10 ** (minorDigits(own) - minorDigits(currency)));
}
