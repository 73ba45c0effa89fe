/** What is written along the axis: days, weeks, months or years, whichever the scale has room for. */
import { dayNumber, dayText, weekdayOf } from '#shared/time/days.ts';
import { MONTHS } from '../../drawing/words.ts';
import type { Axis } from './axis.ts';

export interface Tick {
  readonly day: number;
  readonly label: string;
}

export interface Ticks {
  /** Along the line, with a hair through the chart. */
  readonly minor: readonly Tick[];
  /** Above them, at a longer stroke. */
  readonly major: readonly Tick[];
}

const LONG = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];
const DAYS_FROM = 15;
const WEEKS_FROM = 2.4;
/** Px a month's name needs. */
const MONTH_WIDE = 23;

/** @param from @param to days between which ticks are wanted */
export function ticksOf(axis: Axis, from: number, to: number): Ticks {
  const { turn } = axis.range;
  if (axis.gap === 0) return stretch(axis.near, from, to, true);
  const near =
    from < turn ? stretch(axis.near, from, Math.min(to, turn - 1), true) : { minor: [], major: [] };
  if (to < turn) return near;
  const far = stretch(axis.far, Math.max(from, turn), to, false);
  return { minor: [...near.minor, ...far.minor], major: [...near.major, ...far.major] };
}

function stretch(scale: number, from: number, to: number, withYear: boolean): Ticks {
  if (scale >= WEEKS_FROM) {
    const step = scale >= DAYS_FROM ? 1 : 7;
    const minor: Tick[] = [];
    const start = step === 1 ? Math.ceil(from) : Math.ceil(from) + ((7 - weekdayOf(Math.ceil(from))) % 7);
    for (let day = start; day <= to; day += step)
      minor.push({ day, label: String(Number(dayText(day).slice(8))) });
    return {
      minor,
      major: monthStarts(from, to).map((day, i) => ({ day, label: monthName(day, i === 0 && withYear) })),
    };
  }
  const months = monthStarts(from, to);
  const every = scale * 30 >= MONTH_WIDE ? 1 : scale * 91 >= MONTH_WIDE ? 3 : 12;
  return {
    minor: months
      .filter((day) => (monthOf(day) - 1) % every === 0)
      .map((day) => ({ day, label: every === 12 ? '' : MONTHS[monthOf(day) - 1]! })),
    major: months
      .filter((day) => monthOf(day) === 1)
      .map((day) => ({ day, label: dayText(day).slice(0, 4) })),
  };
}

/** The first days of the months that begin between two days, both included. */
export function monthStarts(from: number, to: number): number[] {
  const out: number[] = [];
  let [year, month] = [Number(dayText(Math.floor(from)).slice(0, 4)), monthOf(Math.floor(from))];
  for (;;) {
    const day = dayNumber(`${year}-${String(month).padStart(2, '0')}-01`);
    if (day > to) return out;
    if (day >= from) out.push(day);
    if (++month > 12) [year, month] = [year + 1, 1];
  }
}

function monthOf(day: number): number {
  return Number(dayText(day).slice(5, 7));
}

function monthName(day: number, withYear: boolean): string {
  const month = monthOf(day);
  return `${LONG[month - 1]}${withYear || month === 1 ? ` ${dayText(day).slice(0, 4)}` : ''}`;
}
