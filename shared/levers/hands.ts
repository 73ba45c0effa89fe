/** Who works when in a usual week, as far as a change of hands needs to know. */
import type { BuildFile } from '../contract/build-file.ts';
import { WEEKDAYS, type Person, type Weekday } from '../contract/calendar.ts';

const EVENING = '18:30-21:00';
const FREE_DAY = ['09:00-12:30', '13:30-17:00'];
const EVENING_FROM = '16:00';
const MIDWEEK = WEEKDAYS.slice(0, 5);

export const WEEKDAY_WORDS: Record<Weekday, string> = {
  mon: 'Mondays',
  tue: 'Tuesdays',
  wed: 'Wednesdays',
  thu: 'Thursdays',
  fri: 'Fridays',
  sat: 'Saturdays',
  sun: 'Sundays',
};

/** Those who do whatever comes, not just tasks that name them. */
export function buildersOf({ people }: BuildFile): Person[] {
  return people.filter(({ byNameOnly }) => !byNameOnly);
}

/** Minutes of a list of windows, `18:30-21:00`. */
export function minutesOf(windows: readonly string[]): number {
  const clock = (text: string) => Number(text.slice(0, 2)) * 60 + Number(text.slice(3, 5));
  return windows.reduce((sum, window) => sum + clock(window.slice(6)) - clock(window), 0);
}

/** The window of an evening these people use most, else one of two and a half hours. */
export function usualEvening(people: readonly Person[]): string {
  const counts = new Map<string, number>();
  for (const { week } of people)
    for (const day of MIDWEEK)
      for (const window of week[day])
        if (window >= EVENING_FROM) counts.set(window, (counts.get(window) ?? 0) + 1);
  const [most] = [...counts].toSorted(([a, n], [b, m]) => m - n || (a < b ? -1 : 1));
  return most?.[0] ?? EVENING;
}

/** The weekday, Monday to Friday, on which none of them works and that lies furthest from those on which they do. */
export function freeWeekday(people: readonly Person[]): Weekday | null {
  const isWorked = (at: number) => people.some(({ week }) => week[WEEKDAYS[at]!].length > 0);
  const worked = WEEKDAYS.flatMap((_, at) => (isWorked(at) ? [at] : []));
  const distance = (a: number, b: number) => Math.min((a - b + 7) % 7, (b - a + 7) % 7);
  const room = (at: number) => Math.min(7, ...worked.map((other) => distance(at, other)));
  const free = MIDWEEK.map((_, at) => at).filter((at) => !isWorked(at));
  const [best] = free.toSorted((a, b) => room(b) - room(a) || a - b);
  return best === undefined ? null : WEEKDAYS[best]!;
}

/** The longest usual windows of that weekday among the builders; none where nobody works. */
export function windowsOn(file: BuildFile, day: Weekday): readonly string[] {
  const all = buildersOf(file).map(({ week }) => week[day]);
  return all.reduce<readonly string[]>((a, b) => (minutesOf(b) > minutesOf(a) ? b : a), []);
}

/** Windows of a free day: the longest day of the builders' weekend, else a day with a lunch in it. */
export function freeDay(file: BuildFile): readonly string[] {
  const [sat, sun] = [windowsOn(file, 'sat'), windowsOn(file, 'sun')];
  const longest = minutesOf(sun) > minutesOf(sat) ? sun : sat;
  return longest.length > 0 ? longest : FREE_DAY;
}

/** The weekday with the longest hours, Saturday first. */
export function longestWeekday(file: BuildFile): Weekday {
  const order: Weekday[] = ['sat', 'sun', ...MIDWEEK];
  return order.reduce((a, b) => (minutesOf(windowsOn(file, b)) > minutesOf(windowsOn(file, a)) ? b : a));
}

/** A week in which nobody works. */
export function emptyWeek(): Person['week'] {
  return { mon: [], tue: [], wed: [], thu: [], fri: [], sat: [], sun: [] };
}
