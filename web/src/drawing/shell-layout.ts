/**
 * The van unfolded, at size: where each zone's cell and each of its bands stands, in px. Columns and bays follow the
 * faces that are there; in a bay the same depth stands on the same row in every zone, and rows nobody uses are folded.
 */
import type { Depth, Zone } from '#shared/contract/shell.ts';
import type { Cell } from './net.ts';
import { columnsOf, EDGE, SCALE, type Column, type Columns } from './shell-columns.ts';

export interface Row {
  readonly depth: string;
  readonly y: number;
}

export interface Placed {
  readonly zone: Zone;
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
  readonly part: Cell['part'];
  readonly column: number;
  /** Folds on to the floor: shares the van's outline. */
  readonly attached: boolean;
  /** Its bands are not on the rows of the scale, so they carry their names. */
  readonly named: boolean;
  readonly rows: readonly Row[];
  /** From row to row. */
  readonly pitch: number;
}

export interface Scale {
  readonly y: number;
  readonly depth: string;
}

export interface ShellLayout {
  readonly width: number;
  readonly height: number;
  readonly cells: readonly Placed[];
  /** Names of the depths beside the bays. */
  readonly scale: readonly Scale[];
  /** Where a depth is folded away. */
  readonly folds: readonly number[];
  /** The bays' box; null when no zone lies in a bay. */
  readonly body: { readonly x: number; readonly y: number; readonly w: number; readonly h: number } | null;
  /** Tops of the bays after the first. */
  readonly bayLines: readonly number[];
  /** Left edges of the columns after the first. */
  readonly columnLines: readonly number[];
  readonly front: Placed | null;
  readonly rear: Placed | null;
  /** Where words about a wrong order may stand. */
  readonly callout: { readonly x: number; readonly y: number; readonly w: number; readonly h: number };
  /** Where a note in two lines may stand. */
  readonly note: { readonly x: number; readonly y: number; readonly w: number };
  /** The van's floor, for the dashed cab above it. */
  readonly nose: { readonly x: number; readonly y: number; readonly w: number } | null;
}

export interface LayoutSize {
  readonly width: number;
  /** To be filled if the rows can be had between their least and greatest pitch. */
  readonly height: number;
  /** Kept free on top, for the legend. */
  readonly title: number;
  /** Something is in the wrong order: room for the words. */
  readonly callouts: boolean;
}

/** A zone's first line. */
export const HEAD = 18;
/** Inside a cell, left and right of its bands. */
export const INSET = 7;
const LEAST = 11.2;
const GREATEST = 16;
const FOOT = 4;
const GAP = 8;
/** Boxes that do not fold on to the van stand clear of their neighbours. */
const APART = 5;
/** Room for the name of the sheet, and for the nose of the van. */
const NAME = 44;
const NOSE = 24;
/** Words about a wrong order need this much. */
const CALLOUT = 98;
/** Two lines of small lettering and a gap. */
const NOTE = 26;

export function shellLayout(zones: readonly Zone[], depths: readonly Depth[], size: LayoutSize): ShellLayout {
  const plan = columnsOf(zones, depths, size.width);
  let pitch = GREATEST;
  let layout = laid(plan, pitch, size);
  while (layout.height > size.height && pitch > LEAST) {
    pitch = Math.max(LEAST, pitch - 0.1);
    layout = laid(plan, pitch, size);
  }
  return layout;
}

