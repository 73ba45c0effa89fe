/** Opening the store: one SQLite file in WAL mode with full synchronisation, brought up to date, foreign keys on. */
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Sqlite from 'better-sqlite3';
import { drizzle, type BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import { PlanError } from '#shared/errors.ts';
import { asFailure, sqliteError } from './failures.ts';
import { backupsOf, migrateStore } from './migrate.ts';

const MIGRATIONS = fileURLToPath(new URL('../../migrations', import.meta.url));

/** The database or an open transaction: what every repository function takes first. */
export type Handle = Pick<
  BetterSQLite3Database,
  'select' | 'insert' | 'update' | 'delete' | 'run' | 'get' | 'all'
>;

export interface Store {
  readonly db: BetterSQLite3Database;
  /** Where copies go before something is removed for good; null for a store in memory. */
  readonly backups: string | null;
  /** Where photos and receipts lie; null for a store in memory. */
  readonly records: string | null;
  /** Writes what is pending into the one file and closes it; closing twice is fine. */
  readonly close: () => void;
}

export interface StoreSettings {
  /** Folder of the migrations; the tests have some of their own. */
  readonly migrations?: string;
  /** How long to wait for another program that is writing. */
  readonly patienceMs?: number;
}

/**
 * @param path of the file, or `:memory:`
 * @throws PlanError `newer-store`, `store-in-use`, `no-file` when the file cannot be opened or is no store
 */
export function openStore(
  path: string,
  { migrations = MIGRATIONS, patienceMs = 5000 }: StoreSettings = {},
): Store {
  let sqlite: Sqlite.Database | undefined;
  try {
    sqlite = new Sqlite(path, { timeout: patienceMs });
    sqlite.pragma('journal_mode = WAL');
    sqlite.pragma('synchronous = FULL');
    const db = drizzle({ client: sqlite, casing: 'snake_case' });
    migrateStore(sqlite, db, path, migrations);
    sqlite.pragma('foreign_keys = ON');
    const opened = sqlite;
    const isFile = path !== ':memory:';
    return {
      db,
      backups: isFile ? backupsOf(path) : null,
      records: isFile ? join(dirname(path), 'records') : null,
      close: () => opened.close(),
    };
  } catch (error) {
    sqlite?.close();
    throw unopened(error, path);
  }
}

function unopened(error: unknown, path: string): unknown {
  const known = asFailure(error, path);
  if (known instanceof PlanError) return known;
  const code = sqliteError(error)?.code;
  if (code === 'SQLITE_NOTADB' || code?.startsWith('SQLITE_CORRUPT'))
    return new PlanError(
      `The file ${path} is no store of Coverlast, or it is damaged: it was left as it is.`,
      {
        code: 'no-file',
        path,
      },
    );
  if (code !== undefined && /CANTOPEN|READONLY|PERM|IOERR/.test(code))
    return new PlanError(`The store ${path} cannot be opened for writing (${code}).`, {
      code: 'no-file',
      path,
    });
  return error;
}
