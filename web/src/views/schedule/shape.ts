/** A bar set into px: the paths and places of its marks in one row, worked out without a document. */
import type { Axis } from './axis.ts';
import type { Bar } from './bars.ts';

export interface Shape {
  /** From the first mark to the last, words apart. */
  readonly x1: number;
  readonly x2: number;
  /** The thin line through days apart from each other; '' where there is none. */
  readonly span: string;
  readonly planned: string;
  readonly worked: string;
  readonly wait: string;
  /** Left edge of the heavy bar; null where nothing is closed. */
  readonly shut: number | null;
  /** The middle of the carton's foot. */
  readonly carton: number | null;
  /** Slack from and to, in days, and whether it is drawn shorter than it is. */
  readonly slack: {
    readonly x1: number;
    readonly x2: number;
    readonly days: number;
    readonly cut: boolean;
  } | null;
  /** Right end of what stands left of the bar, left end of what stands right of it. */
  readonly before: number;
  readonly after: number;
}

const HIGH = 8;
/** Below so many px a day single days are not told apart. */
const SITTINGS_FROM = 2.2;
const SHORTEST = 3;
/** Slack is drawn to scale up to so many px; longer it is cut to the second. */
const LONGEST_SLACK = 140;
const CUT_SLACK = 44;
export const CARTON = 10.5;

const n = (value: number) => Math.round(value * 100) / 100;

export function shapeOf(bar: Bar, axis: Axis, middle: number): Shape {
  const top = middle - HIGH / 2;
  const box = (from: number, to: number) => `M${n(from)} ${top}H${n(to)}V${top + HIGH}H${n(from)}Z`;
  const first = Math.min(bar.start, bar.worked[0] ?? bar.start);
  const x1 = axis.x(bar.start);
  const x0 = axis.x(first);
  const x2 = Math.max(axis.x(bar.end), x1 + SHORTEST);

  const planned = marks(bar, axis, box);
  let worked = '';
  for (const day of bar.worked) {
    const scale = axis.scale(day);
    const x = axis.x(day);
    worked += box(x + 0.4, x + Math.max(SHORTEST - 0.6, scale - 0.4));
  }
  if (bar.worked.length === 0 && bar.state === 'finished')
    worked = box(x0 + 0.4, Math.max(x0 + SHORTEST, x2 - 0.4));
  const several = bar.days.length + bar.worked.length > 1;

  let end = x2;
  let wait = '';
  if (bar.waitTo !== null) {
    end = Math.max(axis.x(bar.waitTo), x2 + 4);
    wait = `M${n(x2 + 3)} ${middle}H${n(end)}`;
  }
  const shut = bar.closes === '' ? null : x1 - 2;
  const carton =
    bar.parts === null
      ? null
      : Math.min(axis.x(bar.parts) + axis.scale(bar.parts) / 2, x1 - (shut === null ? 1 : 5) - 6.5);
  let slack: Shape['slack'] = null;
  let after = end;
  if (bar.slack !== null && !bar.chain) {
    const to = axis.x(Math.ceil(bar.waitTo ?? bar.end) + bar.slack);
    // What reaches beyond the break, or far, is cut: its figure says how long it is.
    const cut = to - end > LONGEST_SLACK || (axis.gap > 0 && end < 0 && to > 0);
    const x2 = cut ? end + CUT_SLACK : to;
    slack = { x1: end + 2, x2, days: bar.slack, cut };
    after = Math.max(x2, end + 8) + 24;
  }
  return {
    x1: Math.min(x0, carton === null ? x0 : carton - CARTON / 2),
    x2: after,
    span: several && x2 - x0 > SHORTEST ? `M${n(x0)} ${middle}H${n(x2)}` : '',
    planned,
    worked,
    wait,
    shut,
    carton,
    slack,
    before: Math.min(x0, shut === null ? x0 : shut) - 4,
    after: after + 5,
  };
}

/** One mark a sitting where days are wide enough, a plain bar where they are not. */
function marks(bar: Bar, axis: Axis, box: (from: number, to: number) => string): string {
  let out = '';
  let plainFrom: number | null = null;
  let plainTo = 0;
  for (const day of bar.days) {
    const scale = axis.scale(day);
    if (scale < SITTINGS_FROM) {
      plainFrom ??= day;
      plainTo = day + 1;
      continue;
    }
    const x = axis.x(day);
    out += box(x + 0.4, x + scale - 0.4);
  }
  if (plainFrom !== null) {
    const x = axis.x(plainFrom);
    out += box(x + 0.5, Math.max(x + SHORTEST, axis.x(plainTo) - 0.5));
  }
  if (bar.days.length === 0 && bar.state !== 'finished') {
    const x = axis.x(bar.start);
    out += box(x + 0.5, Math.max(x + SHORTEST, axis.x(bar.end) - 0.5));
  }
  return out;
}
