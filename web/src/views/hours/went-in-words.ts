/** What went in on a day or in a month, as one sentence; and the months and days one can step to. */
import type { WentIn } from '#shared/progress/went-in.ts';
import { dayNumber, dayText } from '#shared/time/days.ts';
import { count, duration, list, MONTHS } from '../../drawing/words.ts';

/** @param nameOf a person's name by their key */
export function wentInSentence(went: WentIn, nameOf: (person: string) => string): string {
  const { minutes, byPerson, entries, finished, signed, closed, came } = went;
  const others = [
    ...(finished.length > 0 ? [`${count(finished.length, 'task')} finished`] : []),
    ...(signed.length > 0 ? [`${count(signed.length, 'check')} signed`] : []),
    ...(closed.length > 0
      ? [`${count(new Set(closed.map(({ zone }) => zone)).size, 'zone')} closed further`]
      : []),
    ...(came.length > 0 ? [`${count(came.length, 'part')} came`] : []),
  ];
  if (minutes === 0)
    return others.length === 0 ? 'Nothing was logged.' : `No hours were logged; ${list(others)}.`;
  const tasks = new Set(entries.flatMap(({ task }) => task ?? [])).size;
  const who = list([...byPerson.keys()].map(nameOf).toSorted());
  const on = tasks === 0 ? '' : ` on ${count(tasks, 'task')}`;
  return `${duration(minutes)} of ${who}${on}${others.length === 0 ? '' : `; ${list(others)}`}.`;
}

export function monthWords(month: string): string {
  return `${MONTHS[Number(month.slice(5, 7)) - 1]} ${month.slice(0, 4)}`;
}

/** `2027-03` and so many months on. */
export function addMonths(month: string, by: number): string {
  const at = Number(month.slice(0, 4)) * 12 + Number(month.slice(5, 7)) - 1 + by;
  return `${Math.floor(at / 12)}-${String((at % 12) + 1).padStart(2, '0')}`;
}

/** The days of a month, written. */
export function daysOf(month: string): string[] {
  const first = dayNumber(`${month}-01`);
  const next = dayNumber(`${addMonths(month, 1)}-01`);
  return Array.from({ length: next - first }, (_, i) => dayText(first + i));
}

/** A day or month of the address, or null where it is none. */
export function readDay(text: string | null): string | null {
  if (text === null || !/^\d{4}-\d{2}-\d{2}$/.test(text)) return null;
  const month = readMonth(text.slice(0, 7));
  return month !== null && daysOf(month).includes(text) ? text : null;
}

export function readMonth(text: string | null): string | null {
  return text !== null && /^(199\d|20\d\d|21[0-8]\d)-(0[1-9]|1[0-2])$/.test(text) ? text : null;
}
