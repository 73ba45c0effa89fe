/**
 * The van unfolded: where each zone lies in the flat net. Columns from left to right: left wall, floor, right wall,
 * ceiling, each with its bays from the front down; the cab and the bulkhead above the floor, the rear doors below it,
 * and what is outside around them. It follows the zones' faces and bays, so it fits any van.
 */
import type { Face, Zone } from '#shared/contract/shell.ts';

export interface Cell {
  readonly zone: Zone;
  /** 0 left wall, 1 floor, 2 right wall, 3 ceiling. */
  readonly column: number;
  /** Bay, from 0 at the front; null above and below the bays. */
  readonly bay: number | null;
  readonly part: 'top' | 'bays' | 'bottom';
  /** Takes all bays of its face. */
  readonly whole: boolean;
}

export interface Net {
  readonly bays: number;
  readonly cells: readonly Cell[];
}

const COLUMN: Record<Face, number> = {
  left: 0,
  floor: 1,
  right: 2,
  ceiling: 3,
  front: 1,
  rear: 1,
  underbody: 0,
  roof: 3,
  'outside-left': 0,
  'outside-right': 2,
  cab: 3,
  elsewhere: 2,
};

const PART: Record<Face, Cell['part']> = {
  left: 'bays',
  floor: 'bays',
  right: 'bays',
  ceiling: 'bays',
  front: 'top',
  'outside-left': 'top',
  'outside-right': 'top',
  cab: 'top',
  rear: 'bottom',
  underbody: 'bottom',
  roof: 'bottom',
  elsewhere: 'bottom',
};

export function netOf(zones: readonly Zone[]): Net {
  const bays = Math.max(1, ...zones.map(({ face, bay }) => (PART[face] === 'bays' ? (bay ?? 1) : 1)));
  const cells = zones.map((zone): Cell => {
    const part = PART[zone.face];
    const inBays = part === 'bays';
    return {
      zone,
      column: COLUMN[zone.face],
      bay: inBays && zone.bay !== null ? zone.bay - 1 : null,
      part,
      whole: inBays && zone.bay === null,
    };
  });
  return { bays, cells };
}

export interface Spot {
  readonly key: string;
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** The mini net, in a box of 32 × (9 + 6 × bays): one rectangle a zone. Zones that share a spot stand side by side. */
export function miniNet(zones: readonly Zone[]): {
  readonly spots: readonly Spot[];
  readonly height: number;
} {
  const { bays, cells } = netOf(zones);
  const height = 9 + bays * 6;
  const groups = new Map<string, Cell[]>();
  for (const cell of cells) {
    const name = `${cell.part}/${cell.column}/${cell.whole ? 'all' : cell.bay}`;
    groups.set(name, [...(groups.get(name) ?? []), cell]);
  }
  const spots = [...groups.values()].flatMap((group) => {
    const [{ column, part, bay, whole }] = group as [Cell];
    const x = column * 8 + 0.5;
    const y = part === 'top' ? 0.5 : part === 'bottom' ? 5 + bays * 6 : 5 + (whole ? 0 : (bay ?? 0) * 6);
    const h = part === 'bays' ? (whole ? bays * 6 : 6) : part === 'top' ? 4.5 : 3.5;
    const w = (column === 3 ? 7 : 8) / group.length;
    return group.map(({ zone }, i): Spot => ({ key: zone.key, x: x + i * w, y, w, h }));
  });
  return { spots, height };
}
