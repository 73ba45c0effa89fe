/**
 * What a timer comes to when it is stopped. Instants are civil minutes, so the clock on the wall says on which days was
 * worked; how long it was, the elapsed minutes say where the device knows them (its zone tells a clock change from an
 * hour's work). They are rounded to quarter hours once, as a whole, and then split at midnight: nothing counts twice.
 */
import type { Timer } from '../contract/timer.ts';
import { clockMinutes, DAY } from '../time/clock.ts';
import { dayNumber, dayText } from '../time/days.ts';
import { DAY_MINUTES } from './log-hours.ts';
import { shareOut } from './share-out.ts';

/** Timers are logged in these. */
export const QUARTER = 15;
/** No clock is ever set forward or back by more: a greater difference is a clock that was wrong. */
const LONGEST_CLOCK_CHANGE = 120;

export interface Stop {
  /** When, as the clock on the wall says, `2027-03-09T19:54`. */
  readonly at: string;
  /** Minutes that went by since it was started, by a clock that nobody sets; null: only the wall clock is known. */
  readonly elapsed: number | null;
}

export interface Stopped {
  /** What went by, minutes. */
  readonly ran: number;
  /** Rounded to quarter hours: the sum of the days. */
  readonly minutes: number;
  /** Days with something on them, the earlier first. */
  readonly days: readonly { readonly on: string; readonly minutes: number }[];
}

/** Minutes since 1970-01-01T00:00 of an instant as written. */
export function civilMinute(instant: string): number {
  return dayNumber(instant.slice(0, 10)) * DAY + clockMinutes(instant.slice(11));
}

export function instantAt(civil: number): string {
  const minute = ((civil % DAY) + DAY) % DAY;
  const two = (value: number) => String(value).padStart(2, '0');
  return `${dayText((civil - minute) / DAY)}T${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
}

/** To the nearest quarter of an hour; half of one goes up. */
export function toQuarters(minutes: number): number {
  return Math.floor(minutes / QUARTER + 0.5) * QUARTER;
}

/** Minutes that went by. A stop before the start (a clock set back meanwhile) is none. */
export function ranFor({ startedAt }: Pick<Timer, 'startedAt'>, { at, elapsed }: Stop): number {
  const civil = civilMinute(at) - civilMinute(startedAt);
  const isBelieved = elapsed !== null && Math.abs(elapsed - civil) <= LONGEST_CLOCK_CHANGE;
  return Math.max(0, isBelieved ? Math.round(elapsed) : civil);
}

/** @param minutes what is to be logged instead of what it rounds to: the builder put it right */
export function stopTimer(
  timer: Pick<Timer, 'startedAt'>,
  stop: Stop,
  minutes: number = toQuarters(ranFor(timer, stop)),
): Stopped {
  const ran = ranFor(timer, stop);
  const start = civilMinute(timer.startedAt);
  const end = Math.max(start, civilMinute(stop.at));
  const [first, last] = [Math.floor(start / DAY), Math.floor(Math.max(start, end - 1) / DAY)];
  const wall = Array.from(
    { length: last - first + 1 },
    (_, i) => Math.min(end, (first + i + 1) * DAY) - Math.max(start, (first + i) * DAY),
  );
  const unit = minutes % QUARTER === 0 ? QUARTER : 1;
  const parts = shareOut(minutes / unit, withClockChange(wall, ran));
  return {
    ran,
    minutes,
    days: parts
      .map((part, i) => ({ on: dayText(first + i), minutes: part * unit }))
      // The day on which a clock is set back has 25 hours, but a person's day is told in 24.
      .map(({ on, minutes: part }) => ({ on, minutes: Math.min(part, DAY_MINUTES) }))
      .filter((day) => day.minutes > 0),
  };
}

/** Clocks are set in the small hours: what they gain or lose belongs to the last of the days, then to those before it. */
function withClockChange(wall: readonly number[], ran: number): number[] {
  const days = [...wall];
  let change = ran - wall.reduce((sum, part) => sum + part, 0);
  for (let i = days.length - 1; i >= 0 && change !== 0; i--) {
    const next = Math.max(0, days[i]! + change);
    change -= next - days[i]!;
    days[i] = next;
  }
  return days;
}
