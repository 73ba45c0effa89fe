/** Dates, hours, money and lists as the screens say them. A day is `2027-03-13`, an instant `2027-03-13T18:30`. */
import { minorDigits } from '#shared/money/currency.ts';
import { dayNumber, dayText, weekdayOf } from '#shared/time/days.ts';

const WEEKDAY = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
export const MONTHS = [
  'Jan',
  'Feb',
  'Mar',
  'Apr',
  'May',
  'Jun',
  'Jul',
  'Aug',
  'Sep',
  'Oct',
  'Nov',
  'Dec',
] as const;
/** Thin space, between thousands and after the currency. */
const THIN = '\u2009';
/** Instead of a number that is being typed and cannot be read yet. */
const UNREAD = '?';

export function dayOf(instant: string): string {
  return instant.slice(0, 10);
}

/** Whole days from one day or instant to another. */
export function daysBetween(from: string, to: string): number {
  return dayNumber(dayOf(to)) - dayNumber(dayOf(from));
}

export function addDays(day: string, days: number): string {
  return dayText(dayNumber(day) + days);
}

/** "13 Mar". */
export function dayMonth(day: string): string {
  return `${Number(day.slice(8, 10))} ${MONTHS[Number(day.slice(5, 7)) - 1]}`;
}

/** "Sat 13 Mar"; with the year where it is not that of `now`. */
export function dayWords(day: string, now?: string): string {
  const year = now !== undefined && day.slice(0, 4) !== now.slice(0, 4) ? ` ${day.slice(0, 4)}` : '';
  return `${WEEKDAY[weekdayOf(dayNumber(dayOf(day)))]} ${dayMonth(day)}${year}`;
}

/** "Sat 13 Mar, 18:30". */
export function instantWords(instant: string, now?: string): string {
  return `${dayWords(instant, now)}, ${instant.slice(11, 16)}`;
}

/** As in a drawing: "8 May" within a quarter of now, then "Sep", then "Apr 2028". */
export function roughDay(day: string, now: string): string {
  if (daysBetween(now, day) <= 92) return dayMonth(day);
  const month = MONTHS[Number(day.slice(5, 7)) - 1];
  return day.slice(0, 4) === now.slice(0, 4) ? `${month}` : `${month} ${day.slice(0, 4)}`;
}

/** "1 d", "12 d"; for sentences see `inDays`. */
export function daysShort(days: number): string {
  return `${days} d`;
}

/** "today", "tomorrow", "in 12 days", "3 days ago". */
export function inDays(days: number): string {
  if (days === 0) return 'today';
  if (days === 1) return 'tomorrow';
  if (days === -1) return 'yesterday';
  return days > 0 ? `in ${days} days` : `${-days} days ago`;
}

/** Hours with at most one decimal, no unit: "36", "15.5", "1 981". */
export function hours(minutes: number): string {
  if (Number.isNaN(minutes)) return UNREAD;
  const value = Math.round(minutes / 6) / 10;
  const [whole = '0', part] = String(value).split('.');
  return thousands(whole) + (part === undefined ? '' : `.${part}`);
}

/** "45 min", "3 h", "3 h 15". */
export function duration(minutes: number): string {
  if (Number.isNaN(minutes)) return UNREAD;
  const whole = Math.floor(minutes / 60);
  const rest = minutes % 60;
  if (whole === 0) return `${rest} min`;
  return rest === 0
    ? `${thousands(String(whole))} h`
    : `${thousands(String(whole))} h ${String(rest).padStart(2, '0')}`;
}

/** A wait: days where it is whole days, else hours. */
export function waitWords(minutes: number): string {
  return minutes >= 2880 && minutes % 1440 === 0 ? `${minutes / 1440} days` : duration(minutes);
}

const digitsOf = new Map<string, { digits: number; symbol: string }>();

/** How a currency is written: its decimals (ISO 4217) and its sign. */
export function currencyForm(currency: string): { digits: number; symbol: string } {
  let form = digitsOf.get(currency);
  if (form === undefined) {
    const format = new Intl.NumberFormat('en', {
      style: 'currency',
      currency,
      currencyDisplay: 'narrowSymbol',
    });
    const symbol = format.formatToParts(0).find(({ type }) => type === 'currency')?.value ?? currency;
    form = { digits: minorDigits(currency), symbol };
    digitsOf.set(currency, form);
  }
  return form;
}

/** "€ 23 610": whole units; `exact` with the cents. @param minor minor units */
export function money(minor: number, currency: string, { exact = false } = {}): string {
  if (Number.isNaN(minor)) return UNREAD;
  const { digits, symbol } = currencyForm(currency);
  const text = exact
    ? Math.abs(minor / 10 ** digits).toFixed(digits)
    : String(Math.round(Math.abs(minor) / 10 ** digits));
  const [whole = '0', part] = text.split('.');
  return `${minor < 0 ? '−' : ''}${symbol}${THIN}${thousands(whole)}${part === undefined ? '' : `.${part}`}`;
}

function thousands(digits: string): string {
  return digits.replace(/\B(?=(\d{3})+$)/g, THIN);
}

/** "a", "a and b", "a, b and c". */
export function list(items: readonly string[]): string {
  return items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

/** A whole number with thin spaces between thousands. */
export function grouped(number: number): string {
  return thousands(String(number));
}

/** "1 task", "3 tasks". */
export function count(number: number, one: string, many = `${one}s`): string {
  return `${thousands(String(number))} ${number === 1 ? one : many}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
