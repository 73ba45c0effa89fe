/**
 * How much of a purchase line stays in the van, and since when. What went back never drives along; a part is fitted
 * once it is in hand and every task that needs it is finished (one that nobody needs: as soon as it is in hand).
 */
import type { Purchase, PurchaseLine } from '../contract/purchase.ts';
import type { Task } from '../contract/task.ts';

export interface Fitted {
  /** Grams in the end, and of them in hand, and of those fitted. */
  readonly planned: number;
  readonly inHand: number;
  readonly now: number;
  /** The day it was fitted, written; null: not yet, or nobody wrote it down. */
  readonly on: string | null;
}

/** @param line with a mass */
export function fittedOf(
  purchase: Purchase,
  line: PurchaseLine & { readonly mass: number },
  tasks: ReadonlyMap<string, Task>,
): Fitted {
  const stays = (share: number) => Math.round(line.mass * line.fittedShare * Math.min(1, Math.max(0, share)));
  const back = quantityOf(purchase.returns, line) / line.quantity;
  // A purchase that went back without a word of how much went back as a whole.
  const kept = purchase.state === 'returned' && back === 0 ? 0 : 1 - back;
  const came = quantityOf(purchase.deliveries, line) / line.quantity;
  const share =
    purchase.state === 'received' || purchase.state === 'returned'
      ? kept
      : purchase.state === 'part-received'
        ? Math.min(1, came) - back
        : 0;
  const inHand = stays(share);
  const day = inHand === 0 ? undefined : fittedOn(purchase, line, tasks);
  return {
    planned: stays(kept),
    inHand,
    now: day === undefined ? 0 : inHand,
    on: day ?? null,
  };
}

/** Undefined while it is not fitted; null when nobody knows since when it is. */
function fittedOn(
  purchase: Purchase,
  { key, neededBy }: PurchaseLine,
  tasks: ReadonlyMap<string, Task>,
): string | null | undefined {
  const users = neededBy.map((task) => tasks.get(task)!);
  if (users.some(({ state }) => state !== 'finished')) return undefined;
  const days = [
    ...users.flatMap(({ finishedAt }) => (finishedAt === null ? [] : [finishedAt.slice(0, 10)])),
    ...purchase.deliveries.filter(({ line }) => line === key).map(({ on }) => on),
  ];
  return days.reduce<string | null>((last, day) => (last === null || day > last ? day : last), null);
}

function quantityOf(
  list: readonly { readonly line: string; readonly quantity: number }[],
  { key }: PurchaseLine,
): number {
  return list.filter(({ line }) => line === key).reduce((sum, { quantity }) => sum + quantity, 0);
}
