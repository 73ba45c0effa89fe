/** The stretch of calendar a task's line shows, and its ticks. Times are minutes since 1970-01-01, 00:00. */
import { dayNumber, dayText, weekdayOf } from '#shared/time/days.ts';

const DAY = 1440;

export function minutesOf(instant: string): number {
  return (
    dayNumber(instant.slice(0, 10)) * DAY +
    (instant.length > 10 ? Number(instant.slice(11, 13)) * 60 + Number(instant.slice(14, 16)) : 0)
  );
}

export interface Stretch {
  readonly from: number;
  readonly to: number;
  /** True where what comes after lies too far off to be drawn to scale. */
  readonly cut: boolean;
}

/**
 * From a little before the start to a little after what matters last. Today is shown where it is not much further off
 * than the task is long; what lies very far behind the finish (slack of half a year) is cut, or the bar would vanish.
 */
export function stretchOf({
  start,
  end,
  ahead,
  today,
}: {
  start: number;
  end: number;
  ahead: readonly number[];
  today: number;
}): Stretch {
  const own = Math.max(end - start, DAY);
  const reach = Math.max(own * 4, 21 * DAY);
  const near = today < start && start - today <= reach;
  const first = near ? today : start;
  const furthest = Math.max(end, ...ahead);
  const cut = furthest > end + reach;
  const last = cut ? end + reach : furthest;
  const pad = Math.max((last - first) * 0.04, DAY / 2);
  return { from: first - pad, to: last + pad * (cut ? 0 : 2), cut };
}

export interface Tick {
  readonly at: number;
  readonly day: string;
  readonly major: boolean;
}

/** Midnights at a pitch that leaves room for a word; weeks begin on Monday, months on their first. */
export function ticksOf({ from, to }: Stretch, width: number): Tick[] {
  const days = (to - from) / DAY;
  const room = Math.max(1, Math.floor(width / 64));
  const pitch = [1, 2, 7, 14, 28].find((step) => days / step <= room) ?? 0;
  const ticks: Tick[] = [];
  for (let day = Math.ceil(from / DAY); day * DAY <= to; day++) {
    const text = dayText(day);
    const first = text.endsWith('-01');
    const monday = weekdayOf(day) === 0;
    const shown =
      pitch === 0
        ? first
        : pitch < 7
          ? (day - Math.ceil(from / DAY)) % pitch === 0
          : monday && Math.floor((day + 3) / 7) % (pitch / 7) === 0;
    if (shown) ticks.push({ at: day * DAY, day: text, major: monday || first });
  }
  return ticks;
}
