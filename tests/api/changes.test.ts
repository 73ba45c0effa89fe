/** Several rows as one action: all of it or nothing, one step back, and the history of it all. */
import { describe, expect, it } from 'vitest';
import type { Edit, HistoryEntry } from '#shared/contract/changes.ts';
import type { OrderError } from '#shared/contract/plan.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { withRows } from '#shared/changes/apply.ts';
import type { Loose } from '../support/full-document.ts';
import {
  changedOf,
  FULL,
  startFull,
  startServer,
  type Snapshot,
  type TestServer,
} from '../support/server.ts';

describe('a change of several rows', () => {
  it('should be one action: one revision, one undo', async () => {
    const server = await startFull();
    const before = await server.snapshot();
    const changed = changedOf(
      await server.change(renamed(before, 'close-wall', 'line-wall'), 'Rename the wall'),
    );
    expect(changed).toMatchObject({
      revision: 2,
      label: 'Rename the wall',
      who: 'builder',
      canUndo: 'Rename the wall',
      canRedo: null,
    });
    const after = await server.snapshot();
    expect(after.file.tasks.map(({ key }) => key)).toEqual(['hose-test', 'pull-cables', 'line-wall']);
    expect(after.file.exceptions[0]!.cover).toBe('line-wall');
    expect(after.file.order).toEqual(['pull-cables', 'line-wall']);

    const undone = changedOf(await server.ask('POST', `/api/builds/${FULL}/undo`));
    expect(undone).toMatchObject({ revision: 3, canUndo: null, canRedo: 'Rename the wall' });
    expect((await server.snapshot()).file).toEqual(before.file);
    changedOf(await server.ask('POST', `/api/builds/${FULL}/redo`));
    expect((await server.snapshot()).file).toEqual(after.file);
  });

  it('should tell its rows so that a client has what the server has', async () => {
    const server = await startFull();
    let { file } = await server.snapshot();
    const steps = [
      () => server.snapshot().then((now) => server.change(renamed(now, 'close-wall', 'line-wall'))),
      () => server.ask('POST', `/api/builds/${FULL}/undo`),
      () => server.ask('POST', `/api/builds/${FULL}/redo`),
      () =>
        server.change([
          {
            noun: 'depths',
            id: 'services',
            version: 1,
            value: { key: 'services', name: 'runs', hatch: 'wire' },
            at: 0,
          },
        ]),
      () => server.ask('POST', `/api/builds/${FULL}/undo`),
    ];
    for (const step of steps) {
      file = withRows(file, changedOf(await step()).rows);
      expect(file).toEqual((await server.snapshot()).file);
    }
  });

  it('should be all or nothing', async () => {
    const server = await startFull();
    const before = await server.snapshot();
    const good = {
      noun: 'phases',
      id: 'water',
      version: null,
      value: { key: 'water', name: 'Water', budget: 0 },
    } as const;
    for (const [bad, status] of [
      [{ noun: 'phases', id: 'first-fix', version: 9, value: before.file.phases[0]! }, 412],
      [{ noun: 'phases', id: 'nobody', version: 1, value: null }, 404],
      [{ noun: 'phases', id: 'roof', version: null, value: { key: 'roof', name: 5 } }, 422],
      [{ noun: 'tasks', id: 'close-wall', version: 1, value: null }, 422],
    ] as [Edit, number][]) {
      expect((await server.change([good, bad])).status).toBe(status);
      expect(await server.snapshot()).toEqual(before);
    }
  });

  it.each([
    [
      'a record that is not whole',
      { noun: 'phases', id: 'w', version: null, value: { key: 'w', name: 'W' } },
      '/edits/0/value/budget',
    ],
    [
      'a record under another id',
      { noun: 'phases', id: 'w', version: null, value: { key: 'x', name: 'W', budget: 0 } },
      '/edits/0/value',
    ],
    ['a head that is gone', { noun: 'build', id: 'build', version: 1, value: null }, '/edits/0/value'],
    [
      'a field that is none',
      { noun: 'phases', id: 'w', version: null, value: { key: 'w', name: 'W', budget: 0, x: 1 } },
      '/edits/0/value/x',
    ],
  ] as [string, Edit, string][])('should refuse %s, and say where', async (_what, edit, pointer) => {
    const server = await startFull();
    const { status, body } = await server.change([edit]);
    expect([status, (body['errors'] as Loose[])[0]!['pointer']]).toEqual([422, pointer]);
  });

  it('should refuse to name a row twice', async () => {
    const server = await startFull();
    const { file } = await server.snapshot();
    const edit: Edit = { noun: 'phases', id: 'first-fix', version: 1, value: file.phases[0]! };
    const { status, body } = await server.change([edit, edit]);
    expect([status, (body['errors'] as Loose[])[0]!['pointer']]).toEqual([422, '/edits/1']);
  });

  it.each([
    ['no body', undefined, ''],
    ['a list', [], ''],
    ['no label', { edits: [] }, '/label'],
    ['no edits', { label: 'x', edits: [] }, '/edits'],
    [
      'a label of two lines',
      { label: 'a\nb', edits: [{ noun: 'phases', id: 'x', version: null, value: null }] },
      '/label',
    ],
    [
      'a noun there is none of',
      { label: 'x', edits: [{ noun: 'wheels', id: 'x', version: null, value: null }] },
      '/edits/0/noun',
    ],
    [
      'a version as text',
      { label: 'x', edits: [{ noun: 'phases', id: 'x', version: '1', value: null }] },
      '/edits/0/version',
    ],
    [
      'a word too much',
      { label: 'x', edits: [{ noun: 'phases', id: 'x', version: 1, value: null, y: 1 }] },
      '/edits/0/y',
    ],
  ])('should refuse a request with %s', async (_what, body, pointer) => {
    const server = await startFull();
    const refused = await server.ask('POST', `/api/builds/${FULL}/changes`, { body });
    expect(refused.status).toBe(400);
    expect((refused.body['errors'] as Loose[]).map((error) => error['pointer'])).toContain(pointer);
  });

  it('should be written by one of two who read the same', async () => {
    const server = await startFull();
    const { file } = await server.snapshot();
    const edit = (name: string): Edit => ({
      noun: 'phases',
      id: 'first-fix',
      version: 1,
      value: { ...file.phases[0]!, name },
    });
    const answers = await Promise.all(['A', 'B', 'C'].map((name) => server.change([edit(name)])));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 412, 412]);
  });
});

