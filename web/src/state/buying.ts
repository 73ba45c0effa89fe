/** The steps of a purchase, each one action of the history. */
import type { Payment, Purchase } from '#shared/contract/purchase.ts';
import {
  addPayment,
  addReceipt,
  chooseQuote,
  dropReceipt,
  fillIn,
  markCame,
  markIn,
  markOrdered,
  markRefunded,
  sendBack,
  type Came,
  type SentBack,
} from '#shared/purchases/steps.ts';
import { dayOf } from '../drawing/words.ts';
import { nameOfPurchase } from '../drawing/purchase-name.ts';
import type { Refusal } from './api.ts';
import type { Build } from './build.svelte.ts';

type Step = Promise<Refusal | null>;

const set = (build: Build, label: string, purchase: Purchase, after: Purchase): Step =>
  build.set(`${label}: ${nameOfPurchase(purchase)}`, 'purchases', purchase.key, after);

const today = (build: Build) => dayOf(build.plan.asOf);

export const buy = {
  ordered: (build: Build, purchase: Purchase) =>
    set(build, 'Mark ordered', purchase, markOrdered(purchase, today(build))),
  arrived: (build: Build, purchase: Purchase) =>
    set(build, 'Mark in', purchase, markIn(purchase, today(build))),
  /** Some of it, or all of it, with what is known of it now. */
  came: (build: Build, purchase: Purchase, on: string, came: readonly Came[]) =>
    set(build, 'Mark in', purchase, markCame(purchase, on, came)),
  sentBack: (build: Build, purchase: Purchase, back: SentBack) =>
    set(build, 'Mark sent back', purchase, sendBack(purchase, back)),
  refunded: (build: Build, purchase: Purchase, index: number) =>
    set(build, 'Mark refunded', purchase, markRefunded(purchase, index, today(build))),
  paid: (build: Build, purchase: Purchase, payment: Payment) =>
    set(build, 'Mark paid', purchase, addPayment(purchase, payment)),
  chosen: (build: Build, purchase: Purchase, quote: number) =>
    set(build, 'Choose a quote', purchase, chooseQuote(purchase, quote)),
  receipt: (build: Build, purchase: Purchase, file: string) =>
    set(build, 'Keep a receipt', purchase, addReceipt(purchase, file)),
  noReceipt: (build: Build, purchase: Purchase, file: string) =>
    set(build, 'Take a receipt off', purchase, dropReceipt(purchase, file)),
  known: (build: Build, purchase: Purchase, line: string, what: Pick<Came, 'unitPrice' | 'mass'>) =>
    set(build, 'Fill in price or mass', purchase, fillIn(purchase, line, what)),
};
