/** Several builds in one store on a real database file: copied, put away, put in order, and planned around each other. */
import { Value } from 'typebox/value';
import { describe, expect, it, onTestFinished } from 'vitest';
import { Elsewhere } from '#shared/contract/elsewhere.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { computePlan } from '#shared/plan.ts';
import { busyOf, withElsewhere } from '#shared/time/elsewhere.ts';
import { document, EVENINGS, task } from '../support/builds.ts';
import type { Loose } from '../support/full-document.ts';
import { FULL, NOW, startFull, startServer, type TestServer } from '../support/server.ts';

describe('builds that share people', () => {
  it('should be planned one around the other, in the order they stand in', async () => {
    const server = await startTwo();
    const [first, second] = [await planOf(server, 'one'), await planOf(server, 'two')];
    expect([startOf(first), startOf(second)]).toEqual(['2027-03-11T18:30', '2027-03-13T09:00']);
    expect('elsewhere' in first).toBe(false);
    const { file } = await server.snapshot('one');
    const elsewhere = busyOf(file, first);
    expect(second['elsewhere']).toEqual(elsewhere);
    expect(Value.Check(Elsewhere, second['elsewhere'])).toBe(true);
    expect((second.tasks['x']!.because as { words: string }).words).toMatch(
      /^Tor is at One until Thu 11 Mar/,
    );
    const two = (await server.snapshot('two')).file;
    const { elsewhere: _, ...plan } = second;
    const computed = computePlan(withElsewhere(two, elsewhere), { now: NOW });
    expect(plan).toEqual(JSON.parse(JSON.stringify(computed)));
  });

  it('should tell a client what to plan around, and never store or export it', async () => {
    const server = await startTwo();
    const before = (await server.ask('GET', '/api/builds/two/file')).body;
    const { body } = await server.ask('GET', '/api/builds/two/snapshot');
    expect(body['elsewhere']).toEqual({
      tor: [{ from: '2027-03-11T18:30', to: '2027-03-11T21:00', build: 'One' }],
    });
    expect((await server.ask('GET', '/api/builds/two/elsewhere')).body).toEqual(body['elsewhere']);
    expect((await server.ask('GET', '/api/builds/one/snapshot')).body['elsewhere']).toEqual({});
    expect(body['file']).toEqual(before);
    expect(JSON.stringify(before)).not.toContain('taken');
  });

  it('should give a build alone, and one that shares nobody, the plan of its file', async () => {
    const server = await startTwo({ sharedAs: null });
    for (const id of ['one', 'two']) {
      const { file } = await server.snapshot(id);
      const plan = await planOf(server, id);
      expect(plan).toEqual(JSON.parse(JSON.stringify(computePlan(file, { now: NOW }))));
    }
  });

  it('should plan the later one anew when the earlier one changes, and only then', async () => {
    const server = await startTwo();
    const url = '/api/builds/two/plan';
    const { headers } = await server.ask('GET', url);
    const known = { 'if-none-match': String(headers['etag']) };
    expect((await server.ask('GET', url, { headers: known })).status).toBe(304);
    const shorter = { minutes: { low: 60, likely: 60, high: 60 } };
    await server.ask('PATCH', '/api/builds/two/tasks/x', { body: { note: 'Own change' }, version: 1 });
    const first = await server.ask('GET', '/api/builds/one/plan');
    await server.ask('PATCH', '/api/builds/one/tasks/x', { body: shorter, version: 1 });
    const after = await server.ask('GET', url, { headers: known });
    expect([after.status, startOf(after.body as unknown as Plan)]).toEqual([200, '2027-03-11T19:30']);
    const again = { 'if-none-match': String(first.headers['etag']) };
    await server.ask('PATCH', '/api/builds/two/tasks/x', { body: { note: '' }, version: 2 });
    await server.ask('POST', '/api/builds/one/undo');
    expect((await server.ask('GET', '/api/builds/one/plan', { headers: again })).status).toBe(200);
    expect(startOf(await planOf(server, 'two'))).toBe('2027-03-13T09:00');
  });

  it('should search for better dates in what is left of the windows', async () => {
    const server = await startTwo();
    await server.ask('POST', '/api/builds/two/search', { body: { still: 5, free: 5 } });
    await expect
      .poll(async () => (await server.ask('GET', '/api/builds/two/search')).body['state'], {
        timeout: 30_000,
      })
      .toBe('done');
    expect((await server.ask('GET', '/api/builds/two/search')).body['best']).toBeNull();
  });

  it('should carry the same dates into the calendar', async () => {
    const server = await startTwo();
    const feed = await server.ask('POST', '/api/builds/two/feeds', { body: { name: 'Tor' } });
    const { text } = await server.ask('GET', String(feed.body['address']));
    expect(text).toMatch(/DTSTART:20270313T090000\r\n/);
  });

  it('should hold for a line of builds, each behind all those before it', async () => {
    const names = ['One', 'Two', 'Three', 'Four'];
    const server = await startServer({ builds: names.map((name) => buildCalled(name, 'tor')) });
    const starts = [];
    for (const name of names) starts.push(startOf(await planOf(server, name.toLowerCase())));
    expect(starts).toEqual(['2027-03-11T18:30', '2027-03-13T09:00', '2027-03-13T11:30', '2027-03-13T15:00']);
  });
});

