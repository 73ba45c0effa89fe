/**
 * What SQLite reports, in words a builder can act on. The contract refuses what is wrong long before the tables do; a
 * constraint that still speaks up stopped a write that would have harmed the store.
 */
import Sqlite from 'better-sqlite3';
import { PlanError } from '#shared/errors.ts';

/** The failure behind an error of SQLite; any other error is given back as it is. */
export function asFailure(error: unknown, path = 'the store'): unknown {
  const found = sqliteError(error);
  if (found === null) return error;
  const { code, message } = found;
  if (code.startsWith('SQLITE_CONSTRAINT')) {
    const detail = `does not fit the store (${message}): nothing was stored`;
    return new PlanError(`This change ${detail}.`, { code: 'bad-change', errors: [{ pointer: '', detail }] });
  }
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED'))
    return new PlanError('Another program is writing to the store: nothing was stored, try again.', {
      code: 'store-in-use',
      path,
    });
  if (code === 'SQLITE_FULL')
    return new PlanError('There is no room left on the disk: nothing was stored.', { code: 'store-full' });
  return error;
}

export function sqliteError(error: unknown): InstanceType<typeof Sqlite.SqliteError> | null {
  if (error instanceof Sqlite.SqliteError) return error;
  // Drizzle may put its own error around it.
  return error instanceof Error && error.cause !== undefined ? sqliteError(error.cause) : null;
}
