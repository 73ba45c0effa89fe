/** Random purchases that are valid by construction, and what a line costs worked out in whole numbers only. */
import fc from 'fast-check';

const DAYS = ['2026-05-04', '2026-06-15', '2026-07-20', '2026-09-07', '2027-01-18'];
const day = fc.constantFrom(...DAYS);
const amount = fc.integer({ min: 0, max: 5_000_000 });
const tax = fc.record({
  taxPercent: fc.integer({ min: 0, max: 300 }).map((tenths) => tenths / 10),
  taxIncluded: fc.boolean(),
});

export const TASKS = ['t0', 't1', 't2'];
export const PHASES = ['floor', 'walls'];
export const PEOPLE = ['ines', 'tor', 'plumber'];

export const line = fc
  .record({
    phase: fc.option(fc.constantFrom(...PHASES)),
    category: fc.constantFrom('material', 'tool', 'consumable', 'fee', 'hire'),
    neededBy: fc.subarray(TASKS),
    thousandths: fc.oneof(
      fc.integer({ min: 1, max: 20 }).map((n) => n * 1000),
      fc.integer({ min: 1, max: 50_000 }),
    ),
    unitPrice: fc.option(amount, { freq: 8 }),
    priceConfirmed: fc.boolean(),
    tax,
  })
  .map(({ thousandths, tax: own, ...rest }) => ({ ...rest, ...own, quantity: thousandths / 1000 }));

const state = fc.constantFrom('wanted', 'quoted', 'ordered', 'part-received', 'received', 'returned');

export const purchase = fc
  .record({
    state,
    lines: fc.array(line, { maxLength: 6 }),
    shipping: fc.integer({ min: 0, max: 9999 }),
    shippingTax: tax,
    charges: fc.array(
      fc
        .tuple(fc.integer({ min: 0, max: 99_999 }), tax)
        .map(([sum, own]) => ({ name: 'duty', amount: sum, ...own })),
      { maxLength: 2 },
    ),
    discount: fc.integer({ min: 0, max: 5000 }),
    foreign: fc.constantFrom(
      {},
      { currency: 'EUR' },
      { currency: 'GBP', rate: 1.1653 },
      { currency: 'JPY', rate: 0.0061 },
      { currency: 'KWD', rate: 2.9871 },
    ),
    quote: fc.option(amount),
    leadDays: fc.integer({ min: 0, max: 20 }),
    payments: fc.array(fc.record({ on: day, amount, by: fc.option(fc.constantFrom(...PEOPLE)) }), {
      maxLength: 3,
    }),
    refunds: fc.array(
      fc.record({ refund: fc.integer({ min: 0, max: 50_000 }), refundedOn: fc.option(day) }),
      { maxLength: 2 },
    ),
  })
  .map(({ lines: drawn, shippingTax, foreign, quote, refunds, ...rest }) => {
    const lines = drawn.map((one, i) => ({ key: `l${i}`, name: `part ${i}`, ...one }));
    const [first] = lines;
    const came = ['part-received', 'received', 'returned'].includes(rest.state) && first !== undefined;
    // No more is taken off than lines and shipping come to: a build would refuse it.
    const most = lines.reduce((sum, one) => sum + exactLineTotal(one), rest.shipping);
    return {
      ...rest,
      shippingTaxPercent: shippingTax.taxPercent,
      shippingTaxIncluded: shippingTax.taxIncluded,
      discount: Math.min(rest.discount, most),
      ...foreign,
      orderedOn: rest.state === 'ordered' ? '2026-05-04' : null,
      lines,
      quotes: quote === null ? [] : [{ supplier: 'shop', amount: quote, on: '2026-05-01', chosen: true }],
      deliveries: came ? [{ on: '2026-05-10', line: 'l0', quantity: first.quantity }] : [],
      returns: came
        ? refunds.map((one) => ({ on: '2026-05-12', line: 'l0', quantity: first.quantity / 4, ...one }))
        : [],
    };
  });

/** A build of the second half of May: what is dated later is still to come. */
export const moneyBuild = fc
  .record({
    purchases: fc.array(purchase, { maxLength: 6 }),
    budgets: fc.tuple(amount, amount),
    budget: fc.option(fc.integer({ min: 0, max: 20_000_000 })),
    contingencyPercent: fc.integer({ min: 0, max: 50 }),
    states: fc.tuple(fc.boolean(), fc.boolean(), fc.boolean()),
    monthly: fc.option(fc.integer({ min: 0, max: 200_000 })),
  })
  .map(({ purchases, budgets, budget, contingencyPercent, states, monthly }) => ({
    build: {
      asOf: '2026-06-20T12:00',
      budget,
      contingencyPercent,
      moneyIn: monthly === null ? [] : [{ from: '2026-06', monthly }],
    },
    people: [
      { key: 'ines', name: 'Ines', week: { sat: ['09:00-17:00'] } },
      { key: 'tor', name: 'Tor', week: { sat: ['09:00-17:00'] } },
      { key: 'plumber', name: 'plumber', byNameOnly: true },
    ],
    phases: PHASES.map((key, i) => ({ key, name: key, budget: budgets[i]! })),
    tasks: TASKS.map((key, i) => ({
      key,
      name: key,
      phase: PHASES[i % 2]!,
      minutes: { low: 60, likely: 60, high: 60 },
      ...(states[i]!
        ? { state: 'finished', startedAt: '2026-06-06T09:00', finishedAt: '2026-06-06T10:00' }
        : {}),
    })),
    purchases: purchases.map((one, i) => ({ key: `p${i}`, ...one })),
  }));

/** Quantity × price with its tax, rounded half away from zero, in whole numbers. */
export function exactLineTotal(one: {
  readonly quantity: number;
  readonly unitPrice: number | null;
  readonly taxPercent: number;
  readonly taxIncluded: boolean;
}): number {
  const thousandths = BigInt(Math.round(one.quantity * 1000));
  const perMille = one.taxIncluded ? 1000n : 1000n + BigInt(Math.round(one.taxPercent * 10));
  const millionths = thousandths * BigInt(one.unitPrice ?? 0) * perMille;
  return Number((millionths + 500_000n) / 1_000_000n);
}
