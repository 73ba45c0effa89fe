import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Purchase, PurchaseLine } from '#shared/contract/purchase.ts';
import { readBuild } from '#shared/contract/read.ts';
import { lineTotal, paidByPhase, spread } from '#shared/money/paid.ts';
import { priceOf } from '#shared/purchases/price.ts';

const HEAD = { name: 'Van', startOn: '2026-06-06', currency: 'EUR' };
const PHASES = [
  { key: 'floor', name: 'Floor' },
  { key: 'walls', name: 'Walls' },
];

describe('what was paid, by phase', () => {
  it('should spread a payment over the phases of its lines by their totals', () => {
    const paid = paidOf({
      lines: [line('a', 'floor', 3, 1000), line('b', 'walls', 1, 1000)],
      payments: [{ on: '2026-07-01', amount: 4000 }],
    });
    expect(Object.fromEntries(paid.phases)).toEqual({ floor: 3000, walls: 1000 });
  });

  it('should give the cents that rounding leaves to the largest remainders', () => {
    expect(spread(100, [1, 1, 1])).toEqual([34, 33, 33]);
    expect(spread(100, [2, 5, 2])).toEqual([22, 56, 22]);
    expect(spread(7, [0, 0])).toEqual([4, 3]);
    expect(spread(5, [])).toEqual([]);
  });

  it('should take a refund off the phase of the line that went back, once it is in', () => {
    const returned = { on: '2026-07-09', line: 'b', quantity: 1, refund: 400 };
    const build = {
      state: 'received',
      lines: [line('a', 'floor', 1, 1000), line('b', 'walls', 1, 1000)],
      deliveries: [{ on: '2026-07-05', line: 'b', quantity: 1 }],
      payments: [{ on: '2026-07-01', amount: 2000 }],
    };
    const waiting = paidOf({ ...build, returns: [returned] });
    const refunded = paidOf({ ...build, returns: [{ ...returned, refundedOn: '2026-07-12' }] });
    expect(waiting.total).toBe(2000);
    expect(Object.fromEntries(refunded.phases)).toEqual({ floor: 1000, walls: 600 });
    expect(refunded.total).toBe(1600);
  });

  it('should book a foreign purchase at its rate, and keep what has no phase apart', () => {
    const paid = paidOf({
      currency: 'GBP',
      rate: 1.165,
      lines: [line('a', null, 1, 1000)],
      payments: [{ on: '2026-07-01', amount: 1001 }],
    });
    expect(paid).toMatchObject({ unsorted: 1166, total: 1166 });
  });

  it('should know the total of a purchase, with added tax, fees and discount, or that it is not known', () => {
    const net = { ...full(line('a', null, 2, 1005)), taxPercent: 21, taxIncluded: false };
    expect(lineTotal(net)).toBe(2432);
    const purchase = purchaseOf({
      lines: [line('a', null, 2, 1000)],
      shipping: 495,
      charges: [{ name: 'duty', amount: 100, taxPercent: 20, taxIncluded: false }],
      discount: 15,
    });
    expect(priceOf(purchase)).toEqual({ amount: 2600, unpriced: 0 });
    expect(priceOf(purchaseOf({ lines: [{ key: 'a', name: 'a', quantity: 1 }] }))).toEqual({
      amount: 0,
      unpriced: 1,
    });
  });

  it('should lose and invent no cent, however it is spread', () => {
    const amounts = fc.array(fc.integer({ min: 0, max: 10_000_000 }), { maxLength: 12 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1_000_000_000 }), amounts, (amount, weights) => {
        const parts = spread(amount, weights);
        const total = weights.reduce((sum, weight) => sum + weight, 0);
        expect(parts.reduce((sum, part) => sum + part, 0)).toBe(weights.length === 0 ? 0 : amount);
        if (total > 0)
          parts.forEach((part, i) =>
            expect(Math.abs(part - (amount * weights[i]!) / total)).toBeLessThan(1.000001),
          );
      }),
    );
  });

  it('should sum over phases and the rest to payments less refunds', () => {
    const phase = fc.constantFrom('floor', 'walls', null);
    const lines = fc.array(
      fc.tuple(phase, fc.integer({ min: 1, max: 9 }), fc.integer({ min: 0, max: 99_999 })),
      { maxLength: 6 },
    );
    fc.assert(
      fc.property(
        fc.array(fc.tuple(lines, fc.array(fc.integer({ min: 0, max: 9_999_999 }), { maxLength: 4 })), {
          maxLength: 5,
        }),
        (all) => {
          const purchases = all.map(([parts, payments], p) => ({
            key: `p${p}`,
            lines: parts.map(([of, quantity, price], l) => line(`l${l}`, of, quantity, price)),
            payments: payments.map((amount) => ({ on: '2026-07-01', amount })),
          }));
          const paid = paidByPhase(
            readBuild({ format: 'coverlast-build', version: 1, build: HEAD, phases: PHASES, purchases }),
          );
          const sum = all.flatMap(([, payments]) => payments).reduce((a, b) => a + b, 0);
          expect(paid.total).toBe(sum);
          expect([...paid.phases.values()].reduce((a, b) => a + b, paid.unsorted)).toBe(sum);
        },
      ),
    );
  });
});

// Helpers

function line(key: string, phase: string | null, quantity: number, unitPrice: number) {
  return { key, name: key, phase, quantity, unitPrice };
}

function purchaseOf(purchase: object): Purchase {
  return readBuild({
    format: 'coverlast-build',
    version: 1,
    build: HEAD,
    phases: PHASES,
    purchases: [{ key: 'p', ...purchase }],
  }).purchases[0]!;
}

function full(one: object): PurchaseLine {
  return purchaseOf({ lines: [one] }).lines[0]!;
}

function paidOf(purchase: object) {
  return paidByPhase(
    readBuild({
      format: 'coverlast-build',
      version: 1,
      build: HEAD,
      phases: PHASES,
      purchases: [{ key: 'p', ...purchase }],
    }),
  );
}
