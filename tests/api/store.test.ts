/** The store as a file: what it keeps over a restart, how it is brought up to date, and what it will not open. */
import { cpSync, existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { wagtail } from '#shared/demo/wagtail.ts';
import { PlanError, type FailureCode } from '#shared/errors.ts';
import { openStore } from '../../server/store/database.ts';
import { asFailure } from '../../server/store/failures.ts';
import { openFolder } from '../../server/store/folder.ts';
import { fullDocument } from '../support/full-document.ts';
import { COPY_BEFORE_LATER, laterMigrations, MIGRATIONS } from '../support/later-migrations.ts';
import { countRows, FULL, makeFolder, startFull, startServer, type TestServer } from '../support/server.ts';

describe('a restart', () => {
  it('should change nothing: rows, versions, revision, history, what can be undone', async () => {
    const first = await startFull();
    await rename(first, 'A', 1);
    await rename(first, 'B', 2);
    await first.ask('POST', `/api/builds/${FULL}/undo`);
    const before = [await first.snapshot(), (await first.ask('GET', `/api/builds/${FULL}/history`)).body];
    await first.close();
    const second = await startServer({ folder: first.folder });
    expect([await second.snapshot(), (await second.ask('GET', `/api/builds/${FULL}/history`)).body]).toEqual(
      before,
    );
  });

  it('should come between an action, its undo and its redo', async () => {
    const first = await startFull();
    const name = async (server: TestServer) => (await server.snapshot()).file.tasks[2]!.name;
    await rename(first, 'A', 1);
    await rename(first, 'B', 2);
    await first.close();
    const second = await startServer({ folder: first.folder });
    await second.ask('POST', `/api/builds/${FULL}/undo`);
    expect(await name(second)).toBe('A');
    await second.close();
    const third = await startServer({ folder: first.folder });
    await third.ask('POST', `/api/builds/${FULL}/redo`);
    expect(await name(third)).toBe('B');
    expect((await rename(third, 'C', 5)).status).toBe(200);
  });

  it('should lose nothing that was answered when the program was killed', async () => {
    const server = await startFull();
    await rename(server, 'A', 1);
    // What a killed program leaves: the file and its log, never closed.
    const killed = makeFolder();
    for (const name of readdirSync(server.folder)) cpSync(join(server.folder, name), join(killed, name));
    expect(existsSync(join(killed, 'coverlast.db-wal'))).toBe(true);
    const again = await startServer({ folder: killed });
    expect((await again.snapshot()).file.tasks[2]!.name).toBe('A');
  });

  it('should leave one file when it is stopped in peace', async () => {
    const server = await startFull();
    await server.close();
    expect(readdirSync(server.folder)).toEqual(['coverlast.db']);
  });
});

describe('the store', () => {
  it('should write through to the disk, with keys that are kept', async () => {
    const { store } = await startServer();
    const pragma = (name: string) =>
      Object.values(store.db.get<Record<string, unknown>>(`pragma ${name}`))[0];
    expect([pragma('journal_mode'), pragma('synchronous'), pragma('foreign_keys')]).toEqual(['wal', 2, 1]);
  });

  it('should refuse a row that points nowhere even from a program that did not ask', async () => {
    const { store } = await startFull();
    for (const [statement, words] of [
      ['delete from phases', /FOREIGN KEY/],
      ['update zones set capacity = 0', /CHECK/],
    ] as const)
      expect(failureOf(() => store.db.run(statement))).toEqual(['bad-change', expect.stringMatching(words)]);
  });
});

describe('a migration', () => {
  it('should not be run twice, and lose no row of a filled store', async () => {
    const first = await startServer({ builds: [wagtail(), fullDocument()] });
    await rename(first, 'A', 1);
    const [rows, snapshot] = [countRows(first), await first.snapshot('wagtail')];
    await first.close();
    const second = await startServer({ folder: first.folder });
    expect(countRows(second)).toEqual(rows);
    expect(await second.snapshot('wagtail')).toEqual(snapshot);
    expect(existsSync(join(first.folder, 'backups'))).toBe(false);
  });

  it('should rebuild tables that others point at without losing one row, and keep a copy from before', async () => {
    const first = await startServer({ builds: [wagtail(), fullDocument()] });
    await rename(first, 'A', 1);
    const [rows, demo, full] = [countRows(first), await first.snapshot('wagtail'), await first.snapshot()];
    await first.close();

    const migrations = laterMigrations(
      first.folder,
      ['builds', 'tasks', 'people', 'zones', 'phases', 'actions'].flatMap((table) => rebuild(first, table)),
    );
    const second = await startServer({ folder: first.folder, migrations });
    const { __drizzle_migrations: applied, ...others } = countRows(second);
    const { __drizzle_migrations: before, ...expected } = rows;
    expect([applied, others]).toEqual([before! + 1, expected]);
    expect(await second.snapshot('wagtail')).toEqual(demo);
    expect(await second.snapshot()).toEqual(full);
    await second.ask('POST', `/api/builds/${FULL}/undo`);
    expect((await second.snapshot()).file.tasks[2]!.name).toBe('Close the wall');

    const copy = openStore(join(first.folder, 'backups', COPY_BEFORE_LATER));
    expect(countRows({ store: copy } as TestServer)).toEqual(rows);
    copy.close();
  });

  it('should leave the store as it was when it fails', async () => {
    const first = await startFull();
    const [rows, before] = [countRows(first), await first.snapshot()];
    await first.close();
    const migrations = laterMigrations(first.folder, ['DROP TABLE `links`', 'this is no SQL']);
    expect(() => openStore(first.path, { migrations })).toThrow(/this is no SQL/);
    const second = await startServer({ folder: first.folder });
    expect(countRows(second)).toEqual(rows);
    expect(await second.snapshot()).toEqual(before);
  });

  it('should say so when it leaves a row pointing nowhere, and where the store lies as it was', async () => {
    const first = await startFull();
    await first.close();
    const migrations = laterMigrations(first.folder, ['DELETE FROM `people`']);
    const said = new RegExp(`point nowhere.*${COPY_BEFORE_LATER}`);
    expect(() => openStore(first.path, { migrations })).toThrow(said);
  });

  it('should never drop a table in what has landed without a copy of it', () => {
    for (const name of readdirSync(MIGRATIONS).filter((file) => file.endsWith('.sql'))) {
      const sql = readFileSync(join(MIGRATIONS, name), 'utf8');
      for (const [, table] of sql.matchAll(/DROP TABLE `(\w+)`/g))
        expect(sql, name).toContain(`INSERT INTO \`__new_${table!}\``);
    }
  });
});

describe('what cannot be opened', () => {
  it('should be a store of a later version, which is left as it was', async () => {
    const first = await startFull();
    await first.close();
    const migrations = laterMigrations(first.folder, ['CREATE TABLE `later` (`id` text)']);
    openStore(first.path, { migrations }).close();
    const before = readFileSync(first.path);
    expect(failureOf(() => openStore(first.path))).toEqual([
      'newer-store',
      expect.stringContaining('later version'),
    ]);
    expect(readFileSync(first.path).equals(before)).toBe(true);
  });

  it('should be a file that is no store, which is left as it was', () => {
    const path = join(makeFolder(), 'coverlast.db');
    writeFileSync(path, 'A letter to somebody. '.repeat(500));
    expect(failureOf(() => openStore(path))).toEqual(['no-file', expect.stringContaining('left as it is')]);
    expect(readFileSync(path, 'utf8')).toBe('A letter to somebody. '.repeat(500));
  });

  it('should be a folder where a file is', () => {
    const path = join(makeFolder(), 'taken');
    writeFileSync(path, '');
    expect(failureOf(() => openFolder(join(path, 'data')))).toEqual([
      'no-file',
      expect.stringContaining('--data'),
    ]);
  });

  it('should be a folder that another server has, until that one stops', () => {
    const folder = makeFolder();
    const first = openFolder(folder);
    expect(failureOf(() => openFolder(folder))).toEqual([
      'store-in-use',
      expect.stringContaining('Another Coverlast'),
    ]);
    first.close();
    openFolder(folder).close();
  });

  it('should keep its folder to its owner', () => {
    const folder = join(makeFolder(), 'a', 'b');
    openFolder(folder).close();
    expect(statSync(folder).mode & 0o777).toBe(0o700);
  });
});

describe('a store in trouble', () => {
  it('should say that another program is writing, and store nothing', async () => {
    const server = await startFull({ patienceMs: 20 });
    const other = new Sqlite(server.path);
    other.exec('begin immediate');
    const { status, body } = await rename(server, 'A', 1);
    expect([status, body['type']]).toEqual([503, '/problems/store-in-use']);
    other.exec('rollback');
    other.close();
    expect((await rename(server, 'A', 1)).status).toBe(200);
  });

  it('should say that the disk is full, and store nothing of what did not fit', async () => {
    const server = await startFull();
    const before = await server.snapshot();
    const pages = Object.values(server.store.db.get<Record<string, number>>('pragma page_count'))[0]!;
    server.store.db.run(`pragma max_page_count = ${pages}`);
    const body = {
      note: 'x'.repeat(10_000),
      steps: Array.from({ length: 500 }, () => ({ text: 'y'.repeat(200) })),
    };
    const refused = await server.ask('PATCH', `/api/builds/${FULL}/tasks/close-wall`, { body, version: 1 });
    expect([refused.status, refused.body['type']]).toEqual([507, '/problems/store-full']);
    expect(await server.snapshot()).toEqual(before);
    server.store.db.run('pragma max_page_count = 1000000');
    expect((await rename(server, 'A', 1)).status).toBe(200);
  });
});

// Helpers

function rename(server: TestServer, name: string, version: number) {
  return server.ask('PATCH', `/api/builds/${FULL}/tasks/close-wall`, { body: { name }, version });
}

function failureOf(work: () => unknown): [FailureCode, string] {
  try {
    work();
  } catch (error) {
    const failure = asFailure(error);
    if (failure instanceof PlanError) return [failure.failure.code, failure.message];
    throw error;
  }
  throw new Error('It was opened');
}

/** A table made anew, as generated migrations do where SQLite cannot alter one: copy, drop, rename. */
function rebuild({ path }: TestServer, table: string): string[] {
  const sqlite = new Sqlite(path, { readonly: true });
  const made = sqlite.prepare('select sql from sqlite_master where name = ?').pluck().get(table) as string;
  sqlite.close();
  return [
    'PRAGMA foreign_keys=OFF',
    made.replace(`\`${table}\``, `\`__new_${table}\``).replaceAll(`"${table}".`, `"__new_${table}".`),
    `INSERT INTO \`__new_${table}\` SELECT * FROM \`${table}\``,
    `DROP TABLE \`${table}\``,
    `ALTER TABLE \`__new_${table}\` RENAME TO \`${table}\``,
    'PRAGMA foreign_keys=ON',
  ];
}
