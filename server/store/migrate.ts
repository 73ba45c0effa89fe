/**
 * Brings a store to the tables this program writes. Migrations run with foreign keys off, because SQLite rebuilds
 * tables by dropping them and a drop would cascade into what points at them; the keys are checked afterwards. A store
 * that already has rows is copied beside itself first, and one written by a later program is left alone.
 */
import { existsSync, mkdirSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type Sqlite from 'better-sqlite3';
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import { readMigrationFiles } from 'drizzle-orm/migrator';
import { migrate } from 'drizzle-orm/better-sqlite3/migrator';
import { PlanError } from '#shared/errors.ts';

const APPLIED = '__drizzle_migrations';

/**
 * @param folder of the migrations
 * @throws PlanError `newer-store`; Error when a migration fails (it is rolled back) or leaves a row pointing nowhere
 */
export function migrateStore(
  sqlite: Sqlite.Database,
  db: BetterSQLite3Database,
  path: string,
  folder: string,
): void {
  const known = readMigrationFiles({ migrationsFolder: folder }).map(({ folderMillis }) => folderMillis);
  const applied = appliedTo(sqlite);
  if (applied.some((one) => !known.includes(one)))
    throw new PlanError(
      `The store ${path} was written by a later version of Coverlast: start that version, or choose another folder with --data FOLDER.`,
      { code: 'newer-store', path },
    );
  if (known.length === applied.length) return;
  const copy = applied.length === 0 ? null : copyOf(sqlite, path, applied.length);
  sqlite.pragma('foreign_keys = OFF');
  migrate(db, { migrationsFolder: folder });
  const broken = sqlite.pragma('foreign_key_check') as unknown[];
  if (broken.length > 0)
    throw new Error(
      `After migrating, ${broken.length} rows of ${path} point nowhere. The store as it was before lies in ${copy ?? 'no file: it was empty'}.`,
    );
}

/** When each migration of the store was made, oldest first. */
function appliedTo(sqlite: Sqlite.Database): number[] {
  const table = sqlite.prepare(`select 1 from sqlite_master where type = 'table' and name = ?`).get(APPLIED);
  if (table === undefined) return [];
  const rows = sqlite.prepare(`select created_at from ${APPLIED} order by created_at`).pluck().all();
  return rows.map(Number);
}

/** A whole copy of the store under a name of its own; null for one in memory. */
function copyOf(sqlite: Sqlite.Database, path: string, migrations: number): string | null {
  if (path === ':memory:') return null;
  const folder = backupsOf(path);
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const stem = `${basename(path, '.db')}-before-migration-${migrations + 1}`;
  let copy = join(folder, `${stem}.db`);
  for (let n = 2; existsSync(copy); n++) copy = join(folder, `${stem}-${n}.db`);
  sqlite.prepare('vacuum into ?').run(copy);
  return copy;
}

/** Beside the store: what it was before something took rows away. */
export function backupsOf(path: string): string {
  return join(dirname(path), 'backups');
}
