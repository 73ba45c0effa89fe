/** The purse as a drawing: axis, steps of money in, lines of paid, forecast and plan, the months in which it is empty. */
import type { Cash } from '#shared/contract/plan-money.ts';

export interface PurseShape {
  /** Left edge of a month, by its place in the list; the one after the last is the right edge. */
  readonly x: (index: number) => number;
  readonly y: (minor: number) => number;
  /** Where today stands. */
  readonly today: number;
  /** The place of this month in the list. */
  readonly now: number;
  readonly moneyIn: string;
  readonly paid: string;
  readonly forecast: string;
  /** '' without a baseline. */
  readonly plan: string;
  /** From and to, px; null where the purse is never empty. */
  readonly empty: readonly [number, number] | null;
  readonly greatest: number;
}

export interface PurseRoom {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly top: number;
  readonly bottom: number;
}

/** @param asOf the as-of day. @param ceiling drawn over it all; 0: none */
export function purseShape(
  { months, empty }: Cash,
  asOf: string,
  ceiling: number,
  room: PurseRoom,
): PurseShape {
  const { width, height, left, top, bottom } = room;
  const greatest = Math.max(
    1,
    ceiling,
    ...months.flatMap((one) => [one.moneyIn, one.paid ?? 0, one.forecast ?? 0, one.plan ?? 0]),
  );
  const x = (index: number) => left + (index * (width - left)) / months.length;
  const y = (minor: number) => top + (1 - Math.max(0, minor) / greatest) * (height - top - bottom);
  const now = months.findLastIndex(({ paid }) => paid !== null);
  const today = x(now) + ((x(1) - x(0)) * Number(asOf.slice(8, 10))) / 31;
  const line = (points: readonly (readonly [number, number])[]) =>
    points.map(([px, py], i) => `${i === 0 ? 'M' : 'L'}${round(px)} ${round(py)}`).join('');
  const paidNow = months[now]?.paid ?? 0;
  const from = empty === null ? -1 : months.findIndex(({ month }) => month === empty.month);
  const to = empty?.level === null ? months.length : months.findIndex(({ month }) => month === empty?.level);
  return {
    x,
    y,
    today,
    now,
    greatest,
    moneyIn: `M${round(x(0))} ${round(y(0))}${months.map((one, i) => `V${round(y(one.moneyIn))}H${round(x(i + 1))}`).join('')}`,
    paid: line([
      [x(0), y(0)],
      ...months.slice(0, now).map(({ paid }, i) => [x(i + 1), y(paid!)] as const),
      [today, y(paidNow)],
    ]),
    forecast: line([
      [today, y(paidNow)],
      ...months.slice(now).map(({ forecast }, i) => [x(now + i + 1), y(forecast!)] as const),
    ]),
    plan: months.some(({ plan }) => plan !== null)
      ? line([[x(0), y(0)], ...months.map(({ plan }, i) => [x(i + 1), y(plan ?? 0)] as const)])
      : '',
    empty: from < 0 ? null : [x(from), x(to)],
  };
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
