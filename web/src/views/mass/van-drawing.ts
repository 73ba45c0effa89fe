/**
 * Where things stand in the drawing of the van: seen from its left side and from above, front to the left. Only the
 * wheelbase and the track are known, so the outline is a sketch around them and around what it holds.
 */
import type { MassItem } from '#shared/mass/items.ts';

export type When = 'now' | 'planned';

export interface Frame {
  /** Millimetres: x from the front axle, y to the left, z up from the floor. */
  readonly front: number;
  readonly rear: number;
  /** Behind it the build begins; before it the cab. */
  readonly cab: number;
  readonly half: number;
  readonly roof: number;
  readonly wheelbase: number;
  readonly track: number;
}

const OVERHANG_FRONT = 950;
const OVERHANG_REAR = 1100;
const WHEEL = 340;
/** Of the wheelbase: where the cab ends. */
const CAB = 0.27;
const USUAL = { wheelbase: 3600, track: 1700, roof: 1900 };

/** The box around the van and all that has a place in it. */
export function frameOf(
  items: readonly Pick<MassItem, 'x' | 'y' | 'z'>[],
  wheelbase: number | null,
  track: number | null,
): Frame {
  const base = wheelbase ?? USUAL.wheelbase;
  const wide = track ?? USUAL.track;
  const most = (values: (number | null)[], least: number) =>
    values.reduce<number>((max, value) => Math.max(max, value ?? least), least);
  return {
    front: -most(
      items.map(({ x }) => (x === null ? null : -x)),
      OVERHANG_FRONT,
    ),
    rear: most(
      items.map(({ x }) => x),
      base + OVERHANG_REAR,
    ),
    cab: base * CAB,
    half: most(
      items.map(({ y }) => (y === null ? null : Math.abs(y))),
      wide / 2 + 120,
    ),
    roof: most(
      items.map(({ z }) => z),
      USUAL.roof,
    ),
    wheelbase: base,
    track: wide,
  };
}

export interface Spot {
  readonly key: string;
  readonly name: string;
  readonly mass: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** Radius, px: its area is its mass. */
  readonly r: number;
  /** In the van already, still to come, or taken out of it. */
  readonly is: 'in' | 'to-come' | 'taken-out' | 'aboard';
  /** Its number among the heaviest; null: not one of them. */
  readonly number: number | null;
}

const NUMBERED = 9;
const WITHOUT_Z = 500;

/** Heaviest first, so that small ones lie on top of large ones. @param biggest radius of the heaviest, px */
export function spotsOf(items: readonly MassItem[], when: When, wheelbase: number, biggest = 20): Spot[] {
  const massOf = (item: MassItem) => item[when];
  const there = items
    .filter((item) => massOf(item) !== 0)
    .toSorted(
      (a, b) => Math.abs(massOf(b)) - Math.abs(massOf(a)) || (a.key < b.key ? -1 : a.key > b.key ? 1 : 0),
    );
  const heaviest = there[0] === undefined ? 1 : Math.abs(massOf(there[0]));
  return there.map((item, i) => ({
    key: item.key,
    name: item.name,
    mass: massOf(item),
    x: item.x ?? wheelbase / 2,
    y: item.y ?? 0,
    z: item.z ?? WITHOUT_Z,
    r: Math.max(1.6, biggest * Math.sqrt(Math.abs(massOf(item)) / heaviest)),
    is:
      item.kind === 'taken-out'
        ? 'taken-out'
        : item.kind === 'aboard'
          ? 'aboard'
          : item.now > 0
            ? 'in'
            : 'to-come',
    number: i < NUMBERED ? i + 1 : null,
  }));
}

/** The centre of gravity behind the front axle and left of the middle, mm; null where the loads are not known. */
export function centreOf(
  {
    gross,
    rear,
    leftSide,
    rightSide,
  }: {
    readonly gross: number | null;
    readonly rear: number | null;
    readonly leftSide: number | null;
    readonly rightSide: number | null;
  },
  { wheelbase, track }: Frame,
): { readonly x: number; readonly y: number } | null {
  if (gross === null || rear === null || gross <= 0) return null;
  const y = leftSide === null || rightSide === null ? 0 : ((leftSide - rightSide) / 2 / gross) * track;
  return { x: (rear / gross) * wheelbase, y };
}

export const WHEEL_RADIUS = WHEEL;
