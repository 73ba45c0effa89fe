/**
 * When each line of each purchase is in hand. Received: the day it came. Ordered: the promised day, or ordered plus
 * lead days, never before the as-of day. Wanted or quoted: as-of day plus lead days, as if ordered today.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Purchase, PurchaseLine } from '../contract/purchase.ts';
import { dayNumber } from '../time/days.ts';
import { needsAgain } from './needs-again.ts';

/** Days since 1970-01-01. */
export interface Arrival {
  readonly purchase: Purchase;
  readonly line: PurchaseLine;
  /** In hand already. */
  readonly inHand: boolean;
  /** The day it came or will come; null: it is in hand and nobody wrote down since when. */
  readonly day: number | null;
  /** The same, before the as-of day where it is overdue. */
  readonly due: number | null;
}

/** One per line, in the order of the file. @param asOfDay days since 1970-01-01 */
export function arrivalsOf(file: BuildFile, asOfDay: number): Arrival[] {
  const finished = new Set(file.tasks.filter((task) => task.state === 'finished').map((task) => task.key));
  return file.purchases.flatMap((purchase) =>
    purchase.lines.map((line) => ({ purchase, line, ...arrivalOf(purchase, line, asOfDay, finished) })),
  );
}

function arrivalOf(
  purchase: Purchase,
  line: PurchaseLine,
  asOfDay: number,
  finished: ReadonlySet<string>,
): Omit<Arrival, 'purchase' | 'line'> {
  const { state, leadDays } = purchase;
  const came = lastDelivery(purchase, line);
  if (state === 'received' || (state === 'part-received' && isComplete(purchase, line)))
    return { inHand: true, day: came, due: came };
  if (state === 'ordered' || state === 'part-received') {
    const due =
      purchase.promisedOn !== null
        ? dayNumber(purchase.promisedOn)
        : purchase.orderedOn !== null
          ? dayNumber(purchase.orderedOn) + leadDays
          : asOfDay + leadDays;
    return { inHand: false, day: Math.max(due, asOfDay), due };
  }
  // Sent back and nobody needs it any more: nothing to wait for.
  if (state === 'returned' && !needsAgain(line, finished)) return { inHand: true, day: came, due: came };
  const day = asOfDay + leadDays;
  return { inHand: false, day, due: day };
}

function lastDelivery(purchase: Purchase, line: PurchaseLine): number | null {
  const days = purchase.deliveries
    .filter((delivery) => delivery.line === line.key)
    .map((delivery) => dayNumber(delivery.on));
  return days.length === 0 ? null : Math.max(...days);
}

function isComplete(purchase: Purchase, line: PurchaseLine): boolean {
  const came = purchase.deliveries
    .filter((delivery) => delivery.line === line.key)
    .reduce((sum, delivery) => sum + delivery.quantity, 0);
  // Quantities may be fractions (5.6 m²): a rounding error in their sum does not hold a delivery open.
  return came >= line.quantity - 1e-9;
}