describe('the place in a list', () => {
  it('should be given to a new record, taken by one that moves, and come back with undo', async () => {
    const server = await startFull();
    const keys = async () => (await server.snapshot()).file.depths.map(({ key }) => key);
    const { file } = await server.snapshot();
    const depth = (key: string) => ({ key, name: key, hatch: 'plain' as const });
    const states = [await keys()];
    const edits: Edit[] = [
      { noun: 'depths', id: 'damping', version: null, value: depth('damping'), at: 1 },
      { noun: 'depths', id: 'finish', version: 1, value: file.depths[2]!, at: 0 },
      { noun: 'depths', id: 'wax', version: null, value: depth('wax'), at: 99 },
      { noun: 'depths', id: 'metal', version: 1, value: file.depths[0]!, at: 2 },
    ];
    for (const edit of edits) {
      changedOf(await server.change([edit]));
      states.push(await keys());
    }
    expect(states.slice(1)).toEqual([
      ['metal', 'damping', 'services', 'finish'],
      ['finish', 'metal', 'damping', 'services'],
      ['finish', 'metal', 'damping', 'services', 'wax'],
      ['finish', 'damping', 'metal', 'services', 'wax'],
    ]);
    for (const expected of states.slice(0, 4).toReversed()) {
      await server.ask('POST', `/api/builds/${FULL}/undo`);
      expect(await keys()).toEqual(expected);
    }
  });

  it('should be where it was when a removed record comes back', async () => {
    const server = await startFull();
    const tools = ['drill', 'press', 'lift'].map((key): Edit => ({
      noun: 'tools',
      id: key,
      version: null,
      value: { key, name: key, only: [] },
    }));
    changedOf(await server.change(tools));
    const { file } = await server.snapshot();
    changedOf(await server.change([{ noun: 'tools', id: 'drill', version: 1, value: null }]));
    const undone = changedOf(await server.ask('POST', `/api/builds/${FULL}/undo`));
    expect(undone.rows).toMatchObject([{ id: 'drill', at: 1 }]);
    expect((await server.snapshot()).file).toEqual(file);
  });
});

