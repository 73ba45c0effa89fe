/** When a person's sittings are, from their week and its exceptions: windows at most 90 minutes apart are one. */
import type { Person } from '../contract/calendar.ts';
import { personAvailability } from '../time/availability.ts';
import { DAY } from '../time/clock.ts';
import { LONGEST_LUNCH } from '../time/make-working-set.ts';
import { Patterns } from '../time/patterns.ts';

/** Minutes since 1970-01-01T00:00, civil. */
export interface Sitting {
  readonly start: number;
  readonly end: number;
}

/** Those that begin on the days from one to another, both included. @param from days since 1970-01-01 */
export function sittingsOf(person: Person, from: number, to: number): Sitting[] {
  const patterns = new Patterns();
  // One day more, for the window that goes on after midnight.
  const days = personAvailability(person, { from, to: to + 2 }, patterns);
  const sittings: { start: number; end: number }[] = [];
  for (let i = 0; i < days.length; i++) {
    const stretches = patterns.at(days[i]!);
    const base = (from + i) * DAY;
    for (let s = 0; s < stretches.length; s += 2) {
      const [start, end] = [base + stretches[s]!, base + stretches[s + 1]!];
      const last = sittings.at(-1);
      const gap = last === undefined ? Infinity : start - last.end;
      // A window up to 24:00 and one from 00:00 go on; lunch is of one day.
      if (last !== undefined && (gap === 0 || (gap <= LONGEST_LUNCH && stretches[s]! >= gap))) last.end = end;
      else sittings.push({ start, end });
    }
  }
  return sittings.filter(({ start }) => start < (to + 1) * DAY);
}
