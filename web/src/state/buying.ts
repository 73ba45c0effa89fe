/** The one-press steps of a purchase, each one action of the history. */
import type { Purchase } from '#shared/contract/purchase.ts';
import { markIn, markOrdered, markRefunded } from '#shared/purchases/steps.ts';
import { dayOf } from '../drawing/words.ts';
import { nameOfPurchase } from '../drawing/purchase-name.ts';
import type { Refusal } from './api.ts';
import type { Build } from './build.svelte.ts';

type Step = Promise<Refusal | null>;

export const buy = {
  ordered(build: Build, purchase: Purchase): Step {
    return build.set(
      `Mark ordered: ${nameOfPurchase(purchase)}`,
      'purchases',
      purchase.key,
      markOrdered(purchase, dayOf(build.plan.asOf)),
    );
  },
  arrived(build: Build, purchase: Purchase): Step {
    return build.set(
      `Mark in: ${nameOfPurchase(purchase)}`,
      'purchases',
      purchase.key,
      markIn(purchase, dayOf(build.plan.asOf)),
    );
  },
  refunded(build: Build, purchase: Purchase, index: number): Step {
    return build.set(
      `Mark refunded: ${nameOfPurchase(purchase)}`,
      'purchases',
      purchase.key,
      markRefunded(purchase, index, dayOf(build.plan.asOf)),
    );
  },
};
