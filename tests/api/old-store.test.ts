/** A store of the first version, filled, brought up to what this version writes. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { wagtail } from '#shared/demo/wagtail.ts';
import { openStore } from '../../server/store/database.ts';
import { fullDocument } from '../support/full-document.ts';
import { earlierMigrations } from '../support/later-migrations.ts';
import { countRows, FULL, makeFolder, startServer, type TestServer } from '../support/server.ts';

describe('a store from before there were timers and receipts', () => {
  it('should lose nothing, and have none of either', async () => {
    const { folder, rows, file } = await oldStore();
    const server = await startServer({ folder });
    const after = countRows(server);
    for (const [table, count] of Object.entries(rows)) expect([table, after[table]]).toEqual([table, count]);
    expect([after['timers'], after['feeds']]).toEqual([0, 0]);
    const now = (await server.snapshot()).file;
    expect(now).toEqual({
      ...file,
      people: file.people.map((one) => ({ ...one, sharedAs: null })),
      tasks: file.tasks.map((one) => ({ ...one, option: null })),
      purchases: file.purchases.map((one) => ({
        ...one,
        receipts: [],
        shippingTaxPercent: 0,
        shippingTaxIncluded: true,
      })),
      timers: [],
      weighings: file.weighings.map((one) => ({ ...one, aboard: null })),
      dismissals: [],
    });
    expect((await server.snapshot('wagtail')).file.tasks).toHaveLength(wagtail().tasks.length);
    expect(existsSync(join(folder, 'backups', 'coverlast-before-migration-2.db'))).toBe(true);
  });

  it('should take back what was done before, though the notes know of no receipts', async () => {
    const { folder } = await oldStore();
    const server = await startServer({ folder });
    const undone = await server.ask('POST', `/api/builds/${FULL}/undo`);
    expect(undone.status).toBe(200);
    const [purchase] = (await server.snapshot()).file.purchases;
    expect([purchase!.supplier, purchase!.receipts]).toEqual(['the hose shop', []]);
    expect((await server.ask('POST', `/api/builds/${FULL}/redo`)).status).toBe(200);
    expect((await server.snapshot()).file.purchases[0]).toMatchObject({ supplier: 'another', receipts: [] });
  });

  it('should take timers and receipts from then on', async () => {
    const { folder } = await oldStore();
    const server = await startServer({ folder });
    const body = { person: 'ines', startedAt: '2027-03-10T07:45' };
    expect((await server.ask('POST', `/api/builds/${FULL}/timers`, { body })).status).toBe(201);
    const receipts = [`sha256:${'0'.repeat(64)}`];
    const kept = await server.ask('PATCH', `/api/builds/${FULL}/purchases/hose-shop`, {
      body: { receipts },
      version: 2,
    });
    expect(kept.status).toBe(200);
    expect((await server.snapshot()).file.purchases[0]!.receipts).toEqual(receipts);
  });
});

// Helpers

/** What the first version left: its tables and columns alone, with two builds and one action. */
async function oldStore() {
  const source = await startServer({ builds: [wagtail(), fullDocument()] });
  await source.ask('PATCH', `/api/builds/${FULL}/purchases/hose-shop`, {
    body: { supplier: 'another' },
    version: 1,
  });
  const { file } = await source.snapshot();
  await source.close();
  const folder = makeFolder();
  const path = join(folder, 'coverlast.db');
  openStore(path, { migrations: earlierMigrations(makeFolder(), 1) }).close();
  const sqlite = new Sqlite(path);
  sqlite.pragma('foreign_keys = OFF');
  sqlite.prepare('attach ? as source').run(source.path);
  const tables = sqlite
    .prepare(
      `select name from main.sqlite_master where type = 'table' and name not like '%\\_\\_%' escape '\\'`,
    )
    .pluck()
    .all() as string[];
  const rows: Record<string, number> = {};
  for (const table of tables.filter((name) => !name.startsWith('sqlite_'))) {
    const columns = (sqlite.pragma(`main.table_info("${table}")`) as { name: string }[])
      .map(({ name }) => `"${name}"`)
      .join(', ');
    sqlite.exec(`insert into main."${table}" (${columns}) select ${columns} from source."${table}"`);
    rows[table] = sqlite.prepare(`select count(*) from main."${table}"`).pluck().get() as number;
  }
  for (const side of ['before', 'after'])
    sqlite.exec(
      `update journal set "${side}" = json_remove("${side}", '$.receipts') where noun = 'purchases'`,
    );
  expect(sqlite.pragma('foreign_key_check')).toEqual([]);
  sqlite.close();
  return { folder, rows, file, source } satisfies {
    source: TestServer;
    [x: string]: unknown;
  };
}
