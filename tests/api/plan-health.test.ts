/** How far a plan can be trusted, over HTTP: the same rows as anywhere else. */
import { describe, expect, it } from 'vitest';
import { Compile } from 'typebox/compile';
import { PlanHealth } from '#shared/contract/plan-health.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { planHealth } from '#shared/health/plan-health.ts';
import { computePlan } from '#shared/plan.ts';
import { startServer } from '../support/server.ts';

describe('the health of a plan', () => {
  it('should be what the engine says of the build as it is stored', async () => {
    const server = await startServer();
    await server.ask('POST', '/api/builds', { body: wagtail() });
    const { status, body } = await server.ask('GET', '/api/builds/wagtail/health');
    expect(status).toBe(200);
    expect(Compile(PlanHealth).Check(body)).toBe(true);
    const file = wagtail();
    expect(body).toEqual(planHealth(file, computePlan(file, { now: server.app.now() })));
  });

  it('should be of the moment that is asked for, and refuse what is none', async () => {
    const server = await startServer();
    const file = { ...wagtail(), build: { ...wagtail().build, asOf: null } };
    await server.ask('POST', '/api/builds', { body: file });
    const asked = (now: string) => server.ask('GET', `/api/builds/wagtail/health?now=${now}`);
    expect((await asked('2027-04-01T08:00')).body['asOf']).toBe('2027-04-01T08:00');
    const wrong = await asked('tomorrow');
    expect(wrong.status).toBe(400);
    expect(wrong.body).toMatchObject({ type: '/problems/bad-request', errors: [{ pointer: '/now' }] });
    expect((await server.ask('GET', '/api/builds/nobody/health')).status).toBe(404);
  });
});
