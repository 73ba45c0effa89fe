/** A cumulative curve as a drawing: where a value and a share lie, the line, and round marks along the axis. */
import { ticks } from '../../drawing/ticks.ts';
import { MONTHS } from '../../drawing/words.ts';
import { dayNumber, dayText } from '#shared/time/days.ts';

export interface CurveRoom {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface AxisMark {
  readonly value: number;
  readonly label: string;
}

export interface CurveShape {
  readonly least: number;
  readonly greatest: number;
  x(value: number): number;
  y(share: number): number;
  readonly line: string;
}

const n = (value: number) => Math.round(value * 10) / 10;

/**
 * From one in a hundred to 99, so that a single wild trial does not squeeze the rest; wider where a mark lies outside.
 * @param points point i: the value that i % of the trials do not pass; null: never
 */
export function curveShape(
  points: readonly (number | null)[],
  marks: readonly number[],
  room: CurveRoom,
): CurveShape {
  const inside = points.map((value, i) => ({ value, share: i / 100 })).slice(1, -1);
  const known = inside.flatMap(({ value, share }) => (value === null ? [] : [{ value, share }]));
  const all = [...known.map(({ value }) => value), ...marks];
  const low = Math.min(...all);
  const high = Math.max(...all);
  const pad = Math.max(1, (high - low) * 0.03);
  const [least, greatest] = [low - pad, high + pad];
  const across = room.width - room.left - room.right;
  const up = room.height - room.top - room.bottom;
  const x = (value: number) => room.left + ((value - least) / (greatest - least)) * across;
  const y = (share: number) => room.top + (1 - share) * up;
  const first = known[0];
  const line =
    first === undefined
      ? ''
      : `M${n(x(first.value))} ${n(y(0))}` +
        known.map(({ value, share }) => `L${n(x(value))} ${n(y(share))}`).join('');
  return { least, greatest, x, y, line };
}

/** Firsts of months, every first, second, third, sixth or twelfth of them, as many as have room. */
export function monthMarks({ least, greatest }: CurveShape, startOn: string, most: number): AxisMark[] {
  const origin = dayNumber(startOn);
  const dayAt = (minutes: number) => dayText(origin + Math.floor(minutes / 1440));
  const months = (greatest - least) / (30.4 * 1440);
  const step = [1, 2, 3, 6, 12, 24, 60].find((size) => months / size <= most) ?? 120;
  const marks: AxisMark[] = [];
  const first = dayAt(least);
  let month = Number(first.slice(0, 4)) * 12 + Number(first.slice(5, 7)) - 1;
  let named = '';
  for (; ; month++) {
    if (month % step !== 0) continue;
    const year = String(Math.floor(month / 12));
    const day = `${year.padStart(4, '0')}-${String((month % 12) + 1).padStart(2, '0')}-01`;
    const value = (dayNumber(day) - origin) * 1440;
    if (value > greatest) return marks;
    if (value < least) continue;
    const name = MONTHS[month % 12]!;
    marks.push({ value, label: year === named ? name : `${name} ${year}` });
    named = year;
  }
}

/** Round amounts. @param unit minor units of one whole unit */
export function amountMarks(
  { least, greatest }: CurveShape,
  unit: number,
  words: (minor: number) => string,
  most: number,
): AxisMark[] {
  const step = Math.max(1, ticks((greatest - least) / unit, most)[1] ?? 1) * unit;
  const marks: AxisMark[] = [];
  for (let value = Math.ceil(least / step) * step; value <= greatest; value += step)
    marks.push({ value, label: words(value) });
  return marks;
}
