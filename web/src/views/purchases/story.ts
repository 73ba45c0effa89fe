/** What happened with a purchase, day by day, as sentences. */
import type { Purchase } from '#shared/contract/purchase.ts';
import { money } from '../../drawing/words.ts';

export interface Event {
  readonly on: string;
  readonly words: string;
  /** A refund that can be marked: which return. */
  readonly refund: number | null;
  /** Dated after today. */
  readonly ahead: boolean;
}

const KINDS = { full: '', deposit: 'deposit, ', balance: 'balance, ', other: '' } as const;

/** @param own the build's currency. @param asOf the as-of day */
export function storyOf(
  purchase: Purchase,
  own: string,
  asOf: string,
  nameOf: (person: string) => string,
): Event[] {
  const sum = (amount: number) => money(amount, purchase.currency ?? own, { exact: true });
  const of = (key: string, quantity: number) => {
    const line = purchase.lines.find((one) => one.key === key);
    return `${quantity} ${line === undefined || line.unit === 'pc' ? '' : `${line.unit} `}${line?.name ?? key}`;
  };
  const happened = (on: string, words: string, refund: number | null = null): Event => ({
    on,
    words,
    refund,
    ahead: on > asOf,
  });
  return [
    ...(purchase.orderedOn === null ? [] : [happened(purchase.orderedOn, 'ordered')]),
    ...purchase.payments.map(({ on, amount, by, kind }) =>
      happened(
        on,
        `${sum(amount)} ${on > asOf ? 'to pay' : 'paid'}, ${KINDS[kind]}${by === null ? 'nobody named' : `by ${nameOf(by)}`}`,
      ),
    ),
    ...purchase.deliveries.map(({ on, line, quantity }) => happened(on, `${of(line, quantity)} came`)),
    ...purchase.returns.map(({ on, line, quantity, refund, refundedOn }, i) =>
      happened(
        on,
        `${of(line, quantity)} sent back${refund > 0 && refundedOn === null ? `, refund of ${sum(refund)} not in yet` : ''}`,
        refund > 0 && refundedOn === null ? i : null,
      ),
    ),
    ...purchase.returns.flatMap(({ refund, refundedOn }) =>
      refundedOn === null || refund === 0 ? [] : [happened(refundedOn, `${sum(refund)} refunded`)],
    ),
  ].toSorted((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
}
