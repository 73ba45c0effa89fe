/** A purchase to begin with: one wanted part, everything else still to be said. */
import { Purchase, PurchaseLine } from '#shared/contract/purchase.ts';
import { blankOf, keyFor, type Node } from '../../controls/form-model.ts';

/** A purchase has no day before it is ordered. */
const NO_DAY = { day: '', instant: '' };

export function newPurchase(what: string, taken: Iterable<string>): Purchase {
  const blank = blankOf(Purchase as unknown as Node, NO_DAY) as Purchase;
  const line = blankOf(PurchaseLine as unknown as Node, NO_DAY) as PurchaseLine;
  return { ...blank, key: keyFor(what, taken), lines: [{ ...line, key: 'line', name: what }] };
}
