/** What was sent back is wanted again while a task that needs it is not finished; dates and money both go by this. */
import type { PurchaseLine } from '../contract/purchase.ts';

/** @param finished keys of finished tasks */
export function needsAgain(
  { neededBy }: Pick<PurchaseLine, 'neededBy'>,
  finished: ReadonlySet<string>,
): boolean {
  return neededBy.some((task) => !finished.has(task));
}
