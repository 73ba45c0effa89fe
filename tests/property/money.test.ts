/** Sentences about any purchases: nothing is lost or invented between a line and the total, to the minor unit. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { costOf, inBuildCurrency, lineTotal, withTax } from '#shared/money/cost.ts';
import { earnedValue } from '#shared/money/earned-value.ts';
import { rounded, spread } from '#shared/money/rounding.ts';
import { computePlan } from '#shared/plan.ts';
import { exactLineTotal, moneyBuild } from '../support/arbitrary-purchases.ts';
import { makeBuild, NOW } from '../support/builds.ts';

const total = (amounts: readonly number[]) => amounts.reduce((sum, amount) => sum + amount, 0);

describe('the money of any build', () => {
  it('should cost each line what it costs on paper, rounded half away from zero', () => {
    always((file) => {
      for (const { lines } of file.purchases)
        for (const line of lines) expect(lineTotal(line)).toBe(exactLineTotal(line));
    });
  });

  it('should sum lines to the total of their purchase under any tax, shipping, fee, discount, quote and rate', () => {
    always((file) => {
      for (const purchase of file.purchases) {
        const cost = costOf(purchase, 'EUR');
        if (purchase.lines.length > 0) expect(total(cost.lines)).toBe(cost.total);
        const { lines, charges, shipping, discount, quotes } = purchase;
        const listed =
          total(lines.map(exactLineTotal)) +
          exactLineTotal({
            quantity: 1,
            unitPrice: shipping,
            taxPercent: purchase.shippingTaxPercent,
            taxIncluded: purchase.shippingTaxIncluded,
          }) +
          total(charges.map(({ amount, ...tax }) => withTax(amount, tax))) -
          discount;
        const own = cost.byQuote ? quotes[0]!.amount : listed;
        expect(cost.total).toBe(inBuildCurrency(own, purchase, 'EUR'));
      }
    });
  });

  it('should have paid, ordered and to buy sum to the forecast, in total and in every part of it', () => {
    always((file) => {
      const { money } = computePlan(file, { now: NOW });
      const parts = [
        money.total,
        money.unsorted,
        ...Object.values(money.phases),
        ...Object.values(money.categories),
      ];
      for (const { paid, ordered, toBuy, forecast, plan, over, unconfirmed } of parts) {
        expect(paid + ordered + toBuy).toBe(forecast);
        expect(over).toBe(plan === null ? null : forecast - plan);
        expect(unconfirmed).toBeLessThanOrEqual(ordered + toBuy);
        expect(Math.min(ordered, toBuy, unconfirmed)).toBeGreaterThanOrEqual(0);
      }
      for (const of of ['paid', 'ordered', 'toBuy', 'forecast', 'unconfirmed', 'unpricedLines'] as const)
        expect(total([money.unsorted, ...Object.values(money.phases)].map((one) => one[of]))).toBe(
          money.total[of],
        );
      const purchases = Object.values(money.purchases);
      expect(total(purchases.map(({ paid, open }) => paid + open))).toBe(money.total.forecast);
    });
  });

  it('should have paid what was paid by the day less what came back by then', () => {
    always((file) => {
      const paid = file.purchases.map((one) => {
        const gross = one.payments.filter(({ on }) => on <= '2026-06-20').map(({ amount }) => amount);
        const back = one.returns
          .filter(({ refundedOn }) => refundedOn !== null && refundedOn <= '2026-06-20')
          .map(({ refund }) => refund);
        return inBuildCurrency(total(gross), one, 'EUR') - inBuildCurrency(total(back), one, 'EUR');
      });
      expect(computePlan(file, { now: NOW }).money.total.paid).toBe(total(paid));
    });
  });

  it('should give every line to the tasks that need it, no cent more and none less', () => {
    always((file) => {
      const { money } = computePlan(file, { now: NOW });
      const needed = file.purchases.map((purchase) => ({
        ...purchase,
        lines: purchase.lines.map((line) => ({ ...line, phase: line.neededBy.length > 0 ? 'floor' : null })),
      }));
      const byNeed = computePlan({ ...file, purchases: needed }, { now: NOW }).money;
      expect(total(Object.values(money.tasks).map(({ forecast }) => forecast))).toBe(
        byNeed.phases['floor']!.forecast,
      );
    });
  });

  it('should end the cash curve at the forecast, and stand today at what is paid', () => {
    always((file) => {
      const { total: all, cash } = computePlan(file, { now: NOW }).money;
      expect(cash.months.at(-1)!.forecast).toBe(all.forecast);
      const today = cash.months.findLast(({ paid }) => paid !== null)!;
      expect(today.month).toBe('2026-06');
      expect(today.paid).toBe(all.paid);
    });
  });

  it('should have the balances of those who build it sum to nothing, and level once they have settled', () => {
    always((file) => {
      const { people, settle, purse } = computePlan(file, { now: NOW }).money.partners;
      expect(total(people.map(({ balance }) => balance))).toBe(0);
      const after = new Map(people.map(({ person, balance }) => [person, balance]));
      for (const { from, to, amount } of settle) {
        expect(amount).toBeGreaterThan(0);
        after.set(from, after.get(from)! + amount);
        after.set(to, after.get(to)! - amount);
      }
      expect([...after.values()].filter((left) => left !== 0)).toEqual([]);
      expect(total(people.map(({ paid }) => paid)) + purse).toBe(
        computePlan(file, { now: NOW }).money.total.paid,
      );
    });
  });

  it('should have paid nothing in the end for what went back whole and was refunded whole', () => {
    always((file) => {
      const purchases = file.purchases
        .filter(({ lines }) => lines.length > 0)
        .map((purchase) => {
          const paid = purchase.payments.filter(({ on }) => on <= '2026-06-20');
          return {
            ...purchase,
            state: 'returned' as const,
            lines: purchase.lines.map((line) => ({ ...line, neededBy: [] })),
            payments: paid,
            deliveries: [{ on: '2026-05-10', line: 'l0', quantity: purchase.lines[0]!.quantity }],
            returns: [
              {
                on: '2026-05-12',
                line: 'l0',
                quantity: purchase.lines[0]!.quantity,
                refund: total(paid.map(({ amount }) => amount)),
                refundedOn: '2026-05-20',
              },
            ],
          };
        });
      const { money } = computePlan({ ...file, purchases }, { now: NOW });
      expect(money.total.paid).toBe(0);
      for (const { paid } of Object.values(money.purchases)) expect(paid).toBe(0);
      expect(money.total.ordered + money.total.toBuy).toBe(0);
      expect(Object.keys(money.purchases)).toHaveLength(purchases.length);
    });
  });

  it('should spread any amount in whole parts of one sign that sum to it, the last taking the remainder', () => {
    const weights = fc.array(fc.integer({ min: 0, max: 10_000_000 }), { maxLength: 40 });
    fc.assert(
      fc.property(fc.integer({ min: -1_000_000_000, max: 1_000_000_000 }), weights, (amount, list) => {
        const parts = spread(amount, list);
        expect(total(parts)).toBe(list.length === 0 ? 0 : amount);
        for (const part of parts) expect(part * Math.sign(amount)).toBeGreaterThanOrEqual(0);
        const all = total(list);
        const last = list.findLastIndex((weight) => weight > 0);
        if (all > 0)
          parts.slice(0, last).forEach((part, i) => {
            // Rounded, unless what is left before it was less.
            const share = rounded((Math.abs(amount) * list[i]!) / all);
            const left = Math.abs(amount) - Math.abs(total(parts.slice(0, i)));
            expect(Math.abs(part)).toBe(Math.min(share, left));
          });
      }),
    );
  });

  it('should have no earned-value figure that is infinite or no number', () => {
    const any = fc.integer({ min: -1000, max: 1_000_000 });
    fc.assert(
      fc.property(any, any, any, any, (bac, pv, ev, ac) => {
        for (const figure of Object.values(earnedValue({ bac, pv, ev, ac })))
          expect(figure === null || Number.isFinite(figure)).toBe(true);
      }),
    );
  });
});

// Helpers

function always(holds: (file: BuildFile) => void): void {
  fc.assert(fc.property(moneyBuild, (parts) => holds(makeBuild(parts))));
}
