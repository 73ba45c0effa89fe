/** Tables over HTTP: out as CSV, looked at, and taken in as one step of undo; never half. */
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { wagtail } from '#shared/demo/wagtail.ts';
import { MOST_BYTES } from '#shared/exchange/csv.ts';
import { TABLE_NAMES } from '#shared/exchange/intake.ts';
import type { Loose } from '../support/full-document.ts';
import { FULL, startFull, startServer, type TestServer } from '../support/server.ts';

const CSV = { 'content-type': 'text/csv' };

describe('a table', () => {
  it.each(TABLE_NAMES)(
    'should come out for another reader, and change nothing when sent back: %s',
    async (table) => {
      const server = await startServer({ builds: [wagtail()] });
      const url = `/api/builds/wagtail/tables/${table}`;
      const { status, headers, text } = await server.ask('GET', url);
      expect([status, headers['content-type']]).toEqual([200, 'text/csv; charset=utf-8; header=present']);
      expect(headers['content-disposition']).toBe(`attachment; filename="wagtail-${table}.csv"`);
      const records = parse(text, { bom: true, columns: true }) as Record<string, string>[];
      expect(records.length).toBeGreaterThan(100);
      const before = await server.snapshot('wagtail');
      const { body } = await server.ask('POST', `${url}?take=all`, { text, headers: CSV });
      expect(body).toMatchObject({ edits: 0, changed: null, faults: [] });
      expect((body['rows'] as Loose[]).every(({ is }) => is === 'same')).toBe(true);
      expect(await server.snapshot('wagtail')).toEqual(before);
    },
  );

  it('should be looked at without a change', async () => {
    const server = await startFull();
    const { status, body } = await take(server, 'tasks', 'none', 'name,hours\nSand,2\n,3');
    expect(status).toBe(200);
    expect(body).toEqual({
      columns: { understood: ['name', 'hours likely'], unknown: [] },
      rows: [
        { row: 2, is: 'new', faults: [] },
        {
          row: 3,
          is: 'wrong',
          faults: [{ column: 'name', detail: expect.stringContaining('is blank') as string }],
        },
      ],
      faults: [],
      edits: 1,
      changed: null,
    });
    expect((await server.snapshot()).revision).toBe(1);
  });

  it('should be taken in as one step, told to listeners, undone by one undo', async () => {
    const server = await startFull();
    const before = (await server.snapshot()).file;
    const text = 'day;person;time;task\n2027-03-05;Ines;1,5;Close the wall\n06.03.2027;bea;0:45;';
    const { body } = await take(server, 'hours', 'all', text);
    expect(body['changed']).toMatchObject({ label: 'Take in 2 entries of hours from a table', revision: 2 });
    const after = (await server.snapshot()).file;
    expect(after.hours.slice(-2)).toMatchObject([
      { person: 'ines', on: '2027-03-05', minutes: 90, task: 'close-wall' },
      { person: 'bea', on: '2027-03-06', minutes: 45, task: null },
    ]);
    await server.ask('POST', `/api/builds/${FULL}/undo`);
    expect((await server.snapshot()).file).toEqual(before);
  });

  it('should be refused whole when all is asked for and one row is wrong, each cell named', async () => {
    const server = await startFull();
    const { status, body } = await take(server, 'purchases', 'all', 'name,quantity\nhose,2\nclip,many\n,1');
    expect([status, body['type']]).toEqual([422, '/problems/bad-table']);
    expect((body['errors'] as Loose[]).map(({ pointer }) => pointer)).toEqual([
      '/rows/3/quantity',
      '/rows/4/name',
    ]);
    expect((await server.snapshot()).revision).toBe(1);
  });

  it('should be taken in by its good rows when they are asked for', async () => {
    const server = await startFull();
    const { body } = await take(server, 'purchases', 'good', 'name,quantity\nhose,2\nclip,many');
    expect(body).toMatchObject({ edits: 1, changed: { revision: 2 } });
    expect((await server.snapshot()).file.purchases.at(-1)).toMatchObject({
      key: 'hose',
      lines: [{ name: 'hose', quantity: 2 }],
    });
  });

  it('should make links between tasks by their names', async () => {
    const server = await startFull();
    await take(server, 'links', 'all', 'first,then,time between\nHose test,Close the wall,36:30');
    expect((await server.snapshot()).file.links.at(-1)).toMatchObject({
      from: 'hose-test',
      to: 'close-wall',
      lagMinutes: 2190,
    });
  });
});

describe('a table that cannot be read', () => {
  it('should be refused in words when it has fifty megabytes', async () => {
    const server = await startFull();
    const { status, body } = await take(server, 'hours', 'all', 'x'.repeat(50 * 1024 * 1024));
    expect([status, body]).toMatchObject([
      413,
      {
        type: '/problems/too-large',
        most: MOST_BYTES,
        detail: 'The body is too large: at most 8 MB are taken here.',
      },
    ]);
  });

  it('should be refused when it is not UTF-8, instead of losing its letters', async () => {
    const server = await startFull();
    const response = await server.app.inject({
      method: 'POST',
      url: `/api/builds/${FULL}/tables/tasks`,
      headers: { host: 'localhost:4180', ...CSV },
      payload: Buffer.from('name,hours\nTür,2', 'latin1'),
    });
    expect([response.statusCode, response.json<Loose>()['detail']]).toEqual([
      422,
      'The table is not written in UTF-8: save it as CSV in UTF-8.',
    ]);
  });

  it('should be refused as JSON, under another name, and with another word for what to take', async () => {
    const server = await startFull();
    const url = `/api/builds/${FULL}/tables`;
    expect((await server.ask('POST', `${url}/tasks`, { body: [] })).status).toBe(415);
    expect((await server.ask('GET', `${url}/people`)).status).toBe(404);
    expect((await server.ask('GET', `${url}/constructor`)).status).toBe(404);
    expect((await take(server, 'tasks', 'some', 'name\nx')).status).toBe(400);
    expect((await server.ask('GET', '/api/builds/nobody/tables/tasks')).status).toBe(404);
  });
});

describe('a cell that a spreadsheet would run', () => {
  it('should go out guarded and come back as it was', async () => {
    const server = await startFull();
    const note = '=HYPERLINK("http://elsewhere.example","x")\r\n+1';
    await server.ask('PATCH', `/api/builds/${FULL}/tasks/close-wall`, { body: { note }, version: 1 });
    const { text } = await server.ask('GET', `/api/builds/${FULL}/tables/tasks`);
    const [, , last] = parse(text, { bom: true, columns: true, record_delimiter: '\r\n' }) as {
      note: string;
    }[];
    expect(last!.note).toBe(`'${note}`);
    expect((await take(server, 'tasks', 'all', text)).body).toMatchObject({ edits: 0 });
  });
});

// Helpers

function take(server: TestServer, table: string, what: string, text: string) {
  return server.ask('POST', `/api/builds/${FULL}/tables/${table}?take=${what}`, { text, headers: CSV });
}
