/** The columns of the unfolded van and the rows of its bays: which faces are there, how wide, which depths they share. */
import type { Depth, Zone } from '#shared/contract/shell.ts';
import { netOf } from './net.ts';

/** Left of the bays: the scale. */
export const SCALE = 88;
/** Right of them. */
export const EDGE = 14;
const NARROWEST = 150;

export interface Column {
  readonly column: number;
  readonly x: number;
  readonly w: number;
  readonly top: readonly Zone[];
  readonly bottom: readonly Zone[];
  readonly whole: readonly Zone[];
  /** By bay, from 0. */
  readonly bays: ReadonlyMap<number, readonly Zone[]>;
}

export interface Columns {
  readonly width: number;
  readonly columns: readonly Column[];
  /** The depths of each bay's rows from the metal outwards; bays without zones are left out. */
  readonly bays: readonly BayRows[];
  /** The depths any bay uses, in that order. */
  readonly common: readonly string[];
}

export interface BayRows {
  readonly bay: number;
  readonly rows: readonly string[];
}

/** @param width of the whole drawing; wider where columns would become too narrow */
export function columnsOf(zones: readonly Zone[], depths: readonly Depth[], width: number): Columns {
  const { bays, cells } = netOf(zones);
  const groups = [0, 1, 2, 3]
    .map((column) => {
      const mine = cells.filter((cell) => cell.column === column);
      const inBays = new Map<number, Zone[]>();
      for (const { zone, bay } of mine) if (bay !== null) inBays.set(bay, [...(inBays.get(bay) ?? []), zone]);
      const whole = mine.filter((cell) => cell.whole).map(({ zone }) => zone);
      return {
        column,
        top: mine.filter(({ part }) => part === 'top').map(({ zone }) => zone),
        bottom: mine.filter(({ part }) => part === 'bottom').map(({ zone }) => zone),
        whole,
        bays: inBays,
        share: Math.max(1, whole.length + Math.max(0, ...[...inBays.values()].map((list) => list.length))),
        used: mine.length > 0,
      };
    })
    .filter(({ used }) => used);
  const shares = groups.reduce((sum, { share }) => sum + share, 0);
  const room = Math.max(width - SCALE - EDGE, shares * NARROWEST);
  let x = SCALE;
  const columns = groups.map((group): Column => {
    // One lone face would be as wide as the sheet: no wider than half of it.
    const w = Math.min((room * group.share) / Math.max(shares, 1), room / 2);
    const column = { ...group, x, w };
    x += w;
    return column;
  });
  const inBays = cells.filter(({ part, whole }) => part === 'bays' && !whole).map(({ zone }) => zone);
  const common = mergedDepths(inBays, depths);
  const rows = Array.from({ length: bays }, (_, bay) => bay).flatMap((bay): BayRows[] => {
    const here = inBays.filter((zone) => zone.bay === bay + 1);
    const used = new Set(here.flatMap((zone) => zone.depths));
    return here.length === 0 ? [] : [{ bay, rows: common.filter((depth) => used.has(depth)) }];
  });
  return { width: room + SCALE + EDGE, columns, bays: rows, common };
}

/**
 * One order of depths that keeps every zone's own order where they agree; where two disagree, the order of the build's
 * list of depths decides.
 */
export function mergedDepths(zones: readonly Zone[], depths: readonly Pick<Depth, 'key'>[]): string[] {
  const rank = new Map(depths.map(({ key }, i) => [key, i]));
  const after = new Map<string, Set<string>>();
  for (const { depths: own } of zones)
    own.forEach((depth, i) => {
      const behind = after.get(depth) ?? new Set();
      if (i > 0) behind.add(own[i - 1]!);
      after.set(depth, behind);
    });
  const out: string[] = [];
  const left = new Set([...after.keys()].sort((a, b) => (rank.get(a) ?? 0) - (rank.get(b) ?? 0)));
  while (left.size > 0) {
    const free = [...left].find((depth) => [...after.get(depth)!].every((behind) => !left.has(behind)));
    const next = free ?? [...left][0]!;
    left.delete(next);
    out.push(next);
  }
  return out;
}
