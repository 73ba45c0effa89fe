/** Better dates over HTTP: looked for in a thread of its own, asked after, ended, and kept as a change like any other. */
import { describe, expect, it, vi } from 'vitest';
import { wagtail } from '#shared/demo/wagtail.ts';
import { improve, type Improvement } from '#shared/search/dates/improve.ts';
import { startServer, type TestServer } from '../support/server.ts';

const SLOW = { timeout: 60_000, interval: 100 };

interface Standing {
  readonly state: string;
  readonly done: number;
  readonly total: number;
  readonly best: Improvement | null;
}

describe('the search for better dates', () => {
  it('should run beside the server and come to what the same seed and counts come to elsewhere', async () => {
    const server = await startServer();
    const build = await taken(server);
    const asked = { seed: 7, still: 120, free: 60 };
    const started = await server.ask('POST', `/api/builds/${build}/search`, { body: asked });
    expect(started.status).toBe(202);
    expect(started.body).toMatchObject({ state: 'running', done: 0, total: 180, best: null });
    const ended = await vi.waitUntil(async () => {
      const now = await standing(server, build);
      return now.state === 'running' ? null : now;
    }, SLOW);
    const here = improve(wagtail(), { now: server.app.now(), seed: 7, counts: { still: 120, free: 60 } });
    expect(ended).toMatchObject({ state: 'done', done: here.counts.still + here.counts.free });
    expect(ended.best).toMatchObject({ order: here.order, daysWon: here.daysWon });
  });

  it('should stand with the best so far when it is ended, and be kept by a change of the head', async () => {
    const server = await startServer();
    const build = await taken(server);
    await server.ask('POST', `/api/builds/${build}/search`, { body: { still: 100_000, free: 0 } });
    await vi.waitUntil(async () => ((await standing(server, build)).best?.daysWon ?? 0) > 0, SLOW);
    const again = await server.ask('POST', `/api/builds/${build}/search`, { body: {} });
    expect(again.status).toBe(409);
    expect(again.body).toMatchObject({ type: '/problems/busy' });
    const ended = await server.ask('DELETE', `/api/builds/${build}/search`);
    const { state, done, best } = ended.body as unknown as Standing;
    expect(state).toBe('stopped');
    expect(done).toBeLessThan(100_000);
    const finish = async () => {
      const { body } = await server.ask('GET', `/api/builds/${build}/plan`);
      return (body as unknown as { finish: { dates: string } }).finish.dates;
    };
    const before = await finish();
    const head = await server.ask('GET', `/api/builds/${build}/head`);
    const kept = await server.ask('PATCH', `/api/builds/${build}/head`, {
      body: { order: best!.order },
      headers: { 'if-match': String(head.headers['etag']) },
    });
    expect(kept.status).toBe(200);
    expect((await finish()) < before).toBe(true);
  });

  it('should be idle where none was asked for, and refuse counts that are none', async () => {
    const server = await startServer();
    const build = await taken(server);
    expect(await standing(server, build)).toMatchObject({ state: 'idle', best: null });
    expect((await server.ask('GET', '/api/builds/nobody/search')).status).toBe(404);
    const refused = await server.ask('POST', `/api/builds/${build}/search`, { body: { still: -1 } });
    expect(refused.status).toBe(400);
    expect(refused.body).toMatchObject({ errors: [{ pointer: '/still' }] });
  });
});

// Helpers

async function taken(server: TestServer): Promise<string> {
  const { body } = await server.ask('POST', '/api/builds', { body: wagtail() });
  return String(body['id']);
}

async function standing(server: TestServer, build: string): Promise<Standing> {
  return (await server.ask('GET', `/api/builds/${build}/search`)).body as unknown as Standing;
}