describe('undo and redo', () => {
  it('should say so when there is nothing left', async () => {
    const server = await startFull();
    const ask = async (what: string) =>
      (await server.ask('POST', `/api/builds/${FULL}/${what}`)).body['type'];
    expect(await ask('undo')).toBe('/problems/nothing-to-undo');
    expect(await ask('redo')).toBe('/problems/nothing-to-redo');
    await rename(server, 'A', 1);
    expect(await ask('redo')).toBe('/problems/nothing-to-redo');
    await ask('undo');
    expect(await ask('undo')).toBe('/problems/nothing-to-undo');
  });

  it('should forget what was taken back once something new is done', async () => {
    const server = await startFull();
    await rename(server, 'A', 1);
    await server.ask('POST', `/api/builds/${FULL}/undo`);
    await rename(server, 'B', 3);
    expect(await server.snapshot()).toMatchObject({
      canUndo: expect.stringContaining('task') as string,
      canRedo: null,
    });
    expect((await server.ask('POST', `/api/builds/${FULL}/redo`)).status).toBe(409);
    await server.ask('POST', `/api/builds/${FULL}/undo`);
    expect((await server.snapshot()).file.tasks[2]!.name).toBe('Close the wall');
  });

  it('should leave a writer who read the row before it behind', async () => {
    const server = await startFull();
    await rename(server, 'A', 1);
    await server.ask('POST', `/api/builds/${FULL}/undo`);
    for (const version of [1, 2]) expect((await rename(server, 'B', version)).status).toBe(412);
    expect((await rename(server, 'B', 3)).status).toBe(200);
  });

  it('should keep to their own build', async () => {
    const server = await startFull({ builds: [] });
    const { fullDocument } = await import('../support/full-document.ts');
    for (let i = 0; i < 2; i++) await server.ask('POST', '/api/builds', { body: fullDocument() });
    await rename(server, 'A', 1);
    expect((await server.ask('POST', '/api/builds/full-2/undo')).status).toBe(409);
    expect((await server.snapshot('full-2')).revision).toBe(1);
    expect((await server.snapshot()).file.tasks[2]!.name).toBe('A');
  });
});

describe('a repair', () => {
  it('should be applied as the plan suggests it, change the plan, and be taken back at once', async () => {
    const server = await startServer({ builds: [wagtail()] });
    const plan = async () =>
      (await server.ask('GET', '/api/builds/wagtail/plan')).body as unknown as {
        provisional: boolean;
        errors: OrderError[];
      };
    const before = await plan();
    expect(before.provisional).toBe(true);
    const repair = before.errors.find(({ rule }) => rule === 'wrong-order')!.repair!;
    const changed = await server.ask('POST', '/api/builds/wagtail/repairs', { body: { repair } });
    expect(changedOf(changed)).toMatchObject({ revision: 2, canUndo: expect.stringMatching(/./) as string });
    const after = await plan();
    expect(after.provisional).toBe(false);
    expect(after.errors.map(({ rule }) => rule)).not.toContain('wrong-order');
    const gone = await server.ask('POST', '/api/builds/wagtail/repairs', { body: { repair } });
    expect([gone.status, gone.body['type']]).toEqual([409, '/problems/repair-gone']);
    await server.ask('POST', '/api/builds/wagtail/undo');
    expect(await plan()).toEqual(before);
  });

  it('should sign as who and when it is told, and else as the first person now', async () => {
    const server = await startFull();
    const repair = { kind: 'sign', task: 'hose-test', holdPoint: 'dry' };
    const attempts = async () => (await server.snapshot()).file.tasks[0]!.holdPoints[0]!.attempts;
    await server.ask('POST', `/api/builds/${FULL}/repairs`, { body: { repair } });
    expect((await attempts())[1]).toMatchObject({ at: '2027-03-10T08:00', by: 'ines', pass: true });
    await server.ask('POST', `/api/builds/${FULL}/repairs`, {
      body: { repair, by: 'ines', at: '2027-03-09T10:00' },
    });
    expect((await attempts())[2]).toMatchObject({ at: '2027-03-09T10:00', by: 'ines' });
    const nobody = await server.ask('POST', `/api/builds/${FULL}/repairs`, {
      body: { repair, by: 'nobody' },
    });
    expect(nobody.status).toBe(422);
    expect(await attempts()).toHaveLength(3);
  });

  it('should put the part of a split task behind the whole in the list', async () => {
    const server = await startFull();
    const zone = { zone: 'T', depth: 'metal', hides: null };
    const { file } = await server.snapshot();
    const body = { places: [...file.tasks[0]!.places, zone] };
    await server.ask('PATCH', `/api/builds/${FULL}/tasks/hose-test`, { body, version: 1 });
    const repair = { kind: 'split', task: 'hose-test', zone: 'T' };
    changedOf(await server.ask('POST', `/api/builds/${FULL}/repairs`, { body: { repair } }));
    const keys = (await server.snapshot()).file.tasks.map(({ key }) => key);
    expect(keys).toEqual(['hose-test', 'hose-test-T', 'pull-cables', 'close-wall']);
  });

  it('should not be an action when nothing would change', async () => {
    const server = await startFull();
    const repair = { kind: 'drop-place', task: 'hose-test', zone: 'T', depth: 'metal' };
    const { status, body } = await server.ask('POST', `/api/builds/${FULL}/repairs`, { body: { repair } });
    expect([status, body['type']]).toEqual([409, '/problems/repair-gone']);
    expect((await server.snapshot()).revision).toBe(1);
  });

  it('should be refused when it is none', async () => {
    const server = await startFull();
    const { status, body } = await server.ask('POST', `/api/builds/${FULL}/repairs`, {
      body: { repair: { kind: 'paint' } },
    });
    expect([status, body['type']]).toEqual([400, '/problems/bad-request']);
  });
});

