/**
 * How the finish moved as the plan was changed: the build as it was at the end of each day on which it was changed, by
 * taking changes back from the newest on, and the finish its plan then had. The plan itself is always the one of today's
 * rules: what is shown is what changed in the build, not in the program.
 */
import { withRows, type Laid } from '../changes/apply.ts';
import type { BuildFile } from '../contract/build-file.ts';
import type { Elsewhere } from '../contract/elsewhere.ts';
import { computePlan } from '../plan.ts';
import { dayNumber, weekdayOf } from '../time/days.ts';
import { withElsewhere } from '../time/elsewhere.ts';

/** The rows changed on a day as they were before it, and how many changes that took. */
export interface PastDay {
  readonly day: string;
  readonly changes: number;
  readonly before: readonly Pick<Laid, 'noun' | 'id' | 'value'>[];
}

export interface SlipPoint {
  readonly day: string;
  /** The planned finish as of the end of that day, an instant; null where it had none. */
  readonly finish: string | null;
  /** Did it rest on links left out, because something was in the wrong order? */
  readonly provisional: boolean;
  /** Changes since the point before. */
  readonly changes: number;
}

export interface SlipAsked {
  /** The caller's now, an instant: what the last point is of. */
  readonly now: string;
  /** The day the build came; its state then is the first point. */
  readonly since: string;
  /** Points at most, 2 or more. */
  readonly most: number;
  /** Where its people are planned by builds that come first, as it is by now: what it was then, nobody knows. */
  readonly elsewhere: Elsewhere;
}

/**
 * @param file the build as it is. @param days on which it was changed, the newest first
 * @returns the oldest first; of more days than points the last of each week, then evenly some. One plan a point.
 */
export function slipOf(file: BuildFile, days: readonly PastDay[], asked: SlipAsked): SlipPoint[] {
  const today = asked.now.slice(0, 10);
  const changed = days.map(({ day }) => day);
  const wanted = new Set(chosenDays([...new Set([asked.since, ...changed.toReversed(), today])], asked.most));
  const points: SlipPoint[] = [];
  const take = (day: string, then: BuildFile) => {
    const plan = computePlan(withElsewhere(then, asked.elsewhere), {
      now: day >= today ? asked.now : `${day}T23:59`,
    });
    points.push({ day, finish: plan.finish.dates, provisional: plan.provisional, changes: 0 });
  };
  let then = file;
  if (changed[0] !== today) take(today, then);
  for (const { day, before } of days) {
    if (wanted.has(day) && day <= today) take(day, then);
    then = withRows(then, before);
  }
  const oldest = changed.at(-1);
  if (wanted.has(asked.since) && asked.since < (oldest ?? today)) take(asked.since, then);
  return counted(points.toReversed(), days);
}

/** Changes fall to the first point at or after their day. */
function counted(points: readonly SlipPoint[], days: readonly PastDay[]): SlipPoint[] {
  return points.map((point, i) => {
    const after = points[i - 1]?.day ?? '';
    const changes = days.reduce(
      (sum, { day, changes: made }) => sum + (day > after && day <= point.day ? made : 0),
      0,
    );
    return { ...point, changes };
  });
}

/** @param days the oldest first. @returns at most so many of them, the first and the last among them */
export function chosenDays(days: readonly string[], most: number): string[] {
  const weekOf = (day: string) => dayNumber(day) - weekdayOf(dayNumber(day));
  const isLastOfWeek = (day: string, i: number) => {
    const next = days[i + 1];
    return next === undefined || weekOf(next) !== weekOf(day);
  };
  const byWeek = days.length <= most ? [...days] : days.filter((day, i) => i === 0 || isLastOfWeek(day, i));
  if (byWeek.length <= most) return byWeek;
  const step = (byWeek.length - 1) / (most - 1);
  return Array.from({ length: most }, (_, i) => byWeek[Math.round(i * step)]!);
}
