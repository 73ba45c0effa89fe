/** What the tables are called on the sheet, and what a table that is taken in may say. */
import type { TableName } from '#shared/exchange/intake.ts';

export interface TableWords {
  readonly name: string;
  /** What a row of it is. */
  readonly row: string;
  /** What stays as it is, whatever the table says. */
  readonly kept: string;
}

export const TABLE_WORDS: Readonly<Record<TableName, TableWords>> = {
  tasks: { name: 'Tasks', row: 'one task a row', kept: 'Checks, steps and signatures stay as they are.' },
  links: { name: 'Links', row: 'one stated order between two tasks a row', kept: '' },
  purchases: {
    name: 'Purchases',
    row: 'one line of a purchase a row',
    kept: 'Quotes, deliveries, payments and receipts stay as they are.',
  },
  hours: { name: 'Hours', row: 'one entry a row', kept: '' },
};

/** @throws Error with a sentence for who chose the file */
export function textIn(bytes: ArrayBuffer): string {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new Error('The file is not written in UTF-8: save it as CSV in UTF-8.');
  }
}