function laid(
  { width, columns, bays, common }: Columns,
  pitch: number,
  { title, callouts }: LayoutSize,
): ShellLayout {
  const tall = (zone: Zone) => HEAD + FOOT + zone.depths.length * pitch;
  const floor = columns.find(({ column }) => column === 1);
  const hasBody = columns.some((column) => column.bays.size > 0 || column.whole.length > 0);
  const joins = hasBody && floor !== undefined && (floor.bays.size > 0 || floor.whole.length > 0);
  const stackTall = (list: readonly Zone[]) => list.reduce((sum, zone) => sum + tall(zone) + GAP, 0);
  /** Above a column's own zones stands the sheet's name, the van's nose or the legend. */
  const clear = ({ column, x }: Column) =>
    (x === SCALE ? NAME : column === 1 && joins ? 0 : title) + (column === 1 && joins ? NOSE : 0);
  const top = Math.max(
    title,
    ...columns.map(
      (column) =>
        clear(column) +
        stackTall(column.top) -
        (joins && column.column === 1 && column.top.length > 0 ? GAP : 0),
    ),
  );
  const cells: Placed[] = [];

  const bodyRows =
    bays.length === 0 ? 0 : bays.reduce((sum, { rows }) => sum + HEAD + FOOT - 1 + rows.length * pitch, 0);
  const bodyTall = !hasBody ? 0 : Math.max(bodyRows, ...columns.flatMap(({ whole }) => whole.map(tall)));
  const end = top + bodyTall;
  let front: Placed | null = null;
  let rear: Placed | null = null;
  let nose: ShellLayout['nose'] = null;
  for (const { column, x, w, top: above, bottom: below, whole, bays: own } of columns) {
    let y = top;
    above.forEach((zone, i) => {
      const attached = joins && column === 1 && i === 0;
      y -= tall(zone) + (attached ? 0 : GAP);
      const cell = placed(
        zone,
        x + (attached ? 0 : APART),
        y,
        w - (attached ? 0 : 2 * APART),
        tall(zone),
        'top',
        column,
        attached,
        pitch,
      );
      if (attached) front = cell;
      cells.push(cell);
    });
    if (column === 1 && joins) nose = { x, y, w };
    const share = w / (whole.length + Math.max(0, ...[...own.values()].map((list) => list.length)) || 1);
    const narrowed = w - whole.length * share;
    whole.forEach((zone, i) => {
      const own = Math.min(26, (bodyTall - HEAD - FOOT) / Math.max(1, zone.depths.length));
      cells.push(placed(zone, x + narrowed + i * share, top, share, bodyTall, 'bays', column, false, own));
    });
    let bayY = top;
    for (const { bay, rows } of bays) {
      const h = HEAD + FOOT - 1 + rows.length * pitch;
      const here = own.get(bay) ?? [];
      here.forEach((zone, i) => {
        const cell = placed(
          zone,
          x + (i * narrowed) / here.length,
          bayY,
          narrowed / here.length,
          h,
          'bays',
          column,
          false,
          pitch,
        );
        cells.push(aligned(cell, rows));
      });
      bayY += h;
    }
    y = end;
    below.forEach((zone, i) => {
      const attached = joins && column === 1 && i === 0;
      y += attached ? 0 : GAP;
      const cell = placed(
        zone,
        x + (attached ? 0 : APART),
        y,
        w - (attached ? 0 : 2 * APART),
        tall(zone),
        'bottom',
        column,
        attached,
        pitch,
      );
      if (attached) rear = cell;
      cells.push(cell);
      y += tall(zone);
    });
  }

  const scale: Scale[] = [];
  const folds: number[] = [];
  const bayLines: number[] = [];
  let bayY = top;
  for (const { rows } of bays) {
    if (bayY > top) bayLines.push(bayY);
    rows.forEach((depth, i) => scale.push({ depth, y: rowY(bayY, rows.length, i, pitch) + pitch / 2 }));
    let behind = 0;
    let skipped = false;
    for (const depth of common) {
      if (!rows.includes(depth)) skipped = true;
      else {
        if (skipped && behind > 0) folds.push(rowY(bayY, rows.length, behind - 1, pitch));
        skipped = false;
        behind++;
      }
    }
    bayY += HEAD + FOOT - 1 + rows.length * pitch;
  }

  const first = columns[0];
  const last = columns.at(-1);
  const body =
    hasBody && first !== undefined && last !== undefined
      ? { x: first.x, y: top, w: last.x + last.w - first.x, h: bodyTall }
      : null;
  const lowest = Math.max(end, ...columns.map(({ bottom }) => end + stackTall(bottom)));
  const free = columns.find(({ column, bottom }) => column === 2 && bottom.length === 0);
  const callout =
    free === undefined
      ? { x: SCALE, y: lowest + GAP, w: Math.max(300, width - SCALE - EDGE), h: callouts ? 50 : 0 }
      : {
          x: free.x + 8,
          y: end + GAP,
          w: free.w - 14,
          h: Math.max(callouts ? CALLOUT : 0, lowest - end - GAP),
        };
  const low = Math.max(lowest, callout.y + callout.h);
  const spare = columns.findLast(
    ({ column, bottom }) => column !== 2 && low - end - stackTall(bottom) >= NOTE,
  );
  const note =
    spare === undefined
      ? { x: SCALE, y: low + 4, w: width - SCALE - EDGE }
      : { x: spare.x + APART, y: low - NOTE + 4, w: spare.w - 2 * APART };
  return {
    width,
    height: (spare === undefined ? low + NOTE : low) + 4,
    cells,
    scale,
    folds,
    body,
    bayLines,
    columnLines: columns.slice(1).map(({ x }) => x),
    front,
    rear,
    callout,
    note,
    nose,
  };
}

function placed(
  zone: Zone,
  x: number,
  y: number,
  w: number,
  h: number,
  part: Cell['part'],
  column: number,
  attached: boolean,
  pitch: number,
): Placed {
  const foot = y + h - FOOT + 1;
  const rows = zone.depths.map((depth, i) => ({ depth, y: foot - (i + 1) * pitch }));
  return { zone, x, y, w, h, part, column, attached, named: true, rows, pitch };
}

/** On the rows of its bay; a zone whose own order runs against them keeps its own and names its bands. */
function aligned(cell: Placed, rows: readonly string[]): Placed {
  const at = cell.zone.depths.map((depth) => rows.indexOf(depth));
  if (at.some((row, i) => i > 0 && row < at[i - 1]!)) return cell;
  return {
    ...cell,
    named: false,
    rows: cell.zone.depths.map((depth, i) => ({ depth, y: rowY(cell.y, rows.length, at[i]!, cell.pitch) })),
  };
}

function rowY(top: number, rows: number, row: number, pitch: number): number {
  return top + HEAD + (rows - 1 - row) * pitch + 1;
}
