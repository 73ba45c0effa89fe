/** A table of parts as it is pasted (from a spreadsheet, an order, a list), read into purchases before anything is stored. */
import type { BuildFile } from '../contract/build-file.ts';
import type { Purchase } from '../contract/purchase.ts';
import { takeIn, type IntakeRow } from './intake.ts';
import type { ReadColumns } from './table.ts';

export interface PurchaseTable {
  readonly columns: ReadColumns;
  /** Each row as it stands, what it would do, and what is wrong with it. */
  readonly rows: readonly IntakeRow[];
  /** The purchases of the good rows as they would be stored: new ones and changed ones, whole. */
  readonly purchases: readonly Purchase[];
  /** Why nothing at all can be taken in; empty when it can. */
  readonly faults: readonly string[];
}

/** @throws PlanError `too-large`, `bad-table` when there is no header to go by */
export function readPurchaseTable(text: string, file: BuildFile): PurchaseTable {
  const { columns, rows, edits, faults } = takeIn('purchases', text, file);
  return { columns, rows, faults, purchases: edits.map(({ value }) => value as unknown as Purchase) };
}
