/**
 * Days of the calendar. A day is written `2027-03-13` and counted as whole days since 1970-01-01; Temporal's
 * `PlainDate` does the calendar arithmetic, remembered per day because a plan asks for the same days again and again.
 */
import { Temporal } from 'temporal-polyfill';

const EPOCH = Temporal.PlainDate.from('1970-01-01');
const WRITTEN = /^\d{4}-\d{2}-\d{2}$/;

/** Days outside these years are taken for slips of the pen. */
export const FIRST_YEAR = 1990;
export const LAST_YEAR = 2199;

const numberOf = new Map<string, number>();
const textOf = new Map<number, string>();

/** Is this a day that exists, within the years a build can lie in? */
export function isDay(text: string): boolean {
  if (!WRITTEN.test(text)) return false;
  const year = Number(text.slice(0, 4));
  if (year < FIRST_YEAR || year > LAST_YEAR) return false;
  if (numberOf.has(text)) return true;
  try {
    remember(text, Temporal.PlainDate.from(text, { overflow: 'reject' }));
    return true;
  } catch {
    return false;
  }
}

/** `11-15`; 29 February is a day of the year too. */
export function isMonthDay(text: string): boolean {
  return /^\d{2}-\d{2}$/.test(text) && isDay(`2000-${text}`);
}

/** Whole days from 1970-01-01. @throws RangeError for what is not a day */
export function dayNumber(text: string): number {
  const known = numberOf.get(text);
  if (known !== undefined) return known;
  if (!WRITTEN.test(text)) throw new RangeError(`not a day: ${text}`);
  return remember(text, Temporal.PlainDate.from(text, { overflow: 'reject' }));
}

/** The day that many days from 1970-01-01, written. */
export function dayText(day: number): string {
  return textOf.get(day) ?? written(EPOCH.add({ days: day }));
}

/** 0 Monday … 6 Sunday. 1970-01-01 was a Thursday. */
export function weekdayOf(day: number): number {
  return (((day + 3) % 7) + 7) % 7;
}

/** The day numbers of `11-15` in that year; 29 February falls on 1 March where the year has none. */
export function dayInYear(year: number, monthDay: string): number {
  const month = Number(monthDay.slice(0, 2));
  const day = Number(monthDay.slice(3));
  const date = Temporal.PlainDate.from({ year, month, day: 1 }).add({ days: day - 1 });
  return remember(date.toString(), date);
}

export function yearOf(day: number): number {
  return Number(dayText(day).slice(0, 4));
}

function remember(text: string, date: Temporal.PlainDate): number {
  const day = EPOCH.until(date, { largestUnit: 'days' }).days;
  numberOf.set(text, day);
  textOf.set(day, text);
  return day;
}

function written(date: Temporal.PlainDate): string {
  const text = date.toString();
  remember(text, date);
  return text;
}
