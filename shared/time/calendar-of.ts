/**
 * The calendar of a build, remembered by its content: a plan is computed anew at every edit, and most edits leave
 * people, tools and conditions alone. A memory of a pure function, so it changes nothing but the time taken.
 */
import type { BuildFile } from '../contract/build-file.ts';
import { Calendar, HORIZON_DAYS } from './calendar.ts';
import { dayNumber } from './days.ts';

const REMEMBERED = 4;
const recent: { readonly name: string; readonly calendar: Calendar }[] = [];

/**
 * @param asOfDay the as-of day, in days since 1970-01-01; the calendar reaches ten years past it
 * @param back days before the build's start to reach back to (late dates may lie there once a target is missed)
 */
export function calendarOf(file: BuildFile, asOfDay: number, back = 0): Calendar {
  const { people, tools, conditions } = file;
  const firstDay = dayNumber(file.build.startOn);
  const span = { from: firstDay - back, to: Math.max(firstDay, asOfDay) + HORIZON_DAYS };
  const name = JSON.stringify([people, tools, conditions, firstDay, span]);
  const known = recent.findIndex((entry) => entry.name === name);
  const entry =
    known >= 0
      ? recent.splice(known, 1)[0]!
      : { name, calendar: new Calendar({ people, tools, conditions }, span, firstDay) };
  recent.unshift(entry);
  recent.length = Math.min(recent.length, REMEMBERED);
  return entry.calendar;
}
