/**
 * The time axis in two scales: by the day up to a break, by the month after it. Closer in, the far scale grows faster
 * than the near one until both are one and the break is gone; further out the near one shrinks until the whole build
 * fits. Days are counted from 1970-01-01 and may have fractions; x is px from the break.
 */
export interface AxisRange {
  /** The build's first day: nothing lies before it. */
  readonly first: number;
  /** The left edge as the sheet opens. */
  readonly from: number;
  /** Where the scale changes. */
  readonly turn: number;
  /** The right edge. */
  readonly to: number;
}

export interface Axis {
  readonly range: AxisRange;
  readonly zoom: number;
  /** Px a day before the break and after it. */
  readonly near: number;
  readonly far: number;
  /** Px left free at the break; 0 where the scales are one. */
  readonly gap: number;
  x(day: number): number;
  /** The inverse; within the gap it is the day of the break. */
  day(x: number): number;
  /** Px a day at that day. */
  scale(day: number): number;
}

export const GAP = 18;
const NEAR_SHARE = 0.525;
const WIDEST_DAY = 36;
/** Where the whole plan is short, days are not drawn wider than this. */
const WIDEST_FIT = 24;

interface Base {
  readonly near: number;
  readonly far: number;
}

/** The scales at zoom 1: all that lies ahead fits the width. */
function baseOf({ from, turn, to }: AxisRange, width: number): Base {
  const even = Math.min(WIDEST_FIT, width / Math.max(1, to - from));
  if (to <= turn) return { near: even, far: even };
  const near = ((width - GAP) * NEAR_SHARE) / (turn - from);
  const far = ((width - GAP) * (1 - NEAR_SHARE)) / (to - turn);
  return far > near * 0.75 ? { near: even, far: even } : { near, far };
}

/** The zooms between which the axis can be drawn: the whole build, and a day as wide as a word. */
export function zoomLimits(
  range: AxisRange,
  width: number,
): { readonly least: number; readonly most: number } {
  const { near, far } = baseOf(range, width);
  const { first, turn, to } = range;
  const all = Math.max(1, to - first);
  let least = width / all / near;
  if (near > far && far * all + GAP < width)
    least = (width - GAP - far * (to - turn)) / Math.max(1, turn - first) / near;
  return { least: Math.min(1, least), most: Math.max(1, WIDEST_DAY / near) };
}

export function axisOf(range: AxisRange, width: number, wanted: number): Axis {
  const base = baseOf(range, width);
  const { least, most } = zoomLimits(range, width);
  const zoom = Math.min(most, Math.max(least, wanted));
  const near =
    zoom >= 1 ? base.near * zoom : Math.max(Math.min(base.far, base.near * zoom), base.near * zoom);
  const far = Math.min(near, zoom >= 1 ? base.far * zoom * zoom : base.far);
  const gap = far < near ? GAP : 0;
  const { turn } = range;
  return {
    range,
    zoom,
    near,
    far,
    gap,
    x: (day) => (day < turn ? (day - turn) * near : gap + (day - turn) * far),
    day: (x) => (x < 0 ? turn + x / near : x <= gap ? turn : turn + (x - gap) / far),
    scale: (day) => (day < turn ? near : far),
  };
}

/** The left edges between which the paper can be moved. @param view width seen, px */
export function panLimits(axis: Axis, view: number): { readonly least: number; readonly most: number } {
  const { first, from, to } = axis.range;
  const least = Math.min(axis.x(first), axis.x(from));
  return { least, most: Math.max(least, axis.x(to) - view) };
}
