/** The slip as a drawing: days of change to the right, the finish each left upwards, as steps. */
import type { SlipPoint } from '#shared/baselines/slip.ts';
import { dayNumber, dayText } from '#shared/time/days.ts';
import { MONTHS } from '../../drawing/words.ts';

export interface SlipTick {
  readonly at: number;
  readonly word: string;
}

export interface SlipShape {
  readonly x: (day: string) => number;
  readonly y: (day: string) => number;
  /** The finish as steps; broken where there was none. */
  readonly line: string;
  readonly across: readonly SlipTick[];
  readonly up: readonly SlipTick[];
}

export interface SlipRoom {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** @param marks further finishes that must have room: of frozen plans, the target. @param today the last day drawn */
export function slipShape(
  points: readonly SlipPoint[],
  marks: readonly { readonly day: string; readonly finish: string }[],
  today: string,
  room: SlipRoom,
): SlipShape {
  const number = (text: string) => dayNumber(text.slice(0, 10));
  const days = [...points.map(({ day }) => day), ...marks.map(({ day }) => day), today].map(number);
  const ends = [
    ...points.flatMap(({ finish }) => (finish === null ? [] : [number(finish)])),
    ...marks.map(({ finish }) => number(finish)),
  ];
  const [from, to] = [Math.min(...days), Math.max(...days)];
  // A single day of history still has two sides.
  const wide = Math.max(7, to - from);
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const pad = Math.max(7, Math.round((high - low) * 0.12));
  const span = high - low + 2 * pad;
  const across = (day: number) => room.left + ((day - from) / wide) * (room.width - room.left - room.right);
  const upward = (day: number) =>
    room.height - room.bottom - ((day - low + pad) / span) * (room.height - room.top - room.bottom);
  return {
    x: (day) => across(number(day)),
    y: (day) => upward(number(day)),
    line: stepsOf(
      points,
      (day) => across(number(day)),
      (day) => upward(number(day)),
    ),
    across: monthTicks(from, from + wide, (room.width - room.left - room.right) / wide, 46).map(
      ({ day, word }) => ({ at: across(day), word }),
    ),
    up: monthTicks(low - pad, high + pad, (room.height - room.top - room.bottom) / span, 22).map(
      ({ day, word }) => ({ at: upward(day), word }),
    ),
  };
}

function stepsOf(
  points: readonly SlipPoint[],
  x: (day: string) => number,
  y: (day: string) => number,
): string {
  let path = '';
  let drawn = false;
  for (const { day, finish } of points) {
    if (finish === null) {
      if (drawn) path += `H${round(x(day))}`;
      drawn = false;
      continue;
    }
    path += drawn ? `H${round(x(day))}V${round(y(finish))}` : `M${round(x(day))} ${round(y(finish))}`;
    drawn = true;
  }
  return path;
}

/** First days of months, every one, third, sixth or twelfth, whichever leaves so many px to each; else of weeks. */
function monthTicks(from: number, to: number, scale: number, room: number) {
  const step = [1, 3, 6, 12].find((months) => months * 30 * scale >= room) ?? 24;
  const [year, month] = dayText(from).split('-').map(Number) as [number, number];
  const ticks: { day: number; word: string }[] = [];
  for (let n = year * 12 + month; ; n++) {
    const [y, m] = [Math.floor(n / 12), n % 12];
    const day = dayNumber(`${y}-${String(m + 1).padStart(2, '0')}-01`);
    if (day > to) break;
    if (n % step === 0) ticks.push({ day, word: m === 0 || step >= 12 ? `${MONTHS[m]} ${y}` : MONTHS[m]! });
  }
  return ticks;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
