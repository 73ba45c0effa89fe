/**
 * The written forms of the build file that JSON Schema has no word for: local days, instants, windows, yearly ranges.
 * Registered once with TypeBox; each test also refuses what is well written but impossible (31 June).
 */
import { Set as registerFormat } from 'typebox/format';
import { isDay, isMonthDay } from '../time/days.ts';

const CLOCK = /^(?:([01]\d|2[0-3]):([0-5]\d)|24:00)$/;

/** `18:30-21:00`, within one day, the end after the start; `24:00` only as an end. */
export function isWindow(text: string): boolean {
  const [from, to, ...rest] = text.split('-');
  if (from === undefined || to === undefined || rest.length > 0) return false;
  return CLOCK.test(from) && CLOCK.test(to) && from < to;
}

/** `2027-03-13T18:30`: local civil time, no zone, no seconds. */
export function isInstant(text: string): boolean {
  const [day, clock, ...rest] = text.split('T');
  if (day === undefined || clock === undefined || rest.length > 0) return false;
  return isDay(day) && CLOCK.test(clock) && clock !== '24:00';
}

/** `11-15..03-15`: every year, both days included, over New Year if the second is the earlier. */
export function isYearlyRange(text: string): boolean {
  const [from, to, ...rest] = text.split('..');
  return from !== undefined && to !== undefined && rest.length === 0 && isMonthDay(from) && isMonthDay(to);
}

/** `2026-06`. */
function isMonth(text: string): boolean {
  return isDay(`${text}-01`);
}

const CONTROL = /[\p{Cc}\u2028\u2029]/u;
const UNPRINTED = /^[\s\p{Cf}]*$/u;
const HALF_PAIR = /\p{Surrogate}/u;

/** One line with something to read on it, in any script. */
export function isOneLine(text: string): boolean {
  return !CONTROL.test(text) && !UNPRINTED.test(text) && !HALF_PAIR.test(text);
}

/** Lines of text: no control characters but tabs and line ends. */
export function isPlainText(text: string): boolean {
  return !CONTROL.test(text.replace(/[\t\n\r]/g, '')) && !HALF_PAIR.test(text);
}

registerFormat('one-line', isOneLine);
registerFormat('plain-text', isPlainText);
registerFormat('local-day', isDay);
registerFormat('local-instant', isInstant);
registerFormat('day-window', isWindow);
registerFormat('yearly-range', isYearlyRange);
registerFormat('local-month', isMonth);
