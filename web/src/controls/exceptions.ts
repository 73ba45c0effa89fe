/**
 * A person's days that differ from the usual week, as they are painted on a calendar: which exception holds on a day,
 * and a stretch of days painted over what was there. Days are written `2027-03-13`.
 */
import { WEEKDAYS, type CalendarException, type Person } from '#shared/contract/calendar.ts';
import { dayNumber, dayText, weekdayOf } from '#shared/time/days.ts';

type Exceptions = readonly CalendarException[];
type Worker = Pick<Person, 'week' | 'exceptions'>;

/** What a day is painted with; null: the usual week again. */
export type Brush = Pick<CalendarException, 'windows' | 'why'> | null;

/** The exception that holds on a day: the later begun, then the shorter, as the plan takes them. */
export function exceptionOn(exceptions: Exceptions, day: string): CalendarException | null {
  let found: CalendarException | null = null;
  for (const one of exceptions)
    if (one.from <= day && day <= one.to && (found === null || wins(one, found))) found = one;
  return found;
}

function wins(a: CalendarException, b: CalendarException): boolean {
  if (a.from !== b.from) return a.from > b.from;
  if (a.to !== b.to) return a.to < b.to;
  return a.windows.toSorted().join() >= b.windows.toSorted().join();
}

/** The windows in which a person works on a day. */
export function windowsOn({ week, exceptions }: Worker, day: string): readonly string[] {
  return exceptionOn(exceptions, day)?.windows ?? week[WEEKDAYS[weekdayOf(dayNumber(day))]!];
}

export type DayKind = 'works' | 'off' | 'away' | 'free';

export function kindOn({ week, exceptions }: Worker, day: string): DayKind {
  const exception = exceptionOn(exceptions, day);
  if (exception !== null) return exception.windows.length === 0 ? 'away' : 'free';
  return week[WEEKDAYS[weekdayOf(dayNumber(day))]!].length === 0 ? 'off' : 'works';
}

/**
 * Those days painted over: exceptions below are cut to what stands outside, and neighbours painted alike are joined.
 * @param from a day, @param to another, before or after it, both included
 */
export function painted(exceptions: Exceptions, from: string, to: string, brush: Brush): CalendarException[] {
  const [first, last] = from <= to ? [from, to] : [to, from];
  const cut = apart(exceptions).flatMap((one) => outside(one, first, last));
  if (brush !== null) cut.push({ from: first, to: last, windows: [...brush.windows], why: brush.why });
  return joined(cut.toSorted((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : a.to < b.to ? -1 : 1)));
}

/** The same days without overlaps: each stretch with the exception that holds on it. */
function apart(exceptions: Exceptions): CalendarException[] {
  const starts = [...new Set(exceptions.flatMap(({ from, to }) => [from, next(to, 1)]))].toSorted();
  return starts.slice(0, -1).flatMap((from, i) => {
    const holds = exceptionOn(exceptions, from);
    return holds === null ? [] : [{ ...holds, from, to: next(starts[i + 1]!, -1) }];
  });
}

function outside(one: CalendarException, first: string, last: string): CalendarException[] {
  if (one.to < first || last < one.from) return [one];
  const parts: CalendarException[] = [];
  if (one.from < first) parts.push({ ...one, to: next(first, -1) });
  if (last < one.to) parts.push({ ...one, from: next(last, 1) });
  return parts;
}

function joined(sorted: Exceptions): CalendarException[] {
  const out: CalendarException[] = [];
  for (const one of sorted) {
    const before = out.at(-1);
    if (before !== undefined && next(before.to, 1) === one.from && alike(before, one))
      out[out.length - 1] = { ...before, to: one.to };
    else out.push(one);
  }
  return out;
}

function alike(a: CalendarException, b: CalendarException): boolean {
  return a.why === b.why && a.windows.join() === b.windows.join();
}

function next(day: string, by: number): string {
  return dayText(dayNumber(day) + by);
}

/** The days of a month by its number (1 to 12), and how many empty places stand before the first in a week from Monday. */
export function monthOf(
  year: number,
  month: number,
): { readonly days: readonly string[]; readonly before: number } {
  const written = (m: number) => `${m > 12 ? year + 1 : year}-${String(m > 12 ? 1 : m).padStart(2, '0')}-01`;
  const first = dayNumber(written(month));
  const days = Array.from({ length: dayNumber(written(month + 1)) - first }, (_, i) => dayText(first + i));
  return { days, before: weekdayOf(first) };
}
