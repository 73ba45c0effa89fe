/** Builds: their heads, and whole builds in and out. */
import { mkdirSync, existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { asc, eq, max } from 'drizzle-orm';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { FORMAT, FORMAT_VERSION } from '#shared/contract/build-file.ts';
import type { HeadRow } from '#shared/contract/changes.ts';
import { idOf, NOUN_NAMES, type AnyRecord, type NounName } from '#shared/contract/nouns.ts';
import { HEAD_ID } from '#shared/changes/diff.ts';
import { PlanError } from '#shared/errors.ts';
import type { Handle, Store } from './database.ts';
import { insertRows, listRows } from './rows.ts';
import { builds } from './schema.ts';

export interface StoredBuild {
  readonly id: string;
  readonly revision: number;
  /** Of the head row. */
  readonly version: number;
  readonly createdAt: string;
  /** When it was put away, an ISO instant; null: at work. */
  readonly archivedAt: string | null;
  readonly head: HeadRow;
}

/** A build as a client holds it: the file, and the version of every row by noun and id. */
export interface Snapshot {
  readonly id: string;
  readonly revision: number;
  readonly file: BuildFile;
  readonly versions: Readonly<Record<string, Readonly<Record<string, number>>>>;
}

function asBuild(row: typeof builds.$inferSelect): StoredBuild {
  const { id, revision, version, createdAt, archivedAt, place: _, ...head } = row;
  return { id, revision, version, createdAt, archivedAt, head };
}

/** In which builds have the people they share: by place, of equals the older. */
export const IN_ORDER = [asc(builds.place), asc(builds.createdAt), asc(builds.id)] as const;

export function listBuilds(db: Handle): StoredBuild[] {
  return db
    .select()
    .from(builds)
    .orderBy(...IN_ORDER)
    .all()
    .map(asBuild);
}

/** @throws PlanError `not-found` */
export function getBuild(db: Handle, id: string): StoredBuild {
  const row = db.select().from(builds).where(eq(builds.id, id)).get();
  if (row === undefined)
    throw new PlanError(`There is no build "${id}".`, { code: 'not-found', what: 'build', id });
  return asBuild(row);
}

export function setHead(db: Handle, id: string, head: HeadRow, version: number): void {
  db.update(builds)
    .set({ ...head, version })
    .where(eq(builds.id, id))
    .run();
}

export function setRevision(db: Handle, id: string, revision: number): void {
  db.update(builds).set({ revision }).where(eq(builds.id, id)).run();
}

/**
 * Removes a build with all its rows and its history, which nothing brings back; so it is written as a build file into
 * the backups first.
 *
 * @param revision that was read
 * @returns where the file lies; null for a store in memory
 * @throws PlanError `not-found`, `stale-write`
 */
export function removeBuild({ db, backups }: Store, id: string, revision: number): string | null {
  return db.transaction(
    (tx) => {
      const snapshot = readSnapshot(tx, id);
      if (snapshot.revision !== revision)
        throw new PlanError(`The build "${id}" was changed meanwhile: read it again before removing it.`, {
          code: 'stale-write',
          noun: 'build',
          id,
          found: snapshot.revision,
        });
      const kept = backups === null ? null : keep(backups, `${id}-revision-${revision}`, snapshot.file);
      tx.delete(builds).where(eq(builds.id, id)).run();
      return kept;
    },
    { behavior: 'immediate' },
  );
}

function keep(folder: string, stem: string, file: BuildFile): string {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  let path = join(folder, `${stem}.json`);
  for (let n = 2; existsSync(path); n++) path = join(folder, `${stem}-${n}.json`);
  writeFileSync(path, `${JSON.stringify(file, null, 2)}\n`, { flag: 'wx', flush: true });
  return path;
}

/** Takes in a whole build, all of it or nothing, under an id made of its name. @param at when, with zone */
export function addBuild({ db }: Store, file: BuildFile, at: string): StoredBuild {
  return db.transaction((tx) => insertBuild(tx, file, freeBuildId(tx, file.build.name), at), {
    behavior: 'immediate',
  });
}

/** Rows without a key get one; the build comes behind all others. */
function insertBuild(db: Handle, file: BuildFile, id: string, createdAt: string): StoredBuild {
  const head: HeadRow = { ...file.build, order: file.order };
  const last = db
    .select({ place: max(builds.place) })
    .from(builds)
    .get();
  db.insert(builds)
    .values({ id, revision: 1, version: 1, createdAt, place: (last?.place ?? 0) + 1, ...head })
    .run();
  for (const noun of NOUN_NAMES) {
    const rows = withKeys(noun, file[noun]).map((value, i) => ({
      id: idOf(noun, value)!,
      value,
      position: i + 1,
      version: 1,
    }));
    insertRows(db, id, noun, rows);
  }
  return getBuild(db, id);
}

/** Entries of hours, timers, records and weighings may come without a key. */
function withKeys(noun: NounName, records: readonly AnyRecord[]): AnyRecord[] {
  const taken = new Set(records.map((record) => idOf(noun, record)));
  let next = 0;
  return records.map((record) => {
    if (idOf(noun, record) !== null) return record;
    let key: string;
    do key = `${noun[0]}${++next}`;
    while (taken.has(key));
    return { ...record, key } as AnyRecord;
  });
}

/** @throws PlanError `not-found` */
export function readSnapshot(db: Handle, id: string): Snapshot {
  const { revision, version, head } = getBuild(db, id);
  const { order, ...build } = head;
  const versions: Record<string, Record<string, number>> = { build: { [HEAD_ID]: version } };
  const lists: Partial<Record<NounName, AnyRecord[]>> = {};
  for (const noun of NOUN_NAMES) {
    const rows = listRows(db, id, noun);
    lists[noun] = rows.map((row) => row.value);
    versions[noun] = Object.fromEntries(rows.map((row) => [row.id, row.version]));
  }
  const file = { format: FORMAT, version: FORMAT_VERSION, build, ...lists, order } as unknown as BuildFile;
  return { id, revision, file, versions };
}

/** The version a client that read this snapshot knows; null for a row that is not there. */
export function versionIn({ versions }: Snapshot, noun: string, id: string): number | null {
  // Ids are anybody's words: "constructor" is one, and no row.
  const rows = Object.hasOwn(versions, noun) ? versions[noun] : undefined;
  return rows !== undefined && Object.hasOwn(rows, id) ? rows[id]! : null;
}

/** A short id made of the name, free in this store. */
function freeBuildId(db: Handle, name: string): string {
  const stem =
    name
      .toLowerCase()
      .normalize('NFKD')
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 40) || 'build';
  const taken = new Set(
    db
      .select({ id: builds.id })
      .from(builds)
      .all()
      .map((row) => row.id),
  );
  let id = stem;
  for (let n = 2; taken.has(id); n++) id = `${stem}-${n}`;
  return id;
}
