/** The steps of a purchase as they are marked by one press: ordered, in, refunded. Days are written `2027-03-13`. */
import type { Purchase } from '../contract/purchase.ts';

export function markOrdered(purchase: Purchase, on: string): Purchase {
  const { promisedOn } = purchase;
  return {
    ...purchase,
    state: 'ordered',
    orderedOn: on,
    promisedOn: promisedOn !== null && promisedOn < on ? null : promisedOn,
  };
}

/** All of it is in: what had not come yet came on that day. */
export function markIn(purchase: Purchase, on: string): Purchase {
  const missing = purchase.lines.flatMap(({ key, quantity }) => {
    const came = purchase.deliveries
      .filter(({ line }) => line === key)
      .reduce((sum, one) => sum + one.quantity, 0);
    // Quantities may be fractions: what a rounding error leaves has come.
    const left = Math.round((quantity - came) * 1e9) / 1e9;
    return left > 0 ? [{ on, line: key, quantity: left }] : [];
  });
  return { ...purchase, state: 'received', deliveries: [...purchase.deliveries, ...missing] };
}

/** The refund of one return came in. @param index of the return */
export function markRefunded(purchase: Purchase, index: number, on: string): Purchase {
  return {
    ...purchase,
    returns: purchase.returns.map((one, i) => (i === index ? { ...one, refundedOn: on } : one)),
  };
}
