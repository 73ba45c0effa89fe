/**
 * One purchase as the ledger books it on a day: what was paid, what is still to pay, and whose share that is. What was
 * sent back stays in the ledger with its refund against it; only where its task still waits is it to be bought again.
 */
import type { Purchase, PurchaseLine } from '../contract/purchase.ts';
import { needsAgain } from '../purchases/needs-again.ts';
import { costOf, type Cost } from './cost.ts';
import { movesOf, sumOf, type Moves } from './moves.ts';
import { spread } from './rounding.ts';

/** Minor units of the build's currency. */
export interface Share {
  /** Null: a purchase without lines. */
  readonly line: PurchaseLine | null;
  /** Net of refunds that are in; negative where more came back than was paid. */
  readonly paid: number;
  readonly open: number;
  /** How much of `open` rests on a price nobody has confirmed. */
  readonly unconfirmed: number;
  /** Still to pay, and nobody knows what. */
  readonly unpriced: boolean;
}

export interface Booked {
  readonly purchase: Purchase;
  readonly cost: Cost;
  /** Payments and refunds. Refunds that have not come in are not counted on until they have. */
  readonly moves: Moves;
  /** Net of refunds that are in. */
  readonly paid: number;
  readonly open: number;
  /** Not ordered yet: `open` is to buy; else it is ordered. */
  readonly toBuy: boolean;
  readonly shares: readonly Share[];
}

/** @param on the as-of day: what is dated later is still to come. @param finished keys of finished tasks */
export function bookPurchase(
  purchase: Purchase,
  own: string,
  on: string,
  finished: ReadonlySet<string>,
): Booked {
  const { state, lines } = purchase;
  const cost = costOf(purchase, own);
  const moves = movesOf(purchase, own, on);
  const gross = sumOf(moves.paid);
  const weights = cost.lines.map((amount) => Math.max(0, amount));
  const opens =
    state === 'returned'
      ? lines.map((line, i) => (needsAgain(line, finished) ? Math.max(0, cost.lines[i]!) : 0))
      : spread(Math.max(0, cost.total - gross), weights);
  const paids = spread(gross, weights);
  const toBuy = state === 'wanted' || state === 'quoted' || state === 'returned';
  const open = lines.length > 0 ? sum(opens) : state === 'returned' ? 0 : Math.max(0, cost.total - gross);
  const paid = gross - sumOf(moves.refunded);
  return {
    purchase,
    cost,
    moves,
    paid,
    open,
    toBuy,
    shares:
      lines.length === 0
        ? [{ line: null, paid, open, unconfirmed: cost.byQuote ? 0 : open, unpriced: false }]
        : lines.map((line, i): Share => {
            const sure = cost.byQuote || line.priceConfirmed;
            return {
              line,
              paid: paids[i]! - sumOf(moves.refunded.filter((one) => one.line === line.key)),
              open: opens[i]!,
              unconfirmed: sure ? 0 : opens[i]!,
              unpriced: !cost.byQuote && line.unitPrice === null && gross === 0 && state !== 'returned',
            };
          }),
  };
}

function sum(amounts: readonly number[]): number {
  return amounts.reduce((total, amount) => total + amount, 0);
}
