/**
 * The unfolded van as a grid of cells for choosing: eight columns, two to a face, so that a zone that takes the whole
 * face can stand beside zones in its bays. Rows from the front: what lies above the bays, the bays, what lies below.
 */
import type { Zone } from '#shared/contract/shell.ts';
import { netOf, type Cell } from './net.ts';

export interface GridCell {
  readonly id: string;
  /** From 1, as in CSS. */
  readonly column: number;
  readonly columns: number;
  readonly row: number;
  readonly rows: number;
  /** Those that share the spot. */
  readonly zones: readonly Zone[];
}

export function gridOf(zones: readonly Zone[]): GridCell[] {
  const { bays, cells } = netOf(zones);
  const mixed = new Set(
    [0, 1, 2, 3].filter((column) => {
      const inFace = cells.filter((cell) => cell.part === 'bays' && cell.column === column);
      return inFace.some(({ whole }) => whole) && inFace.some(({ whole }) => !whole);
    }),
  );
  const groups = new Map<string, Cell[]>();
  for (const cell of cells) {
    const id = `${cell.part} ${cell.column} ${cell.whole ? 'whole' : cell.bay}`;
    groups.set(id, [...(groups.get(id) ?? []), cell]);
  }
  const grid = [...groups].map(([id, group]): GridCell => {
    const [{ part, column, bay, whole }] = group as [Cell, ...Cell[]];
    const half = part === 'bays' && mixed.has(column);
    return {
      id,
      column: column * 2 + 1 + (half && whole ? 1 : 0),
      columns: half ? 1 : 2,
      row: part === 'top' ? 1 : part === 'bottom' ? bays + 2 : 2 + (bay ?? 0),
      rows: whole ? bays : 1,
      zones: group.map(({ zone }) => zone),
    };
  });
  return grid.sort((a, b) => a.row - b.row || a.column - b.column);
}
