/** Moves every date of a build by whole weeks: the weekdays stay, and a demo stands in the week of whoever opens it. */
import type { BuildFile } from '../contract/build-file.ts';
import { dayNumber, dayText } from '../time/days.ts';

const DAY = /^\d{4}-\d{2}-\d{2}(?=T\d{2}:\d{2}$|$)/;
const MONTH = /^\d{4}-\d{2}$/;

/** @param on a day; the as-of instant comes to lie in its week, Monday to Sunday */
export function movedTo(file: BuildFile, on: string): BuildFile {
  const asOf = file.build.asOf?.slice(0, 10) ?? file.build.startOn;
  const weeks = weekOf(dayNumber(on)) - weekOf(dayNumber(asOf));
  return shifted(file, weeks * 7) as BuildFile;
}

/** Weeks since the Monday before 1970-01-01. */
function weekOf(day: number): number {
  return Math.floor((day + 3) / 7);
}

function shifted(value: unknown, days: number): unknown {
  if (typeof value === 'string') return shiftedText(value, days);
  if (Array.isArray(value)) return value.map((item) => shifted(item, days));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, item]) => [name, shifted(item, days)]));
}

function shiftedText(text: string, days: number): string {
  if (DAY.test(text)) return dayText(dayNumber(text.slice(0, 10)) + days) + text.slice(10);
  // Months move with their middle, so that a shift of weeks lands in the nearest month.
  return MONTH.test(text) ? dayText(dayNumber(`${text}-15`) + days).slice(0, 7) : text;
}
