/**
 * What was paid, by phase: the payments of a purchase spread over the phases of its lines in proportion to the lines'
 * totals, less what was refunded for a line. Minor units of the build's currency; cents go by largest remainder, so
 * that the parts sum exactly.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Purchase, PurchaseLine } from '../contract/purchase.ts';

export interface Paid {
  /** Every phase of the build; may be negative where more was refunded than paid. */
  readonly phases: ReadonlyMap<string, number>;
  /** For lines of no phase, and purchases without lines. */
  readonly unsorted: number;
  /** The sum of all of it. */
  readonly total: number;
}

type Money = Pick<BuildFile, 'build' | 'phases' | 'purchases'>;

export function paidByPhase({ build, phases, purchases }: Money): Paid {
  const sums = new Map<string | null, number>(phases.map(({ key }) => [key, 0]));
  const add = (phase: string | null, amount: number) => {
    const into = phase !== null && sums.has(phase) ? phase : null;
    sums.set(into, (sums.get(into) ?? 0) + amount);
  };
  for (const purchase of purchases) {
    const { lines } = purchase;
    const totals = lines.map(lineTotal);
    for (const { amount } of purchase.payments) {
      const parts = spread(inBuildCurrency(amount, purchase, build.currency), totals);
      if (parts.length === 0) add(null, inBuildCurrency(amount, purchase, build.currency));
      parts.forEach((part, i) => add(lines[i]!.phase, part));
    }
    for (const { refund, refundedOn, line } of purchase.returns) {
      if (refundedOn === null) continue;
      const phase = lines.find(({ key }) => key === line)?.phase ?? null;
      add(phase, -inBuildCurrency(refund, purchase, build.currency));
    }
  }
  const unsorted = sums.get(null) ?? 0;
  sums.delete(null);
  const byPhase = sums as Map<string, number>;
  return {
    phases: byPhase,
    unsorted,
    total: [...byPhase.values()].reduce((sum, amount) => sum + amount, unsorted),
  };
}

/** Quantity times unit price with its tax; 0 while the price is not known. Minor units of the purchase's currency. */
export function lineTotal({ quantity, unitPrice, ...tax }: PurchaseLine): number {
  return withTax(quantity * (unitPrice ?? 0), tax);
}

/** An amount with its tax in it, rounded once. */
export function withTax(
  amount: number,
  { taxPercent, taxIncluded }: Pick<PurchaseLine, 'taxPercent' | 'taxIncluded'>,
): number {
  return rounded(taxIncluded ? amount : amount * (1 + taxPercent / 100));
}

/** An amount of a purchase in the build's currency, at the rate it was booked. */
export function inBuildCurrency(
  amount: number,
  { currency, rate }: Pick<Purchase, 'currency' | 'rate'>,
  own: string,
): number {
  return currency === null || currency === own ? amount : rounded(amount * rate);
}

/**
 * A whole amount in whole parts in proportion to weights; equal parts where all weigh nothing. What rounding leaves
 * goes to the largest remainders, the earlier first.
 */
export function spread(amount: number, weights: readonly number[]): number[] {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const shares = weights.map(
    (weight) => (amount * (total === 0 ? 1 : weight)) / (total === 0 ? weights.length : total),
  );
  const parts = shares.map(Math.floor);
  const left = amount - parts.reduce((sum, part) => sum + part, 0);
  const byRemainder = shares
    .map((share, i) => ({ i, rest: share - parts[i]! }))
    .toSorted((a, b) => b.rest - a.rest || a.i - b.i);
  for (let n = 0; n < left && n < byRemainder.length; n++) parts[byRemainder[n]!.i]!++;
  return parts;
}

/** Half away from zero. */
export function rounded(value: number): number {
  const whole = Math.round(Math.abs(value));
  return value < 0 && whole !== 0 ? -whole : whole;
}
