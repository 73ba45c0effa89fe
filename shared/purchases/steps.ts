/**
 * The steps of a purchase: ordered, in (whole or in part), sent back, refunded, paid. Each gives the purchase as it is
 * afterwards, with the state that follows. Days are written `2027-03-13`.
 */
import type { Payment, Purchase, PurchaseLine } from '../contract/purchase.ts';

export function markOrdered(purchase: Purchase, on: string): Purchase {
  const { promisedOn } = purchase;
  return {
    ...purchase,
    state: 'ordered',
    orderedOn: on,
    promisedOn: promisedOn !== null && promisedOn < on ? null : promisedOn,
  };
}

export interface Left {
  readonly line: PurchaseLine;
  readonly quantity: number;
}

/** What of each line has not come yet; lines of which all is here are left out. */
export function stillToCome(purchase: Purchase): Left[] {
  return purchase.lines.flatMap((line) => {
    // Quantities may be fractions: what a rounding error leaves has come.
    const quantity = rounded(line.quantity - cameOf(purchase, line.key));
    return quantity > 0 ? [{ line, quantity }] : [];
  });
}

/** What of each line is here: came, less what went back; lines of which nothing is here are left out. */
export function inHand(purchase: Purchase): Left[] {
  return purchase.lines.flatMap((line) => {
    const quantity = rounded(cameOf(purchase, line.key) - sumOf(purchase.returns, line.key));
    return quantity > 0 ? [{ line, quantity }] : [];
  });
}

function cameOf({ deliveries }: Purchase, key: string): number {
  return sumOf(deliveries, key);
}

function sumOf(list: readonly { readonly line: string; readonly quantity: number }[], key: string): number {
  return list.reduce((sum, one) => (one.line === key ? sum + one.quantity : sum), 0);
}

function rounded(quantity: number): number {
  return Math.round(quantity * 1e9) / 1e9;
}

/** What came of a line, and what is known of it now that it is here. Null: not told. */
export interface Came {
  readonly line: string;
  readonly quantity: number;
  readonly unitPrice?: number | null;
  readonly mass?: number | null;
}

/** Some of it came, or all. What came of a purchase that was never marked ordered was bought off the shelf. */
export function markCame(purchase: Purchase, on: string, came: readonly Came[]): Purchase {
  const known = came.reduce<Purchase>((before, one) => fillIn(before, one.line, one), purchase);
  const deliveries = [
    ...purchase.deliveries,
    ...came.filter(({ quantity }) => quantity > 0).map(({ line, quantity }) => ({ on, line, quantity })),
  ];
  const after: Purchase = { ...known, deliveries };
  return { ...after, state: stillToCome(after).length === 0 ? 'received' : 'part-received' };
}

/** All of it is in: what had not come yet came on that day. */
export function markIn(purchase: Purchase, on: string): Purchase {
  const came = stillToCome(purchase).map(({ line, quantity }) => ({ line: line.key, quantity }));
  return { ...markCame(purchase, on, came), state: 'received' };
}

/** A price somebody has read off a receipt is confirmed, and what it was guessed between is forgotten. */
export function fillIn(
  purchase: Purchase,
  key: string,
  { unitPrice = null, mass = null }: Pick<Came, 'unitPrice' | 'mass'>,
): Purchase {
  if (unitPrice === null && mass === null) return purchase;
  const lines = purchase.lines.map((line): PurchaseLine => {
    if (line.key !== key) return line;
    const priced =
      unitPrice === null
        ? line
        : { ...line, unitPrice, priceConfirmed: true, priceLow: null, priceHigh: null };
    return mass === null ? priced : { ...priced, mass };
  });
  return { ...purchase, lines };
}

export interface SentBack {
  readonly on: string;
  readonly line: string;
  readonly quantity: number;
  readonly refund: number;
}

/** Some of it goes back. Once all that came has gone, the purchase is returned, and both rows stay. */
export function sendBack(purchase: Purchase, back: SentBack): Purchase {
  const after: Purchase = { ...purchase, returns: [...purchase.returns, { ...back, refundedOn: null }] };
  const isWhole = inHand(after).length === 0 && stillToCome(after).length === 0;
  return isWhole ? { ...after, state: 'returned' } : after;
}

/** The refund of one return came in. @param index of the return */
export function markRefunded(purchase: Purchase, index: number, on: string): Purchase {
  return {
    ...purchase,
    returns: purchase.returns.map((one, i) => (i === index ? { ...one, refundedOn: on } : one)),
  };
}

export function addPayment(purchase: Purchase, payment: Payment): Purchase {
  return { ...purchase, payments: [...purchase.payments, payment] };
}

/** The quote that stands for the price; the same again: none does. */
export function chooseQuote(purchase: Purchase, index: number): Purchase {
  const quotes = purchase.quotes.map((quote, i) => ({ ...quote, chosen: i === index && !quote.chosen }));
  return { ...purchase, quotes, state: purchase.state === 'wanted' ? 'quoted' : purchase.state };
}

/** A receipt photographed or scanned; the same file twice is one. @param file `sha256:…` */
export function addReceipt(purchase: Purchase, file: string): Purchase {
  return { ...purchase, receipts: [...new Set([...purchase.receipts, file])] };
}

export function dropReceipt(purchase: Purchase, file: string): Purchase {
  return { ...purchase, receipts: purchase.receipts.filter((one) => one !== file) };
}
