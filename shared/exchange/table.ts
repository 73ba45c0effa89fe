/**
 * A table of the build: its columns by the names they have in files, and rows read and written by them. Column names stay
 * as they are, because people keep tables for years; other words for the same are understood beside them.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { AnyRecord, NounName } from '../contract/nouns.ts';
import { PlanError } from '../errors.ts';
import { CellFault, TEXT, type Cell, type Context } from './cells.ts';
import { MOST_BYTES, MOST_ROWS, readTableText, writeTableText, type RawRow } from './csv.ts';

export interface Column {
  readonly name: string;
  /** Other words for it in a header. */
  readonly also?: readonly string[];
  /** Where its value stands in a row's record: a JSON pointer. */
  readonly at: string;
  readonly cell: Cell;
  /** What a blank cell means; left out: null. */
  readonly blank?: unknown;
}

/** A column written for people and not read back: the name behind a key. */
export interface ShownColumn {
  readonly name: string;
  readonly show: (record: object, file: BuildFile) => string;
}

export interface Table {
  /** What it is called in addresses and file names. */
  readonly name: 'tasks' | 'links' | 'purchases' | 'hours';
  readonly columns: readonly Column[];
  readonly shown: readonly ShownColumn[];
  /** The rows of the build, in order. */
  readonly rowsOf: (file: BuildFile) => readonly object[];
  /** The record a row of these cells would change; null for a new one. */
  readonly found: (cells: Readonly<Record<string, string>>, file: BuildFile) => object | null;
  readonly contextOf: (cells: Readonly<Record<string, string>>, file: BuildFile) => Context;
  /** The records good rows make, each with the row that answers for a field of it. */
  readonly assemble: (rows: readonly ReadRow[], file: BuildFile) => Assembled;
  /** Rows that cannot be taken in without another, which says what holds for all of them. */
  readonly leaderOf?: (rows: readonly ReadRow[]) => ReadonlyMap<ReadRow, ReadRow>;
}

/** A record as it would be stored. */
export interface Draft {
  readonly noun: NounName;
  readonly id: string;
  readonly value: AnyRecord;
  /** The row a pointer within the record comes from, and the pointer within the row's own record. */
  readonly from: (pointer: string) => { readonly row: ReadRow; readonly at: string };
}

export interface Assembled {
  readonly drafts: readonly Draft[];
  readonly faults: readonly { readonly row: ReadRow; readonly fault: RowFault }[];
}

export interface RowFault {
  /** The column, or null for the row as a whole. */
  readonly column: string | null;
  /** Goes on from the name of the column: `is "x": it must be …`. */
  readonly detail: string;
}

export interface ReadRow {
  readonly row: number;
  /** As they stand in the text, by the name of the column. */
  readonly cells: Readonly<Record<string, string>>;
  /** The record of the build it speaks of; null for a new one. */
  readonly found: object | null;
  /** What was read, by pointer. A cell that says what the build says already is not among them. */
  readonly values: ReadonlyMap<string, unknown>;
  readonly faults: readonly RowFault[];
}

export interface ReadColumns {
  /** By the names they have here, in the order of the text. */
  readonly understood: readonly string[];
  /** As they stand in the text: left aside. */
  readonly unknown: readonly string[];
}

export interface ReadTable {
  readonly columns: ReadColumns;
  readonly rows: readonly ReadRow[];
}

/** @throws PlanError `too-large`, `bad-table` when there is no header to go by */
export function readTable(table: Table, text: string, file: BuildFile): ReadTable {
  checkSize(text.length);
  const [header, ...rows] = readTableText(text).rows;
  if (header === undefined) throw badTable('', 'is empty: its first row must name the columns');
  if (rows.length > MOST_ROWS)
    throw badTable(
      '',
      `has ${rows.length} rows: at most ${MOST_ROWS} are taken at once, take it in by parts`,
    );
  const places = placesOf(table, header, file.build.currency.toLowerCase());
  const known = places.filter((place) => typeof place !== 'string');
  if (known.every(({ isShown }) => isShown))
    throw badTable(
      '',
      `has no column that is known here: its first row must name some of ${table.columns.map(({ name }) => name).join(', ')}`,
    );
  return {
    columns: {
      understood: known.map(({ name }) => name),
      unknown: places.filter((place) => typeof place === 'string'),
    },
    rows: rows.map((row) => readRow(table, places, row, file)),
  };
}

