/** Dates and durations as a builder says them: "Sat 13 Mar, 09:00", "3 h 15". English, the language of the screens. */
import { dayIndex, DAY, type Clock } from './clock.ts';
import { dayText, weekdayOf } from './days.ts';

const WEEKDAY = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
const MONTH = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** "Sat 13 Mar 2027" for days since 1970-01-01. */
export function dayWords(day: number): string {
  const text = dayText(day);
  return `${WEEKDAY[weekdayOf(day)]} ${Number(text.slice(8))} ${MONTH[Number(text.slice(5, 7)) - 1]} ${text.slice(0, 4)}`;
}

/** "Sat 13 Mar 2027, 09:00". */
export function instantWords(clock: Clock, instant: number): string {
  const minute = instant - dayIndex(instant) * DAY;
  const clockText = `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
  return `${dayWords(clock.firstDay + dayIndex(instant))}, ${clockText}`;
}

/** "45 min", "3 h", "3 h 15". */
export function durationWords(minutes: number): string {
  const hours = Math.floor(minutes / 60);
  const rest = minutes % 60;
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${String(rest).padStart(2, '0')}`;
}

/** "a", "a and b", "a, b and c". */
export function listWords(items: readonly string[]): string {
  if (items.length < 2) return items[0] ?? '';
  return `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}
