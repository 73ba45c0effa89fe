/** When the people are there next, and what holds then: what the sheet starts from before anybody says otherwise. */
import type { BuildFile } from '../contract/build-file.ts';
import type { Plan } from '../contract/plan.ts';
import { calendarOf } from '../time/calendar-of.ts';
import type { Calendar } from '../time/calendar.ts';
import { clockFrom, DAY, dayIndex, instantOf, instantText, type Clock } from '../time/clock.ts';
import { firstStart, NEVER_AGAIN, workedBefore } from '../time/working-set.ts';

export interface When {
  /** Now, or the beginning of the first window of a later day. */
  readonly at: string;
  /** Minutes of the windows from then to the end of the day; 0 where today has none left. */
  readonly minutes: number;
}

/** Today from now on, then the next days on which all of them are there at once. @param days how many in all */
export function nextTimes(file: BuildFile, plan: Plan, people: readonly string[], days: number): When[] {
  const { clock, calendar, now } = openCalendar(file, plan);
  const set = calendar.sets[calendar.setOf(Math.max(1, people.length), people, [], [])]!;
  const worked = (from: number, day: number) => workedBefore(set, (day + 1) * DAY) - workedBefore(set, from);
  const found: When[] = [{ at: plan.asOf, minutes: worked(now, dayIndex(now)) }];
  for (let day = dayIndex(now) + 1; found.length < days; day++) {
    const start = firstStart(set, day * DAY, 1, 1);
    if (start === NEVER_AGAIN) break;
    day = dayIndex(start);
    found.push({ at: instantText(clock, start), minutes: worked(start, day) });
  }
  return found;
}

/** The conditions that hold at an instant, by the calendar and the builder's word for that day; by key. */
export function holdingAt(file: BuildFile, plan: Plan, at: string): string[] {
  const { clock, calendar } = openCalendar(file, plan);
  const instant = instantOf(clock, at);
  return file.conditions
    .map(({ key }) => key)
    .filter((key) => {
      const set = calendar.sets[calendar.setOf(0, [], [key], [])]!;
      return firstStart(set, instant, 1, 1) === instant;
    })
    .sort();
}

function openCalendar(file: BuildFile, plan: Plan): { clock: Clock; calendar: Calendar; now: number } {
  const clock = clockFrom(file.build.startOn);
  const now = instantOf(clock, plan.asOf);
  return { clock, calendar: calendarOf(file, clock.firstDay + dayIndex(now)), now };
}
