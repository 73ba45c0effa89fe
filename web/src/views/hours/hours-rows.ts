/** Hours as the sheet shows them: worked per week and person, the latest entries, new keys. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Hours } from '#shared/contract/log.ts';
import { dayNumber, dayText, weekdayOf } from '#shared/time/days.ts';

export interface WorkedWeek {
  /** Its Monday. */
  readonly from: string;
  /** Person-minutes by person. */
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
  const monday = (day: string) => dayNumber(day) - weekdayOf(dayNumber(day));
  const start = monday(first);
  const sums = Array.from({ length: (monday(last) - start) / 7 + 1 }, () => new Map<string, number>());
  for (const { on, person, minutes } of hours) {
    const sum = sums[(monday(on) - start) / 7]!;
    sum.set(person, (sum.get(person) ?? 0) + minutes);
  }
  return sums.map((by, i) => ({
    from: dayText(start + i * 7),
    by,
    total: [...by.values()].reduce((a, b) => a + b, 0),
  }));
}

/** Mean person-minutes of the last full weeks before the running one. */
export function lately(weeks: readonly WorkedWeek[], number = 8): number {
  const full = weeks.slice(0, -1).slice(-number);
  return full.length === 0 ? 0 : full.reduce((sum, { total }) => sum + total, 0) / full.length;
}

export interface LoggedDay {
  readonly day: string;
  readonly entries: readonly Hours[];
  readonly minutes: number;
}

/** Entries by day, the latest day first. */
export function byDay(hours: readonly Hours[]): LoggedDay[] {
  const days = new Map<string, Hours[]>();
  for (const entry of hours) days.set(entry.on, [...(days.get(entry.on) ?? []), entry]);
  return [...days]
    .toSorted(([a], [b]) => (a < b ? 1 : -1))
    .map(([day, entries]) => ({
      day,
      entries,
      minutes: entries.reduce((sum, { minutes }) => sum + minutes, 0),
    }));
}