describe('the place of a build', () => {
  it('should decide who has shared people first', async () => {
    const server = await startTwo();
    const { status, body } = await server.ask('POST', '/api/builds/two/place', { body: { before: 'one' } });
    expect([status, body['place']]).toEqual([200, 1]);
    expect(await idsOf(server)).toEqual(['two', 'one']);
    expect(startOf(await planOf(server, 'two'))).toBe('2027-03-11T18:30');
    expect(startOf(await planOf(server, 'one'))).toBe('2027-03-13T09:00');
    await server.ask('POST', '/api/builds/two/place', { body: { before: null } });
    expect(await idsOf(server)).toEqual(['one', 'two']);
  });

  it('should survive a restart, and new builds should come last', async () => {
    const server = await startTwo();
    await server.ask('POST', '/api/builds/two/place', { body: { before: 'one' } });
    await server.close();
    const again = await startServer({ folder: server.folder });
    await again.ask('POST', '/api/builds', { body: buildCalled('Three', 'tor') });
    expect(await idsOf(again)).toEqual(['two', 'one', 'three']);
  });

  it('should stay where a build is put before itself, and refuse what is not there', async () => {
    const server = await startTwo();
    await server.ask('POST', '/api/builds/two/place', { body: { before: 'two' } });
    expect(await idsOf(server)).toEqual(['one', 'two']);
    const nobody = await server.ask('POST', '/api/builds/two/place', { body: { before: 'nobody' } });
    expect([nobody.status, nobody.body['type']]).toEqual([404, '/problems/not-found']);
    const wrong = await server.ask('POST', '/api/builds/two/place', { body: { after: 'one' } });
    expect([wrong.status, (wrong.body['errors'] as Loose[])[0]!['pointer']]).toEqual([400, '/before']);
    expect((await server.ask('POST', '/api/builds/nobody/place', { body: { before: null } })).status).toBe(
      404,
    );
  });
});

describe('a build put away', () => {
  it('should take nobody from others, keep all it has and come back to its place', async () => {
    const server = await startTwo();
    const before = await server.snapshot('one');
    const { status, body } = await server.ask('POST', '/api/builds/one/archive');
    expect([status, body['archivedAt']]).toEqual([200, expect.stringMatching(/^\d{4}-.*Z$/)]);
    expect(startOf(await planOf(server, 'two'))).toBe('2027-03-11T18:30');
    expect(await server.snapshot('one')).toEqual(before);
    const twice = await server.ask('POST', '/api/builds/one/archive');
    expect(twice.body['archivedAt']).toBe(body['archivedAt']);
    const back = await server.ask('POST', '/api/builds/one/bring-back');
    expect([back.body['archivedAt'], back.body['place']]).toEqual([null, 1]);
    expect(startOf(await planOf(server, 'two'))).toBe('2027-03-13T09:00');
    expect((await server.ask('POST', '/api/builds/nobody/archive')).status).toBe(404);
  });
});

describe('a build in short', () => {
  it('should say where it stands by its plan', async () => {
    const server = await startTwo();
    const { body } = await server.ask('GET', '/api/builds/two');
    const plan = await planOf(server, 'two');
    expect(body).toMatchObject({
      name: 'Two',
      place: 2,
      people: [{ key: 'tor', name: 'Tor', sharedAs: 'tor' }],
      finishOn: plan.finish.dates!.slice(0, 10),
      complete: plan.progress.complete,
      tasks: 1,
      finished: 0,
    });
  });
});

