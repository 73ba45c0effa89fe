// Its published types bring all of Node with them, so it is declared beside, and every side that reads this has to find it.
// oxlint-disable-next-line typescript/triple-slash-reference
/// <reference path="./papaparse.d.ts" />
/**
 * Tables as text (RFC 4180) in and out, and the guard against cells that a spreadsheet would run as formulas: such a cell
 * is written with an apostrophe before it, which is taken off again when it is read, so that nothing changes on the way.
 */
import Papa from 'papaparse';

/** What a table may be at most: a change is stored as one action, and an action has its limits. */
export const MOST_BYTES = 8 * 1024 * 1024;
export const MOST_ROWS = 20_000;

export interface RawRow {
  /** Counted as a spreadsheet does: the header is row 1. */
  readonly row: number;
  readonly cells: readonly string[];
  /** Its quote marks do not pair up: the cells are a guess. */
  readonly broken: boolean;
}

export interface RawTable {
  readonly delimiter: ',' | ';' | '\t';
  /** Rows with something in them, the header first. */
  readonly rows: readonly RawRow[];
}

/** A tab first: where a pasted table has one, commas and semicolons are part of its words. */
const DELIMITERS = ['\t', ';', ','] as const;
const TRUE_NEWLINE = /\r\n|\n|\r/;

/** Any text gives a table. A byte order mark is taken off. Linear in the length of the text. */
export function readTableText(text: string): RawTable {
  const plain = text.replace(/^\uFEFF/, '');
  const newline = (TRUE_NEWLINE.exec(plain)?.[0] ?? '\r\n') as '\r\n' | '\n' | '\r';
  const delimiter = delimiterOf(plain, newline);
  const { data, errors } = Papa.parse(plain, { delimiter, newline });
  const broken = new Set(errors.map(({ row }) => row));
  const rows = data
    .map((cells, i): RawRow => ({ row: i + 1, cells: cells.map(unguarded), broken: broken.has(i) }))
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  return { delimiter, rows };
}

/** The one that parts the first row with something in it into most cells. */
function delimiterOf(text: string, newline: '\r\n' | '\n' | '\r'): RawTable['delimiter'] {
  const start = text.trimStart();
  const counts = DELIMITERS.map((delimiter) => ({
    delimiter,
    cells: Papa.parse(start, { delimiter, newline, preview: 1 }).data[0]?.length ?? 0,
  }));
  return counts.reduce((best, one) => (one.cells > best.cells ? one : best)).delimiter;
}

/** With a byte order mark, by which spreadsheets know that it is UTF-8. */
export function writeTableText(rows: readonly (readonly string[])[]): string {
  const guardedRows = rows.map((row) => row.map(guarded));
  return `\uFEFF${Papa.unparse(guardedRows, { delimiter: ',', newline: '\r\n' })}\r\n`;
}

/** What a spreadsheet takes for a formula, with any apostrophes before it, so that the guard can always be undone. */
const FORMULA = /^'*[=+\-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20]/;
/** A number is none, though it begins like one. */
const NUMBER = /^[+-]?\d+(?:[.,]\d+)?$/;

function wouldRun(cell: string): boolean {
  return FORMULA.test(cell) && !NUMBER.test(cell);
}

export function guarded(cell: string): string {
  return wouldRun(cell) ? `'${cell}` : cell;
}

export function unguarded(cell: string): string {
  return cell.startsWith("'") && wouldRun(cell.slice(1)) ? cell.slice(1) : cell;
}
