/** Days on which nobody is there: exceptions without windows that all who work on everything share. */
import type { CalendarException, Person } from '#shared/contract/calendar.ts';
import { dayNumber } from '#shared/time/days.ts';

export interface Away {
  /** The first day, and the day after the last. */
  readonly from: number;
  readonly to: number;
  readonly why: string;
}

/** Those that end after a day, in order; neighbouring days with the same reason as one. */
export function awayOf(people: readonly Person[], after: number): Away[] {
  const [first, ...others] = people
    .filter(({ byNameOnly }) => !byNameOnly)
    .map(({ exceptions }) => offDays(exceptions, after));
  if (first === undefined) return [];
  const out: { from: number; to: number; why: string }[] = [];
  for (const [day, why] of [...first].sort(([a], [b]) => a - b)) {
    if (why === null || !others.every((days) => days.get(day) != null)) continue;
    const last = out.at(-1);
    if (last !== undefined && last.to === day && last.why === why) last.to = day + 1;
    else out.push({ from: day, to: day + 1, why });
  }
  return out;
}

/** By day: the reason why there is no window, or null where an exception gives windows. The later exception wins, then the shorter. */
function offDays(exceptions: readonly CalendarException[], after: number): Map<number, string | null> {
  const days = new Map<number, string | null>();
  const spans = exceptions
    .map(({ from, to, windows, why }) => ({
      from: dayNumber(from),
      to: dayNumber(to),
      why: windows.length === 0 ? why : null,
    }))
    .filter(({ to }) => to >= after)
    .sort((a, b) => a.from - b.from || b.to - a.to);
  for (const { from, to, why } of spans)
    for (let day = Math.max(from, after); day <= to; day++) days.set(day, why);
  return days;
}
