import { describe, expect, it } from 'vitest';
import { PlanError } from '#shared/errors.ts';
import { makeBuild } from '../support/builds.ts';

describe('sums that cannot be right', () => {
  it('should refuse a line dearer than anything can be, and name its price', () => {
    const line = { key: 'a', name: 'a', quantity: 1_000_000, unitPrice: 1_000_000_000_000 };
    expect(faultsOf({ lines: [line] })).toEqual([
      '/purchases/0/lines/0/unitPrice times the quantity comes to more than anything can cost: look at both again',
    ]);
    expect(faultsOf({ lines: [{ ...line, quantity: 1 }] })).toEqual([]);
  });

  it('should refuse a rate that makes it so', () => {
    const lines = [{ key: 'a', name: 'a', quantity: 1, unitPrice: 1_000_000_000 }];
    expect(faultsOf({ currency: 'GBP', rate: 1_000_000, lines })).toEqual([
      '/purchases/0/rate makes the purchase dearer than anything can be: look at rate and prices again',
    ]);
  });

  it('should refuse a discount of more than all of it, once all of it has a price', () => {
    const line = { key: 'a', name: 'a', quantity: 2, unitPrice: 500 };
    expect(faultsOf({ lines: [line], shipping: 100, discount: 1100 })).toEqual([]);
    expect(faultsOf({ lines: [line], shipping: 100, discount: 1101 })).toEqual([
      '/purchases/0/discount is more than the purchase comes to without it: it must be that or less',
    ]);
    expect(faultsOf({ lines: [{ ...line, unitPrice: null }], discount: 1101 })).toEqual([]);
  });
});

// Helpers

function faultsOf(purchase: object): string[] {
  try {
    makeBuild({ purchases: [{ key: 'p', ...purchase }] });
    return [];
  } catch (error) {
    if (!(error instanceof PlanError) || error.failure.code !== 'bad-build') throw error;
    return error.failure.errors.map(({ pointer, detail }) => `${pointer} ${detail}`);
  }
}
