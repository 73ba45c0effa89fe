/** Rows of the nouns: one small set of statements for all of them, driven by the table of each. Wire shapes in and out. */
import { and, asc, eq, getTableColumns, sql } from 'drizzle-orm';
import type { AnyRecord, NounName } from '#shared/contract/nouns.ts';
import type { Handle } from './database.ts';
import { NOUN_TABLES } from './schema.ts';

export interface StoredRow {
  readonly id: string;
  readonly version: number;
  /** Rows of a list stand in this order; between two there is always room for a third. */
  readonly position: number;
  readonly value: AnyRecord;
}

type Columns = Pick<StoredRow, 'id' | 'version' | 'position'> & { readonly build: string };

/** The tables differ only in their fields, which travel as records; the statements need what all of them have. */
function tableOf(noun: NounName): (typeof NOUN_TABLES)['people'] {
  return NOUN_TABLES[noun] as unknown as (typeof NOUN_TABLES)['people'];
}

function asStored(row: Columns & Record<string, unknown>): StoredRow {
  const { build: _, id, version, position, ...value } = row;
  return { id, version, position, value: value as unknown as AnyRecord };
}

/** In the order of the list. */
export function listRows(db: Handle, build: string, noun: NounName): StoredRow[] {
  const table = tableOf(noun);
  const rows = db
    .select()
    .from(table)
    .where(eq(table.build, build))
    .orderBy(asc(table.position), asc(table.id))
    .all();
  return rows.map((row) => asStored(row as never));
}

export function getRow(db: Handle, build: string, noun: NounName, id: string): StoredRow | null {
  const row = once(db, `row of ${noun}`, () => {
    const table = tableOf(noun);
    return db
      .select()
      .from(table)
      .where(and(eq(table.build, sql.placeholder('build')), eq(table.id, sql.placeholder('id'))))
      .prepare();
  }).get({ build, id });
  return row === undefined ? null : asStored(row as never);
}

const prepared = new WeakMap<object, Map<string, unknown>>();

/** A statement made once a transaction: what is asked for every row of a change is dear to build and cheap to run. */
export function once<T>(db: Handle, name: string, make: () => T): T {
  let statements = prepared.get(db);
  if (statements === undefined) prepared.set(db, (statements = new Map()));
  if (!statements.has(name)) statements.set(name, make());
  return statements.get(name) as T;
}

/** The ids of a list in its order. */
export function listIds(db: Handle, build: string, noun: NounName): string[] {
  return listPositions(db, build, noun).map(({ id }) => id);
}

/** @param rows in any number: a few dozen go in with one statement */
export function insertRows(db: Handle, build: string, noun: NounName, rows: readonly StoredRow[]): void {
  for (let from = 0; from < rows.length; from += AT_ONCE) {
    const values = rows
      .slice(from, from + AT_ONCE)
      .map(({ id, value, position, version }) => ({ ...(value as object), build, id, version, position }));
    db.insert(tableOf(noun))
      .values(values as never)
      .run();
  }
}

/** Rows of one statement: more make it no quicker, and SQLite takes 32 766 parameters at most. */
const AT_ONCE = 50;

/** Every column is set: a record is replaced whole, never patched in place. */
export function updateRow(
  db: Handle,
  build: string,
  noun: NounName,
  { id, value, position, version }: StoredRow,
): void {
  const table = tableOf(noun);
  const fields = Object.keys(getTableColumns(table)).filter((name) => !FIXED.has(name));
  const set = Object.fromEntries(
    fields.map((name) => [name, (value as Record<string, unknown>)[name] ?? null]),
  );
  db.update(table)
    .set({ ...set, version, position } as never)
    .where(and(eq(table.build, build), eq(table.id, id)))
    .run();
}

const FIXED = new Set(['build', 'id', 'version', 'position']);

export function deleteRow(db: Handle, build: string, noun: NounName, id: string): void {
  const table = tableOf(noun);
  db.delete(table)
    .where(and(eq(table.build, build), eq(table.id, id)))
    .run();
}

/** A position behind all others. */
export function lastPosition(db: Handle, build: string, noun: NounName): number {
  const table = tableOf(noun);
  const [last] = db
    .select({ max: sql<number | null>`max(${table.position})` })
    .from(table)
    .where(eq(table.build, build))
    .all();
  return (last?.max ?? 0) + 1;
}

/** The position with which a row comes to stand at `at`, counted from 0 without itself. */
export function positionAt(db: Handle, build: string, noun: NounName, id: string, at: number): number {
  const others = listPositions(db, build, noun).filter((row) => row.id !== id);
  const [before, after] = [others[at - 1]?.position, others[at]?.position];
  if (after === undefined) return (others.at(-1)?.position ?? 0) + 1;
  return before === undefined ? after - 1 : (before + after) / 2;
}

function listPositions(db: Handle, build: string, noun: NounName): { id: string; position: number }[] {
  const table = tableOf(noun);
  return db
    .select({ id: table.id, position: table.position })
    .from(table)
    .where(eq(table.build, build))
    .orderBy(asc(table.position), asc(table.id))
    .all();
}