describe('the history', () => {
  it('should tell who did what, with each row as it was and became, newest first', async () => {
    const server = await startFull();
    const url = `/api/builds/${FULL}/phases/first-fix`;
    await server.ask('PATCH', url, {
      body: { budget: 7 },
      version: 1,
      headers: { 'x-who': encodeURIComponent('Inês ☃') },
    });
    await server.ask('POST', `/api/builds/${FULL}/undo`);
    const entries = (await server.ask('GET', `/api/builds/${FULL}/history`))
      .body as unknown as HistoryEntry[];
    expect(entries).toMatchObject([
      {
        revision: 3,
        kind: 'undo',
        who: 'builder',
        label: 'Change phase “First-fix electrics”',
        rows: [{ before: { budget: 7 }, after: { budget: 150_000 } }],
      },
      {
        revision: 2,
        kind: 'do',
        state: 'undone',
        who: 'Inês ☃',
        rows: [{ noun: 'phases', id: 'first-fix', before: { budget: 150_000 }, after: { budget: 7 } }],
      },
    ]);
    expect(entries.every(({ at }) => !Number.isNaN(Date.parse(at)))).toBe(true);
  });

  it('should come in pages, none twice and none left out', async () => {
    const server = await startFull();
    for (let i = 1; i <= 7; i++) await rename(server, `Name ${i}`, i);
    const seen: number[] = [];
    let before = '';
    for (;;) {
      const url = `/api/builds/${FULL}/history?limit=3${before}`;
      const page = (await server.ask('GET', url)).body as unknown as HistoryEntry[];
      if (page.length === 0) break;
      seen.push(...page.map(({ revision }) => revision));
      before = `&before=${page.at(-1)!.action}`;
    }
    expect(seen).toEqual([8, 7, 6, 5, 4, 3, 2]);
  });

  it.each(['limit=0', 'limit=x', 'limit=1000', 'before=-1', 'colour=red'])(
    'should refuse ?%s',
    async (query) => {
      const server = await startFull();
      const { status, body } = await server.ask('GET', `/api/builds/${FULL}/history?${query}`);
      expect([status, (body['errors'] as Loose[])[0]!['pointer']]).toEqual([400, `/${query.split('=')[0]!}`]);
    },
  );

  it('should call whoever gives no readable name the builder', async () => {
    const server = await startFull();
    for (const [i, who] of ['%E0%A4%A', '%0A', '', 'x'.repeat(2000)].entries()) {
      const answer = await server.ask('PATCH', `/api/builds/${FULL}/tasks/close-wall`, {
        body: { name: `N${i}` },
        version: i + 1,
        headers: { 'x-who': who },
      });
      expect(answer.status).toBe(200);
    }
    const entries = (await server.ask('GET', `/api/builds/${FULL}/history`))
      .body as unknown as HistoryEntry[];
    expect(entries.map(({ who }) => who)).toEqual(Array(4).fill('builder'));
  });
});

// Helpers

function rename(server: TestServer, name: string, version: number) {
  return server.ask('PATCH', `/api/builds/${FULL}/tasks/close-wall`, { body: { name }, version });
}

/** A task under another key: one record goes, one comes, and all that points at it follows. */
function renamed({ file, versions }: Snapshot, from: string, to: string): Edit[] {
  const task = file.tasks.find(({ key }) => key === from)!;
  const version = (noun: string, id: string) => versions[noun]![id]!;
  const swap = (key: string) => (key === from ? to : key);
  return [
    { noun: 'tasks', id: from, version: version('tasks', from), value: null },
    { noun: 'tasks', id: to, version: null, value: { ...task, key: to } },
    ...file.exceptions.flatMap((pair): Edit[] => [
      {
        noun: 'exceptions',
        id: `${pair.inner}~${pair.cover}`,
        version: version('exceptions', `${pair.inner}~${pair.cover}`),
        value: null,
      },
      {
        noun: 'exceptions',
        id: `${swap(pair.inner)}~${swap(pair.cover)}`,
        version: null,
        value: { ...pair, inner: swap(pair.inner), cover: swap(pair.cover) },
      },
    ]),
    ...file.decisions.map((one): Edit => ({
      noun: 'decisions',
      id: one.key,
      version: version('decisions', one.key),
      value: { ...one, locksTasks: one.locksTasks.map(swap) },
    })),
    ...file.purchases.map((one): Edit => ({
      noun: 'purchases',
      id: one.key,
      version: version('purchases', one.key),
      value: { ...one, lines: one.lines.map((line) => ({ ...line, neededBy: line.neededBy.map(swap) })) },
    })),
    {
      noun: 'build',
      id: 'build',
      version: version('build', 'build'),
      value: { ...file.build, order: file.order.map(swap) },
    },
  ];
}
