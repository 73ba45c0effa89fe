/** Days of every year: `11-15..03-15`, both included, over New Year where the second is the earlier. */
import { dayInYear } from '#shared/time/days.ts';
import { dayMonth } from '../drawing/words.ts';

export interface YearlyStretch {
  /** `11-15`. */
  readonly from: string;
  readonly to: string;
}

export function readYearly(text: string): YearlyStretch {
  const [from = '01-01', to = '12-31'] = text.split('..');
  return { from, to };
}

export function writeYearly({ from, to }: YearlyStretch): string {
  return `${from}..${to}`;
}

/** A leap year, so that every day of a year has its place on the line. */
const LINE_YEAR = 2028;
const LINE_DAYS = 366;

/** Where the days lie on a line of one year, as shares 0 to 1: one piece, or two over New Year. */
export function onYearLine({ from, to }: YearlyStretch): { readonly start: number; readonly end: number }[] {
  const first = dayInYear(LINE_YEAR, '01-01');
  const start = (dayInYear(LINE_YEAR, from) - first) / LINE_DAYS;
  const end = (dayInYear(LINE_YEAR, to) - first + 1) / LINE_DAYS;
  return start < end
    ? [{ start, end }]
    : [
        { start: 0, end },
        { start, end: 1 },
      ];
}

/** Where each month begins on the line. */
export function monthStarts(): number[] {
  const first = dayInYear(LINE_YEAR, '01-01');
  return Array.from(
    { length: 12 },
    (_, i) => (dayInYear(LINE_YEAR, `${String(i + 1).padStart(2, '0')}-01`) - first) / LINE_DAYS,
  );
}

/** "15 Nov". */
export function monthDayWords(monthDay: string): string {
  return dayMonth(`${LINE_YEAR}-${monthDay}`);
}

/** "15 Nov to 15 Mar". */
export function yearlyWords(text: string): string {
  const { from, to } = readYearly(text);
  return `${monthDayWords(from)} to ${monthDayWords(to)}`;
}
