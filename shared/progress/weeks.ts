/** Hours by week, Monday to Sunday: those worked, from the log, and those the plan's dates ask for. Person-minutes. */
import type { BuildFile } from '../contract/build-file.ts';
import type { Plan } from '../contract/plan.ts';
import { DAY } from '../time/clock.ts';
import { dayNumber, dayText, weekdayOf } from '../time/days.ts';
import { sittingsOf } from './sittings.ts';

export const WEEK = 7;

/** The Monday of a day's week, days since 1970-01-01. */
export function mondayOf(day: number): number {
  return day - weekdayOf(day);
}

export interface WorkedWeek {
  /** Its Monday. */
  readonly from: string;
  /** By person. */
  readonly by: ReadonlyMap<string, number>;
  readonly total: number;
}

/** Every week from that of the first entry (or the start) to that of a day, empty ones too. */
export function workedWeeks(
  { build, hours }: Pick<BuildFile, 'build' | 'hours'>,
  until: string,
): WorkedWeek[] {
  const first = hours.reduce((day, { on }) => (on < day ? on : day), build.startOn);
  const last = hours.reduce((day, { on }) => (on > day ? on : day), until);
  const start = mondayOf(dayNumber(first));
  const length = (mondayOf(dayNumber(last)) - start) / WEEK + 1;
  const sums = Array.from({ length: Math.max(0, length) }, () => new Map<string, number>());
  for (const { on, person, minutes } of hours) {
    const sum = sums[(mondayOf(dayNumber(on)) - start) / WEEK]!;
    sum.set(person, (sum.get(person) ?? 0) + minutes);
  }
  return sums.map((by, i) => ({
    from: dayText(start + i * WEEK),
    by,
    total: [...by.values()].reduce((a, b) => a + b, 0),
  }));
}

export interface PlannedWeek {
  readonly from: string;
  readonly minutes: number;
  /** Nobody has a window in it. */
  readonly away: boolean;
}

/** Every week from that of the as-of day to that of the last planned sitting; none without dates. */
export function plannedWeeks(
  { build, people }: Pick<BuildFile, 'build' | 'people'>,
  plan: Pick<Plan, 'tasks' | 'asOf'>,
): PlannedWeek[] {
  const origin = dayNumber(build.startOn);
  const start = mondayOf(dayNumber(plan.asOf.slice(0, 10)));
  const weekOf = (instant: number) => Math.floor((origin + Math.floor(instant / DAY) - start) / WEEK);
  const minutes: number[] = [];
  for (const { dates } of Object.values(plan.tasks))
    for (const [from, to] of dates?.sittings ?? [])
      for (let week = Math.max(0, weekOf(from)); week <= weekOf(to - 1); week++) {
        const [monday, next] = [week, week + 1].map((w) => (start + w * WEEK - origin) * DAY) as [
          number,
          number,
        ];
        const part = Math.min(to, next) - Math.max(from, monday);
        while (minutes.length <= week) minutes.push(0);
        if (part > 0) minutes[week]! += part * dates!.people.length;
      }
  const there = weeksWithWindows({ people }, start, minutes.length);
  return minutes.map((sum, i) => ({ from: dayText(start + i * WEEK), minutes: sum, away: !there[i]! }));
}

/** Whether anybody who is not here by name only has a window in a week. @param from a Monday, days since 1970-01-01 */
export function weeksWithWindows(
  { people }: Pick<BuildFile, 'people'>,
  from: number,
  weeks: number,
): boolean[] {
  const there = Array.from({ length: weeks }, () => false);
  if (weeks === 0) return there;
  for (const person of people.filter(({ byNameOnly }) => !byNameOnly))
    for (const { start } of sittingsOf(person, from, from + weeks * WEEK - 1))
      there[Math.floor((start / DAY - from) / WEEK)] = true;
  return there;
}
