/** Whole builds: the list, in and out as a file, the snapshot a client keeps, the plan, and removing one. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Value } from 'typebox/value';
import { describe, expect, it } from 'vitest';
import { BuildFile } from '#shared/contract/build-file.ts';
import { NOUN_NAMES } from '#shared/contract/nouns.ts';
import { Plan } from '#shared/contract/plan.ts';
import { readBuild } from '#shared/contract/read.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { computePlan } from '#shared/plan.ts';
import { fullDocument, type Loose } from '../support/full-document.ts';
import { countRows, FULL, NOW, startFull, startServer } from '../support/server.ts';

describe('the list of builds', () => {
  it('should be empty in an empty store', async () => {
    const server = await startServer();
    expect((await server.ask('GET', '/api/builds')).body).toEqual([]);
  });

  it('should name each build with its vehicle and revision', async () => {
    const server = await startFull();
    const { body } = await server.ask('GET', '/api/builds');
    const summary = {
      id: FULL,
      name: 'Full',
      vehicle: 'high-roof panel van',
      revision: 1,
      createdAt: expect.stringMatching(/^\d{4}-.*Z$/) as string,
      archivedAt: null,
      place: 1,
      people: [
        { key: 'ines', name: 'Ines', sharedAs: 'ines' },
        { key: 'bea', name: 'Bea', sharedAs: null },
      ],
    };
    expect(body).toEqual([summary]);
    const one = (await server.ask('GET', `/api/builds/${FULL}`)).body;
    expect(one).toMatchObject(summary);
    // Where it stands by its plan is held against the library in the tests of several builds.
    expect(Object.keys(one)).toEqual([...Object.keys(summary), 'finishOn', 'complete', 'tasks', 'finished']);
  });
});

describe('taking in a build file', () => {
  it('should answer where the build is', async () => {
    const server = await startServer();
    const { status, headers, body } = await server.ask('POST', '/api/builds', { body: fullDocument() });
    expect([status, headers['location'], body['id']]).toEqual([201, '/api/builds/full', 'full']);
  });

  it('should make an id of the name, free in the store', async () => {
    const server = await startServer();
    const ids: unknown[] = [];
    for (const name of ['Été 2027!', 'été 2027', '日本', '日本', 'builds']) {
      const document = fullDocument();
      document['build'] = { ...(document['build'] as Loose), name };
      ids.push((await server.ask('POST', '/api/builds', { body: document })).body['id']);
    }
    expect(ids).toEqual(['e-te-2027', 'e-te-2027-2', 'build', 'build-2', 'builds']);
  });

  it('should leave not one row of a file it refuses', async () => {
    const server = await startFull();
    const before = countRows(server);
    for (const spoil of [
      (document: Loose) => ((document['build'] as Loose)['startOn'] = '2026-02-30'),
      (document: Loose) => ((document['baselines'] as Loose[])[0]!['colour'] = 'red'),
      (document: Loose) => ((document['weighings'] as Loose[])[0]!['front'] = '5'),
      (document: Loose) => ((document['links'] as Loose[])[0]!['to'] = 'nobody'),
    ]) {
      const document = fullDocument();
      spoil(document);
      const { status, body } = await server.ask('POST', '/api/builds', { body: document });
      expect([status, body['type']]).toEqual([422, '/problems/bad-build']);
      expect(body['errors']).toHaveLength(1);
    }
    expect(countRows(server)).toEqual(before);
  });

  it('should name every field that is wrong', async () => {
    const server = await startServer();
    const document = { ...fullDocument(), colour: 'red', tasks: [{ key: 'a b' }] };
    const { body } = await server.ask('POST', '/api/builds', { body: document });
    const pointers = (body['errors'] as Loose[]).map(({ pointer }) => pointer);
    expect(pointers).toEqual(
      expect.arrayContaining(['/colour', '/tasks/0/name', '/tasks/0/key', '/tasks/0/minutes']),
    );
  });

  it('should take the demo, and give it back as it was', async () => {
    const server = await startServer({ builds: [wagtail()] });
    const { body, headers } = await server.ask('GET', '/api/builds/wagtail/file');
    expect(headers['content-disposition']).toBe('attachment; filename="wagtail.json"');
    expect(withoutGivenKeys(body)).toEqual(withoutGivenKeys(wagtail() as unknown as Loose));
    expect(readBuild(body)).toEqual(body);
  });

  it('should give out, take in and give out the same text', async () => {
    const server = await startServer({ builds: [wagtail(), fullDocument()] });
    for (const id of ['wagtail', FULL]) {
      const first = await server.ask('GET', `/api/builds/${id}/file`);
      const { body } = await server.ask('POST', '/api/builds', { text: first.text });
      const second = await server.ask('GET', `/api/builds/${String(body['id'])}/file`);
      expect(second.text).toBe(first.text);
    }
  });
});

describe('the snapshot', () => {
  it('should have the whole build, and a version for every row and no other', async () => {
    const server = await startFull();
    const { file, versions, revision, canUndo, canRedo } = await server.snapshot();
    expect(Value.Check(BuildFile, file)).toBe(true);
    expect(withoutGivenKeys(file as unknown as Loose)).toEqual(
      withoutGivenKeys(readBuild(fullDocument()) as unknown as Loose),
    );
    expect([revision, canUndo, canRedo]).toEqual([1, null, null]);
    expect(Object.keys(versions).sort()).toEqual(['build', ...NOUN_NAMES].sort());
    expect(versions['build']).toEqual({ build: 1 });
    for (const noun of NOUN_NAMES) expect(Object.keys(versions[noun]!)).toHaveLength(file[noun].length);
    expect(versions['links']).toEqual({ 'hose-test~pull-cables~FS': 1 });
  });

  it('should not be sent again to whoever has it, until something is written', async () => {
    const server = await startFull();
    const url = `/api/builds/${FULL}/snapshot`;
    const { headers } = await server.ask('GET', url);
    const known = { 'if-none-match': String(headers['etag']) };
    expect((await server.ask('GET', url, { headers: known })).status).toBe(304);
    await server.ask('PATCH', `/api/builds/${FULL}/phases/first-fix`, { body: { budget: 1 }, version: 1 });
    const after = await server.ask('GET', url, { headers: known });
    expect([after.status, after.body['revision']]).toEqual([200, 2]);
    expect(after.headers['etag']).not.toBe(headers['etag']);
  });
});

describe('the plan', () => {
  it('should be the one the library computes of the build', async () => {
    const server = await startServer({ builds: [wagtail()] });
    const { file } = await server.snapshot('wagtail');
    const { status, body } = await server.ask('GET', '/api/builds/wagtail/plan');
    expect(status).toBe(200);
    expect(Value.Check(Plan, body)).toBe(true);
    expect(body).toEqual(JSON.parse(JSON.stringify(computePlan(file, { now: NOW }))));
  });

  it('should follow every change and its undo', async () => {
    const server = await startFull();
    const url = `/api/builds/${FULL}/plan`;
    const minutes = async () =>
      ((await server.ask('GET', url)).body['tasks'] as Record<string, Loose>)['close-wall']!['minutes'];
    const before = await minutes();
    const body = { minutes: { low: 10, likely: 10, high: 10 } };
    await server.ask('PATCH', `/api/builds/${FULL}/tasks/close-wall`, { body, version: 1 });
    const after = await minutes();
    expect(after).not.toEqual(before);
    await server.ask('POST', `/api/builds/${FULL}/undo`);
    expect(await minutes()).toEqual(before);
  });

  it('should look at a build without an as-of date from the moment that is asked for', async () => {
    const document = fullDocument();
    document['build'] = { ...(document['build'] as Loose), asOf: null };
    const server = await startServer({ builds: [document] });
    const asOf = async (query: string) =>
      (await server.ask('GET', `/api/builds/${FULL}/plan${query}`)).body['asOf'];
    expect(await asOf('')).toBe(NOW);
    expect(await asOf('?now=2027-05-01T10:00')).toBe('2027-05-01T10:00');
    expect(await asOf('')).toBe(NOW);
  });

  it.each([
    ['?now=tomorrow', '/now'],
    ['?now=2027-02-30T10:00', '/now'],
    ['?when=2027-05-01T10:00', '/when'],
  ])('should refuse %s by name', async (query, pointer) => {
    const server = await startFull();
    const { status, body } = await server.ask('GET', `/api/builds/${FULL}/plan${query}`);
    expect([status, (body['errors'] as Loose[])[0]!['pointer']]).toEqual([400, pointer]);
  });
});

describe('the head of a build', () => {
  const url = `/api/builds/${FULL}/head`;

  it('should be changed like a record, with its own version, and taken back', async () => {
    const server = await startFull();
    const before = (await server.ask('GET', url)).body;
    expect(before).toMatchObject({
      id: 'build',
      version: 1,
      value: { name: 'Full', order: ['pull-cables', 'close-wall'] },
    });
    const changed = await server.ask('PATCH', url, { body: { name: 'Fuller', limits: null }, version: 1 });
    expect(changed.body).toMatchObject({
      version: 2,
      value: { name: 'Fuller', limits: null, vehicle: 'high-roof panel van' },
    });
    expect(changed.headers['etag']).toBe('"2"');
    await server.ask('POST', `/api/builds/${FULL}/undo`);
    expect((await server.ask('GET', url)).body).toEqual({ ...before, version: 3 });
  });

  it('should be replaced whole', async () => {
    const server = await startFull();
    const body = { name: 'New', startOn: '2026-06-06', order: ['close-wall'] };
    const { status, body: head } = await server.ask('PUT', url, { body, version: 1 });
    expect(status).toBe(200);
    expect(head['value']).toMatchObject({
      ...body,
      asOf: null,
      budget: null,
      pace: { use: true, prior: 1.5 },
    });
  });

  it('should refuse what does not fit, a stale version and none', async () => {
    const server = await startFull();
    const before = await server.snapshot();
    const order = await server.ask('PATCH', url, { body: { order: ['nobody'] }, version: 1 });
    expect([order.status, (order.body['errors'] as Loose[])[0]!['pointer']]).toEqual([422, '/order/0']);
    const early = await server.ask('PATCH', url, { body: { targetFinishOn: '2020-01-01' }, version: 1 });
    expect([early.status, (early.body['errors'] as Loose[])[0]!['pointer']]).toEqual([
      422,
      '/targetFinishOn',
    ]);
    expect((await server.ask('PATCH', url, { body: { name: 'x' }, version: 2 })).status).toBe(412);
    expect((await server.ask('PATCH', url, { body: { name: 'x' } })).status).toBe(428);
    expect(await server.snapshot()).toEqual(before);
  });
});

describe('removing a build', () => {
  it('should take all its rows and history, leave others alone, and keep a file of it', async () => {
    const empty = await startServer();
    const nothing = countRows(empty);
    const server = await startServer({ builds: [fullDocument(), wagtail()] });
    await server.ask('PATCH', `/api/builds/${FULL}/phases/first-fix`, { body: { budget: 1 }, version: 1 });
    const { file } = await server.snapshot();
    expect((await server.ask('DELETE', `/api/builds/${FULL}`, { version: 2 })).status).toBe(204);
    expect((await server.ask('GET', `/api/builds/${FULL}/snapshot`)).status).toBe(404);
    const kept = join(server.folder, 'backups', `${FULL}-revision-2.json`);
    expect(JSON.parse(readFileSync(kept, 'utf8'))).toEqual(file);
    expect((await server.snapshot('wagtail')).file.tasks).toHaveLength(wagtail().tasks.length);
    await server.ask('DELETE', '/api/builds/wagtail', { version: 1 });
    expect(countRows(server)).toEqual(nothing);
  });

  it('should not show an old plan under the same id again', async () => {
    const server = await startFull();
    await server.ask('GET', `/api/builds/${FULL}/plan`);
    await server.ask('DELETE', `/api/builds/${FULL}`, { version: 1 });
    const { tasks: _, links: _links, exceptions: _exceptions, order: _order, ...rest } = fullDocument();
    const document = {
      ...rest,
      hours: [],
      timers: [],
      records: [],
      baselines: [],
      purchases: [],
      decisions: [],
    };
    expect((await server.ask('POST', '/api/builds', { body: document })).body['id']).toBe(FULL);
    expect((await server.ask('GET', `/api/builds/${FULL}/plan`)).body['tasks']).toEqual({});
    expect((await server.snapshot()).file.tasks).toEqual([]);
  });

  it('should be refused to whoever has not read it as it is', async () => {
    const server = await startFull();
    expect((await server.ask('DELETE', `/api/builds/${FULL}`)).status).toBe(428);
    const stale = await server.ask('DELETE', `/api/builds/${FULL}`, { version: 5 });
    expect([stale.status, stale.body['found']]).toEqual([412, 1]);
    expect((await server.ask('DELETE', '/api/builds/nobody', { version: 1 })).status).toBe(404);
    expect((await server.snapshot()).revision).toBe(1);
    expect(
      existsSync(join(server.folder, 'backups')) ? readdirSync(join(server.folder, 'backups')) : [],
    ).toEqual([]);
  });
});

// Helpers

/** Hours, timers, records and weighings get a key in the store when they have none. */
function withoutGivenKeys(file: Loose): Loose {
  const out: Loose = { ...file };
  for (const noun of ['hours', 'timers', 'records', 'weighings'])
    out[noun] = (file[noun] as Loose[]).map((record) => ({ ...record, key: null }));
  return out;
}
