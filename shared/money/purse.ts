/** The purse by month: money put in and money paid, summed up to the end of each month. Minor units of the build. */
import type { BuildFile } from '../contract/build-file.ts';
import { inBuildCurrency } from './paid.ts';

export interface PurseMonth {
  /** `2026-06`. */
  readonly month: string;
  readonly moneyIn: number;
  /** Net of refunds; null for months still to come. */
  readonly paid: number | null;
}

/** @param until a month or day: the last month of the list @param asOf the day up to which is paid */
export function purseByMonth(
  { build, purchases }: Pick<BuildFile, 'build' | 'purchases'>,
  asOf: string,
  until: string,
): PurseMonth[] {
  const moves = purchases.flatMap((purchase) => [
    ...purchase.payments.map(({ on, amount }) => ({
      on,
      amount: inBuildCurrency(amount, purchase, build.currency),
    })),
    ...purchase.returns.flatMap(({ refundedOn, refund }) =>
      refundedOn === null
        ? []
        : [{ on: refundedOn, amount: -inBuildCurrency(refund, purchase, build.currency) }],
    ),
  ]);
  const firsts = [
    build.startOn,
    asOf,
    ...moves.map(({ on }) => on),
    ...build.moneyIn.map((one) => ('on' in one ? one.on : one.from)),
  ];
  const first = firsts.map(monthOf).reduce((a, b) => (b < a ? b : a));
  const last = [until, asOf].map(monthOf).reduce((a, b) => (b > a ? b : a));
  return monthsFrom(first, last).map((month, i, months) => ({
    month,
    moneyIn: build.moneyIn.reduce((sum, one) => {
      if ('on' in one) return monthOf(one.on) <= month ? sum + one.amount : sum;
      return sum + one.monthly * months.slice(0, i + 1).filter((each) => each >= one.from).length;
    }, 0),
    paid:
      month > monthOf(asOf)
        ? null
        : moves.reduce((sum, { on, amount }) => (monthOf(on) <= month ? sum + amount : sum), 0),
  }));
}

function monthOf(day: string): string {
  return day.slice(0, 7);
}

const LONGEST = 600;

function monthsFrom(first: string, last: string): string[] {
  const months: string[] = [];
  let [year = 0, month = 0] = first.split('-').map(Number);
  for (let text = first; text <= last && months.length < LONGEST;) {
    months.push(text);
    month++;
    if (month > 12) [year, month] = [year + 1, 1];
    text = `${year}-${String(month).padStart(2, '0')}`;
  }
  return months;
}
