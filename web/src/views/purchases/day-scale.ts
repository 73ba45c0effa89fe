/** The axis of the order-by days: from a fortnight ago to the last day that any row shows, a year at most. */
import { addDays, daysBetween } from '../../drawing/words.ts';
import type { PurchaseRow } from './purchase-rows.ts';

const BACK = 14;
const LEAST = 12 * 7;
const MOST = 53 * 7;

export interface DayScale {
  readonly from: string;
  readonly to: string;
  readonly width: number;
  /** Days off either end stand at that end. */
  readonly x: (day: string) => number;
  readonly within: (day: string) => boolean;
  /** The first days of the months on it. */
  readonly months: readonly string[];
}

export function dayScale(rows: readonly PurchaseRow[], asOf: string, width: number): DayScale {
  const days = rows
    .filter(({ toOrder, toCome }) => toOrder || toCome)
    .flatMap(({ planned: { orderBy, orderByLatest, arrives } }) => [orderBy, orderByLatest, arrives])
    .filter((day) => day !== null);
  const last = days.reduce((a, b) => (b > a ? b : a), addDays(asOf, LEAST));
  const from = addDays(asOf, -BACK);
  const to = addDays(asOf, Math.min(daysBetween(asOf, last) + 7, MOST));
  const all = daysBetween(from, to);
  const within = (day: string) => day >= from && day <= to;
  const x = (day: string) => (Math.min(Math.max(daysBetween(from, day), 0), all) / all) * width;
  return { from, to, width, x, within, months: monthsWithin(from, to) };
}

function monthsWithin(from: string, to: string): string[] {
  const months: string[] = [];
  let [year, month] = [Number(from.slice(0, 4)), Number(from.slice(5, 7))];
  for (;;) {
    month++;
    if (month > 12) [year, month] = [year + 1, 1];
    const day = `${year}-${String(month).padStart(2, '0')}-01`;
    if (day > to) return months;
    months.push(day);
  }
}