/** @throws PlanError `too-large` */
export function checkSize(bytes: number): void {
  if (bytes <= MOST_BYTES) return;
  const most = MOST_BYTES / 1024 / 1024;
  throw new PlanError(
    `This table has ${(bytes / 1024 / 1024).toFixed(1)} MB: at most ${most} MB are taken at once, take it in by parts.`,
    { code: 'too-large', most: MOST_BYTES },
  );
}

export function badTable(pointer: string, detail: string): PlanError {
  return new PlanError(`The table ${detail}.`, { code: 'bad-table', errors: [{ pointer, detail }] });
}

/** A column that is understood, or the word that is not. */
type Place = { readonly name: string; readonly column: Column | null; readonly isShown: boolean } | string;

function placesOf(table: Table, header: RawRow, currency: string): Place[] {
  const byWord = new Map<string, Column>();
  for (const column of table.columns)
    for (const word of [column.name, ...(column.also ?? [])]) byWord.set(plainWord(word), column);
  const shown = new Set(table.shown.map(({ name }) => plainWord(name)));
  const seen = new Map<string, string>();
  return header.cells.map((text) => {
    const word = plainWord(text);
    const column =
      byWord.get(word) ??
      (word.endsWith(` ${currency}`) ? byWord.get(word.slice(0, -currency.length - 1)) : undefined);
    if (column === undefined) return shown.has(word) ? { name: word, column: null, isShown: true } : text;
    const before = seen.get(column.name);
    if (before !== undefined)
      throw badTable('', `names the column "${column.name}" twice (${before} and ${text}): leave one out`);
    seen.set(column.name, text);
    return { name: column.name, column, isShown: false };
  });
}

/** "Unit price (€)" and "unit_price" are the same word. */
function plainWord(text: string): string {
  return text
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}\p{Sc}]+/gu, ' ')
    .replace(/ \p{Sc}/u, '')
    .trim();
}

function readRow(table: Table, places: readonly Place[], raw: RawRow, file: BuildFile): ReadRow {
  const faults: RowFault[] = [];
  const cells: Record<string, string> = {};
  places.forEach((place, i) => {
    if (typeof place !== 'string' && place.column !== null) cells[place.name] = raw.cells[i] ?? '';
  });
  if (raw.broken)
    faults.push({ column: null, detail: 'has quote marks that do not pair up: double those within a cell' });
  if (raw.cells.slice(places.length).some((cell) => cell.trim() !== ''))
    faults.push({
      column: null,
      detail: `has ${raw.cells.length} cells, but the header has ${places.length}: a cell with a comma in it must stand in quotes`,
    });
  const context = table.contextOf(cells, file);
  const found = table.found(cells, file);
  const values = new Map<string, unknown>();
  for (const { name, at, cell, blank } of table.columns) {
    const text = cells[name];
    if (text === undefined || (found !== null && text === written(found, at, cell, context))) continue;
    const isBlank = cell === TEXT ? text === '' : text.trim() === '';
    const value = isBlank ? (blank ?? null) : cell.read(text, context);
    if (value instanceof CellFault) faults.push({ column: name, detail: value.detail });
    else values.set(at, value);
  }
  return { row: raw.row, cells, found, values, faults };
}

/** Every row of the build, ready for a spreadsheet and to be taken in again. */
export function writeTable(table: Table, file: BuildFile): string {
  const header = [...table.columns.map(({ name }) => name), ...table.shown.map(({ name }) => name)];
  const rows = table.rowsOf(file).map((record) => {
    const context = table.contextOf(currencyCell(record), file);
    return [
      ...table.columns.map(({ at, cell }) => written(record, at, cell, context)),
      ...table.shown.map(({ show }) => show(record, file)),
    ];
  });
  return writeTableText([header, ...rows]);
}

function currencyCell(record: object): Record<string, string> {
  const currency = valueAt(record, '/purchase/currency');
  return typeof currency === 'string' ? { currency } : {};
}

function written(record: object, at: string, cell: Cell, context: Context): string {
  const value = valueAt(record, at);
  return value === null || value === undefined ? '' : cell.write(value as never, context);
}

export function valueAt(record: object, at: string): unknown {
  return at
    .slice(1)
    .split('/')
    .reduce<unknown>((value, step) => (value as Record<string, unknown> | null)?.[step], record);
}

/** The record with a value put at a pointer; the record itself stays as it was. */
export function withValue<T extends object>(record: T, at: string, value: unknown): T {
  const [step = '', ...rest] = at.slice(1).split('/');
  const inner = (record as Record<string, unknown>)[step];
  const next = rest.length === 0 ? value : withValue((inner ?? {}) as object, `/${rest.join('/')}`, value);
  return { ...record, [step]: next };
}
