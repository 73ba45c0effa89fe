import { describe, expect, it } from 'vitest';
import type { Purchase } from '#shared/contract/purchase.ts';
import { costOf, inBuildCurrency, lineTotal } from '#shared/money/cost.ts';
import { minorDigits } from '#shared/money/currency.ts';
import { rounded, spread } from '#shared/money/rounding.ts';
import { priceOf } from '#shared/purchases/price.ts';
import { makeBuild } from '../support/builds.ts';

describe('what a purchase costs', () => {
  it('should round half away from zero, once a line, as it would be on paper', () => {
    expect(totalOf({ quantity: 0.5, unitPrice: 5 })).toBe(3);
    expect(totalOf({ quantity: 1.005, unitPrice: 100 })).toBe(101);
    expect(totalOf({ quantity: 3, unitPrice: 333 })).toBe(999);
    expect([rounded(-2.5), rounded(2.4999), rounded(-0.2)]).toEqual([-3, 2, 0]);
  });

  it('should have the tax in the price, or add it at its rate', () => {
    const price = { quantity: 2, unitPrice: 1005, taxPercent: 21 };
    expect(totalOf({ ...price, taxIncluded: true })).toBe(2010);
    expect(totalOf({ ...price, taxIncluded: false })).toBe(2432); // 2,432.10
  });

  it('should add shipping and duties with their tax, take off the discount, and spread both by value', () => {
    const purchase = bought({
      lines: [part('a', 3, 1000), part('b', 1, 1000)],
      shipping: 495,
      charges: [{ name: 'duty', amount: 100, taxPercent: 20, taxIncluded: false }],
      discount: 15,
    });
    // 4,000 + 495 + 120 − 15; of the 600 that is on no line three quarters go to the first.
    expect(costOf(purchase, 'EUR')).toEqual({
      total: 4600,
      lines: [3450, 1150],
      unpriced: 0,
      byQuote: false,
    });
  });

  it('should add the tax of shipping where it is not in it', () => {
    const shipped = { lines: [part('a', 1, 1000)], shipping: 495, shippingTaxPercent: 21 };
    expect(costOf(bought(shipped), 'EUR').total).toBe(1495);
    expect(costOf(bought({ ...shipped, shippingTaxIncluded: false }), 'EUR').total).toBe(1599); // 598.95
  });

  it('should leave the remainder of what does not divide to the last line of any value', () => {
    expect(spread(100, [1, 1, 1])).toEqual([33, 33, 34]);
    expect(spread(100, [1, 1, 1, 0])).toEqual([33, 33, 34, 0]);
    expect(spread(-100, [1, 1, 1])).toEqual([-33, -33, -34]);
    expect(spread(2, [1, 1, 1, 1])).toEqual([1, 1, 0, 0]);
    expect(spread(7, [0, 0])).toEqual([4, 3]);
    expect(spread(5, [])).toEqual([]);
  });

  it('should be what a chosen quote says, until every line has a confirmed price', () => {
    const quotes = [
      { supplier: 'first shop', amount: 4100, on: '2026-05-01', chosen: true },
      { supplier: 'second shop', amount: 3900, on: '2026-05-01' },
    ];
    const quoted = bought({ lines: [part('a', 3, 1000), part('b', 1, null)], quotes });
    expect(costOf(quoted, 'EUR')).toEqual({ total: 4100, lines: [4100, 0], unpriced: 0, byQuote: true });
    const confirmed = [{ ...part('a', 3, 1000), priceConfirmed: true }];
    expect(costOf(bought({ lines: confirmed, quotes }), 'EUR').total).toBe(3000);
  });

  it('should count what has no price as nothing, and say how many lines that are', () => {
    const purchase = bought({ lines: [part('a', 1, null), part('b', 2, 150)] });
    expect(costOf(purchase, 'EUR')).toMatchObject({ total: 300, lines: [0, 300], unpriced: 1 });
    expect(priceOf(purchase, 'EUR')).toEqual({ amount: 300, unpriced: 1 });
  });
});

describe('a foreign purchase', () => {
  it('should be booked at its rate, in the minor units of both currencies', () => {
    expect(inBuildCurrency(1001, { currency: 'GBP', rate: 1.165 }, 'EUR')).toBe(1166);
    // 12,000 yen have no hundredths; 73.20 euro have.
    expect(inBuildCurrency(12_000, { currency: 'JPY', rate: 0.0061 }, 'EUR')).toBe(7320);
    // 1.500 dinar of thousandths are 4.48 euro.
    expect(inBuildCurrency(1500, { currency: 'KWD', rate: 2.9871 }, 'EUR')).toBe(448);
    expect(inBuildCurrency(448, { currency: 'EUR', rate: 165 }, 'JPY')).toBe(739);
  });

  it('should have a rate that counts for nothing when it is in the currency of the build', () => {
    expect(costOf(bought({ currency: 'EUR', rate: 3, lines: [part('a', 1, 500)] }), 'EUR').total).toBe(500);
  });

  it('should spread the booked total over its lines, not round each by itself', () => {
    const purchase = bought({
      currency: 'GBP',
      rate: 1.5,
      lines: [part('a', 1, 1), part('b', 1, 1), part('c', 1, 1)],
    });
    expect(costOf(purchase, 'EUR')).toMatchObject({ total: 5, lines: [2, 2, 1] });
  });

  it('should know how many decimals a currency has (ISO 4217)', () => {
    expect(['EUR', 'USD', 'JPY', 'ISK', 'KWD', 'IQD', 'TND', 'HUF'].map(minorDigits)).toEqual([
      2, 2, 0, 0, 3, 3, 3, 2,
    ]);
  });
});

// Helpers

function part(key: string, quantity: number, unitPrice: number | null) {
  return { key, name: key, quantity, unitPrice };
}

function bought(purchase: object): Purchase {
  return makeBuild({ purchases: [{ key: 'p', ...purchase }] }).purchases[0]!;
}

function totalOf(line: object): number {
  return lineTotal(bought({ lines: [{ key: 'a', name: 'a', ...line }] }).lines[0]!);
}
