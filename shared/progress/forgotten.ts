/**
 * Has a timer been forgotten? It has once it ran an hour past the sitting it was started in, or past the longest of the
 * person's sittings where it was started at another time. Then the end of that sitting is proposed: "stopped at 21:00?"
 */
import type { Person } from '../contract/calendar.ts';
import type { Timer } from '../contract/timer.ts';
import { DAY } from '../time/clock.ts';
import { sittingsOf, type Sitting } from './sittings.ts';
import { civilMinute, instantAt } from './timer.ts';

/** Nobody drops the tools at the minute. */
const OVERRUN = 60;
/** Who comes so much before a window has come for it. */
const EARLY = 120;
/** Started so shortly before the end of a window, it was not meant to end with it. */
const TOO_LATE = 30;
/** The sitting of a person without any windows. */
const UNKNOWN_SITTING = 240;

export interface Forgotten {
  /** When it was stopped, most likely; written. */
  readonly stoppedAt: string;
  /** Past the end of a window, longer than any sitting, or into another day. */
  readonly why: 'window' | 'sitting' | 'night';
}

/** @param now `2027-03-09T23:10` @returns null while it may well still run */
export function forgottenTimer(
  timer: Pick<Timer, 'startedAt'>,
  person: Person,
  now: string,
): Forgotten | null {
  const start = civilMinute(timer.startedAt);
  const at = civilMinute(now);
  const day = Math.floor(start / DAY);
  const sittings = sittingsOf(person, day - 1, day + 7);
  const own = sittings.find(
    (one) => one.start - EARLY <= start && start < one.end - Math.min(TOO_LATE, (one.end - one.start) / 2),
  );
  const end = own?.end ?? start + longest(sittings);
  if (at <= end + OVERRUN) return null;
  const isNight = Math.floor(at / DAY) > Math.floor((end - 1) / DAY);
  return { stoppedAt: instantAt(end), why: isNight ? 'night' : own === undefined ? 'sitting' : 'window' };
}

function longest(sittings: readonly Sitting[]): number {
  return sittings.length === 0
    ? UNKNOWN_SITTING
    : sittings.reduce((most, { start, end }) => Math.max(most, end - start), 0);
}
