/**
 * The weekly rhythm: hours a week lately beside those the plan asks for from here. Lately: the mean of the last eight
 * full weeks in which anybody had a window or worked, four at least. The plan: the mean of its full weeks after the
 * running one, those left out in which nobody has a window. Holidays so count on neither side.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Plan } from '../contract/plan.ts';
import { dayNumber, dayText } from '../time/days.ts';
import {
  mondayOf,
  plannedWeeks,
  WEEK,
  weeksWithWindows,
  workedWeeks,
  type PlannedWeek,
  type WorkedWeek,
} from './weeks.ts';

const MOST_WEEKS = 8;
const LEAST_WEEKS = 4;
/** They part when they differ by more than a tenth and by an hour. */
const TENTH = 0.1;
const HOUR = 60;

export interface Mean {
  /** Person-minutes a week. */
  readonly minutes: number;
  /** How many weeks it is taken over. */
  readonly weeks: number;
  /** The first and the last of them, by their Mondays. */
  readonly from: string;
  readonly to: string;
}

export interface Rhythm {
  readonly worked: readonly WorkedWeek[];
  readonly planned: readonly PlannedWeek[];
  /** Null: too few weeks yet. */
  readonly lately: Mean | null;
  /** Null: no full week is planned. */
  readonly asks: Mean | null;
  /** Set when the two part. */
  readonly parted: Parted | null;
}

export interface Parted {
  /** Asked less worked, person-minutes a week: negative when more is worked than asked. */
  readonly minutes: number;
  /** Roughly when it would be finished at the hours worked lately; null without a finish or without hours. */
  readonly finish: string | null;
}

export function rhythmOf(
  file: Pick<BuildFile, 'build' | 'people' | 'hours'>,
  plan: Pick<Plan, 'tasks' | 'asOf' | 'finish'>,
): Rhythm {
  const asOf = plan.asOf.slice(0, 10);
  const worked = workedWeeks(file, asOf);
  const planned = plannedWeeks(file, plan);
  const lately = latelyOf(file, worked, asOf);
  const asks = asksOf(planned);
  return { worked, planned, lately, asks, parted: partedOf(lately, asks, asOf, plan.finish.dates) };
}

function latelyOf(
  file: Pick<BuildFile, 'build' | 'people'>,
  worked: readonly WorkedWeek[],
  asOf: string,
): Mean | null {
  const [first] = worked;
  if (first === undefined) return null;
  const there = weeksWithWindows(file, dayNumber(first.from), worked.length);
  const running = dayText(mondayOf(dayNumber(asOf)));
  const full = worked
    .filter(({ from, total }, i) => from < running && from >= file.build.startOn && (there[i]! || total > 0))
    .slice(-MOST_WEEKS);
  return full.length < LEAST_WEEKS ? null : meanOf(full.map(({ from, total }) => ({ from, minutes: total })));
}

function asksOf(planned: readonly PlannedWeek[]): Mean | null {
  const full = planned.slice(1, -1).filter(({ away }) => !away);
  return full.length === 0 ? null : meanOf(full);
}

function meanOf(weeks: readonly { readonly from: string; readonly minutes: number }[]): Mean {
  return {
    minutes: weeks.reduce((sum, { minutes }) => sum + minutes, 0) / weeks.length,
    weeks: weeks.length,
    from: weeks[0]!.from,
    to: weeks.at(-1)!.from,
  };
}

/** The way still to go takes as much longer as less is worked a week than asked, holidays stretched with it. */
function partedOf(
  lately: Mean | null,
  asks: Mean | null,
  asOf: string,
  finish: string | null,
): Parted | null {
  if (lately === null || asks === null) return null;
  const minutes = asks.minutes - lately.minutes;
  if (Math.abs(minutes) < HOUR || Math.abs(minutes) <= TENTH * asks.minutes) return null;
  const days = finish === null ? null : dayNumber(finish.slice(0, 10)) - dayNumber(asOf);
  const later =
    days === null || lately.minutes === 0 ? null : Math.round((days * asks.minutes) / lately.minutes);
  // Beyond fifty years nothing is said: at those hours it is never finished.
  const isSayable = later !== null && later < 50 * 52 * WEEK;
  return { minutes, finish: isSayable ? dayText(dayNumber(asOf) + later) : null };
}
