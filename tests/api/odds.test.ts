/** The odds over HTTP: worked out in a thread of its own, asked after, stopped, and marked once the build has changed. */
import { Value } from 'typebox/value';
import { describe, expect, it, vi } from 'vitest';
import { Odds } from '#shared/contract/plan-odds.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { oddsOf } from '#shared/odds/odds.ts';
import { startServer, type TestServer } from '../support/server.ts';

const SLOW = { timeout: 60_000, interval: 100 };

interface Standing {
  readonly state: string;
  readonly done: number;
  readonly total: number;
  readonly stale: boolean;
  readonly odds: Odds | null;
}

describe('the odds of a build', () => {
  it('should be worked out beside the server, the same as the same seed gives elsewhere', async () => {
    const server = await startServer();
    const build = await taken(server);
    expect(await standing(server, build)).toMatchObject({ state: 'idle', stale: false, odds: null });
    const started = await server.ask('POST', `/api/builds/${build}/odds`, {
      body: { trials: 300, seed: 7 },
    });
    expect(started.status).toBe(202);
    expect(started.body).toMatchObject({ state: 'running', done: 0, total: 300, odds: null });
    const ended = await untilEnded(server, build);
    expect(ended).toMatchObject({ state: 'done', done: 300, stale: false });
    expect(Value.Check(Odds, ended.odds)).toBe(true);
    const here = oddsOf(wagtail(), { now: server.app.now(), trials: 300, seed: 7 });
    expect(ended.odds).toEqual(here);
  });

  it('should be said to be old once the build has changed', async () => {
    const server = await startServer();
    const build = await taken(server);
    await server.ask('POST', `/api/builds/${build}/odds`, { body: { trials: 20 } });
    await untilEnded(server, build);
    const head = await server.ask('GET', `/api/builds/${build}/head`);
    await server.ask('PATCH', `/api/builds/${build}/head`, {
      body: { targetFinishOn: '2029-01-01' },
      headers: { 'if-match': String(head.headers['etag']) },
    });
    expect(await standing(server, build)).toMatchObject({ state: 'done', stale: true });
  });

  it('should be stopped at any moment, and not be worked out twice at once', async () => {
    const server = await startServer();
    const build = await taken(server);
    await server.ask('POST', `/api/builds/${build}/odds`, { body: { trials: 100_000 } });
    await vi.waitUntil(async () => (await standing(server, build)).done > 0, SLOW);
    const again = await server.ask('POST', `/api/builds/${build}/odds`, { body: {} });
    expect(again.status).toBe(409);
    expect(again.body).toMatchObject({ type: '/problems/busy' });
    const stopped = await server.ask('DELETE', `/api/builds/${build}/odds`);
    expect(stopped.body).toMatchObject({ state: 'stopped', odds: null });
    expect(Number(stopped.body['done'])).toBeLessThan(100_000);
  });

  it('should refuse trials, seeds and spreads that are none, and builds that are not there', async () => {
    const server = await startServer();
    const build = await taken(server);
    expect((await server.ask('GET', '/api/builds/nobody/odds')).status).toBe(404);
    for (const [body, pointer] of [
      [{ trials: 0 }, '/trials'],
      [{ trials: 1e9 }, '/trials'],
      [{ seed: -1 }, '/seed'],
      [{ paceSigma: 9 }, '/paceSigma'],
      [{ distribution: 'normal' }, '/distribution'],
      [{ sigma: 1 }, '/sigma'],
    ] as const) {
      const refused = await server.ask('POST', `/api/builds/${build}/odds`, { body });
      expect(refused.status, pointer).toBe(400);
      expect(refused.body, pointer).toMatchObject({ errors: [{ pointer }] });
    }
    expect(await standing(server, build)).toMatchObject({ state: 'idle' });
  });
});

// Helpers

async function taken(server: TestServer): Promise<string> {
  const { body } = await server.ask('POST', '/api/builds', { body: wagtail() });
  return String(body['id']);
}

async function standing(server: TestServer, build: string): Promise<Standing> {
  return (await server.ask('GET', `/api/builds/${build}/odds`)).body as unknown as Standing;
}

async function untilEnded(server: TestServer, build: string): Promise<Standing> {
  return vi.waitUntil(async () => {
    const now = await standing(server, build);
    return now.state === 'running' ? null : now;
  }, SLOW);
}
