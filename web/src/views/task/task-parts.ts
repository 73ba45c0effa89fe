/** A part as the task that needs it sees it. */
import type { Purchase, PurchaseLine } from '#shared/contract/purchase.ts';
import { dayWords } from '../../drawing/words.ts';

/** The purchase with the task put on or taken off one of its lines. */
export function needs(purchase: Purchase, line: string, task: string, needed: boolean): Purchase {
  return {
    ...purchase,
    lines: purchase.lines.map((one) =>
      one.key !== line
        ? one
        : {
            ...one,
            neededBy: needed
              ? [...new Set([...one.neededBy, task])]
              : one.neededBy.filter((key) => key !== task),
          },
    ),
  };
}

/** "here", "2 of 3 here", "ordered, comes Sat 13 Mar", "not ordered". */
export function partWords(
  { state, deliveries }: Purchase,
  line: PurchaseLine,
  arrives: string | null,
  now: string,
): string {
  const came = deliveries
    .filter((one) => one.line === line.key)
    .reduce((sum, { quantity }) => sum + quantity, 0);
  if (state === 'received' || came >= line.quantity) return 'here';
  const comes = arrives === null ? '' : `, comes ${dayWords(arrives, now)}`;
  if (state === 'part-received')
    return `${came === 0 ? 'not here yet' : `${came} of ${line.quantity} here`}${comes}`;
  if (state === 'ordered') return `ordered${comes}`;
  if (state === 'returned') return 'sent back';
  return state === 'quoted' ? 'quoted, not ordered' : 'not ordered';
}
