/**
 * The data folder: the store in it, and a lock so that one server has it at a time. Two would be safe for the rows, but
 * the listeners of one would not hear what is written through the other. The lock is a transaction the system ends with
 * the process, so one that was killed leaves none behind.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { PlanError } from '#shared/errors.ts';
import { openStore, type Store } from './database.ts';
import { sqliteError } from './failures.ts';

/** @throws PlanError `no-file`, `store-in-use`, and whatever `openStore` throws */
export function openFolder(folder: string): Store {
  const lock = locked(folder);
  try {
    const store = openStore(join(folder, 'coverlast.db'));
    const close = () => {
      store.close();
      lock.close();
    };
    return { ...store, close };
  } catch (error) {
    lock.close();
    throw error;
  }
}

function locked(folder: string): Sqlite.Database {
  let lock: Sqlite.Database | undefined;
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    lock = new Sqlite(join(folder, 'coverlast.lock'), { timeout: 0 });
    lock.exec('begin exclusive');
    return lock;
  } catch (error) {
    lock?.close();
    const code =
      sqliteError(error)?.code ??
      (error instanceof Error && 'code' in error ? String(error.code) : 'unusable');
    if (code.startsWith('SQLITE_BUSY'))
      throw new PlanError(
        `Another Coverlast already has the data folder ${folder}: stop it first, or choose another folder with --data FOLDER.`,
        { code: 'store-in-use', path: folder },
      );
    throw new PlanError(
      `The data folder ${folder} cannot be used (${code}): choose another with --data FOLDER.`,
      {
        code: 'no-file',
        path: folder,
      },
    );
  }
}
