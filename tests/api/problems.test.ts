/** Every kind of failure, caused as somebody would cause it: the table fails to compile when a kind is missing. */
import { describe, expect, it } from 'vitest';
import Sqlite from 'better-sqlite3';
import type { FailureCode } from '#shared/errors.ts';
import { PROBLEMS, problemOf } from '../../server/plugins/problems.ts';
import type { Loose } from '../support/full-document.ts';
import { FULL, startFull, type Answer, type TestServer } from '../support/server.ts';

const build = `/api/builds/${FULL}`;
const patch = { body: { name: 'x' } };

const CAUSES: Readonly<Record<FailureCode, ((server: TestServer) => Promise<Answer>) | null>> = {
  'not-json': (server) => server.ask('POST', '/api/builds', { text: '{"a": tru}' }),
  'bad-build': (server) => server.ask('POST', '/api/builds', { body: {} }),
  'bad-request': (server) => server.ask('GET', `${build}/history?limit=many`),
  'bad-change': (server) => server.ask('POST', `${build}/phases`, { body: { key: 5 } }),
  'bad-table': (server) =>
    server.ask('POST', `${build}/tables/tasks`, { text: '', headers: { 'content-type': 'text/csv' } }),
  'not-found': (server) => server.ask('GET', '/api/builds/nobody/plan'),
  'repair-gone': (server) =>
    server.ask('POST', `${build}/repairs`, {
      body: { repair: { kind: 'drop-fixed-start', task: 'nobody' } },
    }),
  busy: async (server) => {
    await server.ask('POST', `${build}/search`, { body: { still: 1_000_000 } });
    return server.ask('POST', `${build}/search`, { body: {} });
  },
  'stale-write': (server) => server.ask('PATCH', `${build}/tools/saw`, { ...patch, version: 3 }),
  'version-missing': (server) => server.ask('PATCH', `${build}/tools/saw`, patch),
  'nothing-to-undo': (server) => server.ask('POST', `${build}/undo`),
  'nothing-to-redo': (server) => server.ask('POST', `${build}/redo`),
  'foreign-host': (server) => server.ask('GET', '/api/builds', { headers: { host: 'van.example' } }),
  'foreign-origin': (server) =>
    server.ask('GET', '/api/builds', { headers: { origin: 'http://van.example' } }),
  'too-large': (server) => server.ask('POST', `${build}/tools`, { text: `"${'x'.repeat(5_000_000)}"` }),
  'unsupported-media': (server) =>
    server.ask('POST', '/api/builds', {
      text: 'name=x',
      headers: { 'content-type': 'application/x-www-form-urlencoded' },
    }),
  'store-in-use': async (server) => {
    const other = new Sqlite(server.path);
    other.exec('begin immediate');
    const answer = await server.ask('PATCH', `${build}/tools/saw`, { ...patch, version: 1 });
    other.close();
    return answer;
  },
  'store-full': async (server) => {
    const { page_count: pages } = server.store.db.get<{ page_count: number }>('pragma page_count');
    server.store.db.run(`pragma max_page_count = ${pages}`);
    const steps = Array.from({ length: 500 }, () => ({ text: 'y'.repeat(200) }));
    return server.ask('PATCH', `${build}/tasks/close-wall`, { body: { steps }, version: 1 });
  },
  // Not of a request: what a command or the start of the server says. They are caused in the tests of those.
  'bad-usage': null,
  'no-file': null,
  'newer-store': null,
};

describe('a problem', () => {
  it.each(Object.entries(CAUSES))('should be told as RFC 9457 has it: %s', async (code, cause) => {
    const { status, title } = PROBLEMS[code as FailureCode];
    if (cause === null) {
      expect(problemOf({ code, path: 'x', usage: 'x' } as never, 'Why.', '/x')).toMatchObject({
        type: `/problems/${code}`,
        title,
        status,
      });
      return;
    }
    const server = await startFull({ patienceMs: 10 });
    const before = await server.snapshot();
    const answer = await cause(server);
    expect(answer.headers['content-type']).toMatch(/^application\/problem\+json/);
    expect(answer.body).toMatchObject({
      type: `/problems/${code}`,
      title,
      status,
      detail: expect.stringMatching(/^\S.*\.$/s) as string,
    });
    expect(answer.status).toBe(status);
    expect(String(answer.body['instance'])).toMatch(/^\/api\//);
    expect(Object.keys(answer.body).slice(0, 5)).toEqual(['type', 'title', 'status', 'detail', 'instance']);
    for (const error of (answer.body['errors'] ?? []) as Loose[]) {
      expect(error).toEqual({
        pointer: expect.stringMatching(/^(\/|$)/) as string,
        detail: expect.any(String) as string,
      });
    }
    expect(await server.snapshot()).toEqual(before);
    expect(server.reported).toEqual([]);
  });

  it('should say where a body stops being JSON', async () => {
    const server = await startFull();
    const { body } = await server.ask('POST', '/api/builds', {
      text: '{\n  "format": "coverlast-build",\n  "version": 1,,\n}',
    });
    expect(body).toMatchObject({ type: '/problems/not-json', line: 3, column: 16 });
  });

  it('should be told of an address there is none of', async () => {
    const server = await startFull();
    for (const [method, url] of [
      ['GET', '/api/nothing'],
      ['GET', `${build}/wheels`],
      ['PUT', '/api/builds'],
      ['GET', '/'],
    ] as const) {
      const { status, body } = await server.ask(method, url);
      expect([status, body['type'], body['instance']]).toEqual([404, '/problems/not-found', url]);
    }
  });

  it('should keep to itself what nobody foresaw, and report it', async () => {
    const server = await startFull({ mayFail: true });
    server.store.db.run('drop table actions');
    const { status, text, body } = await server.ask('PATCH', `${build}/tools/saw`, { ...patch, version: 1 });
    expect([status, body['type']]).toEqual([500, 'about:blank']);
    expect(text).not.toMatch(/actions|sqlite|select|\bat .*\.ts/i);
    expect(server.reported).toHaveLength(1);
  });
});