describe('a copy of a build', () => {
  it('should be whole under another name, but for timers and history', async () => {
    const server = await startFull();
    await server.ask('PATCH', `/api/builds/${FULL}/phases/first-fix`, { body: { budget: 1 }, version: 1 });
    const before = await server.snapshot();
    const copied = await copy(server, { name: 'Full again', as: 'whole' });
    expect([copied.status, copied.headers['location'], copied.body['id']]).toEqual([
      201,
      '/api/builds/full-again',
      'full-again',
    ]);
    const { file, canUndo } = await server.snapshot('full-again');
    expect(file).toEqual({ ...before.file, build: { ...before.file.build, name: 'Full again' }, timers: [] });
    expect(canUndo).toBeNull();
    expect(await server.snapshot()).toEqual(before);
  });

  it('should keep as a template how it is built and drop what happened', async () => {
    const server = await startFull();
    const { file: first } = await server.snapshot();
    await copy(server, { name: 'Next', as: 'template', startOn: '2027-06-05' });
    const { file } = await server.snapshot('next');
    expect(file.build).toMatchObject({
      name: 'Next',
      startOn: '2027-06-05',
      asOf: null,
      targetFinishOn: null,
    });
    for (const noun of ['hours', 'timers', 'records', 'weighings', 'baselines'] as const)
      expect([noun, file[noun]]).toEqual([noun, []]);
    expect(file.tasks.map(({ key, minutes, places }) => ({ key, minutes, places }))).toEqual(
      first.tasks.map(({ key, minutes, places }) => ({ key, minutes, places })),
    );
    expect(file.links).toEqual(first.links);
    for (const { state, startedAt, steps, holdPoints } of file.tasks) {
      expect([state, startedAt]).toEqual(['not-started', null]);
      expect(steps.every(({ done }) => !done)).toBe(true);
      expect(holdPoints.flatMap(({ attempts }) => attempts)).toEqual([]);
    }
    for (const { state, payments, deliveries, receipts, orderedOn } of file.purchases)
      expect([state, payments, deliveries, receipts, orderedOn]).toEqual(['wanted', [], [], [], null]);
    expect(file.purchases.flatMap(({ lines }) => lines.map(({ unitPrice }) => unitPrice))).toEqual(
      first.purchases.flatMap(({ lines }) => lines.map(({ unitPrice }) => unitPrice)),
    );
  });

  it('should begin today where nothing is said, and be refused by the name of the field', async () => {
    const server = await startFull();
    await copy(server, { name: 'Next', as: 'template' });
    expect((await server.snapshot('next')).file.build.startOn).toBe(NOW.slice(0, 10));
    for (const [body, pointer] of [
      [{ name: '', as: 'whole' }, '/name'],
      [{ name: 'x', as: 'half' }, '/as'],
      [{ name: 'x', as: 'template', startOn: '2027-02-30' }, '/startOn'],
      [{ as: 'whole' }, '/name'],
    ] as const) {
      const refused = await copy(server, body);
      expect([refused.status, (refused.body['errors'] as Loose[])[0]!['pointer']]).toEqual([400, pointer]);
    }
    expect(await idsOf(server)).toEqual([FULL, 'next']);
  });
});

describe('who listens to a later build', () => {
  it('should hear that an earlier one changed, was put away or moved, and nothing of builds that share nobody', async () => {
    const server = await startTwo();
    await server.ask('POST', '/api/builds', { body: buildCalled('Three', null) });
    const hear = await listen(server, 'two');
    expect(await hear()).toBe('hello');
    await server.ask('PATCH', '/api/builds/three/tasks/x', { body: { note: 'Not felt' }, version: 1 });
    await server.ask('PATCH', '/api/builds/one/tasks/x', { body: { note: 'Felt' }, version: 1 });
    expect(await hear()).toBe('elsewhere');
    await server.ask('PATCH', '/api/builds/two/tasks/x', { body: { note: 'Own' }, version: 1 });
    expect(await hear()).toBe('changed');
    for (const deed of ['archive', 'bring-back']) {
      await server.ask('POST', `/api/builds/one/${deed}`);
      expect(await hear()).toBe('elsewhere');
    }
    await server.ask('POST', '/api/builds/one/place', { body: { before: null } });
    expect(await hear()).toBe('elsewhere');
    const { body } = await server.ask('GET', '/api/builds/one');
    await server.ask('DELETE', '/api/builds/one', { version: body['revision'] as number });
    expect(await hear()).toBe('elsewhere');
  });
});

// Helpers

function buildCalled(name: string, sharedAs: string | null): object {
  return document({
    build: { name, startOn: '2027-03-08', asOf: null },
    people: [{ key: 'tor', name: 'Tor', sharedAs, week: EVENINGS }],
    tasks: [task('x', 150)],
  });
}

/** Two builds of one task each, an evening long. */
function startTwo({ sharedAs = 'tor' }: { sharedAs?: string | null } = {}): Promise<TestServer> {
  return startServer({ builds: [buildCalled('One', sharedAs), buildCalled('Two', sharedAs)] });
}

async function planOf(server: TestServer, build: string): Promise<Plan & { elsewhere?: unknown }> {
  return (await server.ask('GET', `/api/builds/${build}/plan`)).body as unknown as Plan;
}

function startOf({ tasks }: Plan): string {
  return tasks['x']!.dates!.start;
}

async function idsOf(server: TestServer): Promise<unknown[]> {
  const { body } = await server.ask('GET', '/api/builds');
  return (body as unknown as Loose[]).map(({ id }) => id);
}

function copy(server: TestServer, body: object) {
  return server.ask('POST', `/api/builds/${FULL}/copy`, { body });
}

/** The names of the events of a build, one after another. */
async function listen(server: TestServer, build: string): Promise<() => Promise<string>> {
  const address = await server.listen();
  const leave = new AbortController();
  onTestFinished(() => leave.abort());
  const response = await fetch(`${address}/api/builds/${build}/events`, { signal: leave.signal });
  const reader = response.body!.pipeThrough(new TextDecoderStream()).getReader();
  let text = '';
  return async () => {
    for (;;) {
      const found = /event: (\w+)\n[\s\S]*?\n\n/.exec(text);
      if (found !== null) {
        text = text.slice(found.index + found[0].length);
        return found[1]!;
      }
      const { value, done } = await reader.read();
      if (done) throw new Error('The events ended.');
      text += value;
    }
  };
}
