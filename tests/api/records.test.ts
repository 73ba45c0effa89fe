/** The records of every noun: in and out, changed only by whoever read them, taken back and done again. */
import { describe, expect, it } from 'vitest';
import { NOUN_NAMES, type NounName } from '#shared/contract/nouns.ts';
import { addressOf } from '../../server/routes/nouns.ts';
import type { Loose } from '../support/full-document.ts';
import { SAMPLES } from '../support/samples.ts';
import { FULL, startFull, type Answer, type TestServer } from '../support/server.ts';

describe.each(NOUN_NAMES)('%s', (noun) => {
  const { id: known, record, change, wrong, pointer } = SAMPLES[noun];

  it('should be listed in the order of the file, each with the version it was stored in', async () => {
    const server = await startFull();
    const { file } = await server.snapshot();
    const { status, body } = await server.ask('GET', listOf(noun));
    expect(status).toBe(200);
    expect((body as unknown as Loose[]).map(({ value }) => value)).toEqual(file[noun]);
    expect((body as unknown as Loose[]).map(({ version }) => version)).toEqual(file[noun].map(() => 1));
  });

  it('should take a new record, fill in what it leaves out, and say where it is', async () => {
    const server = await startFull();
    const made = await create(server, noun);
    expect(made.body).toMatchObject({ version: 1, value: record });
    expect(made.headers['etag']).toBe('"1"');
    if (known !== null) expect(made.body['id']).toBe(known);
    const read = await server.ask('GET', String(made.headers['location']));
    expect(read.body).toEqual(made.body);
    expect((await server.snapshot()).file[noun].at(-1)).toEqual(made.body['value']);
  });

  it('should change the fields that are sent and keep the rest', async () => {
    const server = await startFull();
    const made = await create(server, noun);
    const url = String(made.headers['location']);
    const changed = await server.ask('PATCH', url, { body: change, version: 1 });
    expect(changed.status).toBe(200);
    expect(changed.body).toMatchObject({ version: 2, value: change });
    expect({ ...(changed.body['value'] as Loose), ...pick(made, change) }).toEqual(made.body['value']);
    expect((await server.ask('GET', url)).body).toEqual(changed.body);
  });

  it('should be replaced whole, fields left out falling back to their defaults', async () => {
    const server = await startFull();
    const made = await create(server, noun);
    const url = String(made.headers['location']);
    await server.ask('PATCH', url, { body: change, version: 1 });
    const key = made.body['value'] as Loose;
    const body = 'key' in key ? { ...record, key: key['key'] } : record;
    const replaced = await server.ask('PUT', url, { body, version: 2 });
    expect(replaced.body).toEqual({ ...made.body, version: 3 });
  });

  it('should be removed, taken back step by step, and done again', async () => {
    const server = await startFull();
    const states = [await stateOf(server)];
    const keep = async (answer: Promise<Answer>) => {
      expect((await answer).status).toBeLessThan(300);
      states.push(await stateOf(server));
    };
    const made = await create(server, noun);
    states.push(await stateOf(server));
    const url = String(made.headers['location']);
    await keep(server.ask('PATCH', url, { body: change, version: 1 }));
    await keep(server.ask('DELETE', url, { version: 2 }));
    expect((await server.ask('GET', url)).status).toBe(404);
    expect(states[3]).toEqual(states[0]);

    for (const expected of states.slice(0, 3).toReversed()) {
      expect((await server.ask('POST', `/api/builds/${FULL}/undo`)).status).toBe(200);
      expect(await stateOf(server)).toEqual(expected);
    }
    for (const expected of states.slice(1)) {
      expect((await server.ask('POST', `/api/builds/${FULL}/redo`)).status).toBe(200);
      expect(await stateOf(server)).toEqual(expected);
    }
  });

  it('should come back above every version that anybody may have read', async () => {
    const server = await startFull();
    const url = String((await create(server, noun)).headers['location']);
    await server.ask('PATCH', url, { body: change, version: 1 });
    await server.ask('DELETE', url, { version: 2 });
    await server.ask('POST', `/api/builds/${FULL}/undo`);
    const back = (await server.ask('GET', url)).body['version'] as number;
    expect(back).toBeGreaterThan(2);
    await server.ask('DELETE', url, { version: back });
    const again = await create(server, noun, url.split('/').at(-1)!);
    expect(again.body['version']).toBeGreaterThan(back);
  });

  it('should refuse a change that is not right, name the field, and stay as it was', async () => {
    const server = await startFull();
    const made = await create(server, noun);
    const url = String(made.headers['location']);
    const before = await server.snapshot();
    const { status, body } = await server.ask('PATCH', url, { body: wrong, version: 1 });
    expect(status).toBe(422);
    expect(body['type']).toBe('/problems/bad-change');
    expect((body['errors'] as { pointer: string }[]).map((error) => error.pointer)).toContain(pointer);
    expect(await server.snapshot()).toEqual(before);
  });

  it('should refuse a field it does not have, by name', async () => {
    const server = await startFull();
    for (const asked of [
      await server.ask('POST', listOf(noun), { body: { ...record, colour: 'red' } }),
      await server.ask('PATCH', await firstOf(server, noun), { body: { colour: 'red' }, version: 1 }),
    ]) {
      expect(asked.status).toBe(422);
      expect(asked.body['errors']).toMatchObject([{ pointer: '/colour' }]);
    }
  });

  it('should refuse to be written by whoever does not say what they read', async () => {
    const server = await startFull();
    const url = await firstOf(server, noun);
    const before = await server.snapshot();
    for (const [method, body] of [
      ['PATCH', change],
      ['PUT', record],
      ['DELETE', undefined],
    ] as const) {
      const missing = await server.ask(method, url, { body });
      expect([missing.status, missing.body['type']]).toEqual([428, '/problems/version-missing']);
      const stale = await server.ask(method, url, {
        body: body === record ? await valueOf(server, url) : body,
        version: 7,
      });
      expect([stale.status, stale.body['type'], stale.body['found']]).toEqual([
        412,
        '/problems/stale-write',
        1,
      ]);
    }
    expect(await server.snapshot()).toEqual(before);
  });

  it('should say that there is no such record', async () => {
    const server = await startFull();
    for (const method of ['GET', 'PATCH', 'PUT', 'DELETE']) {
      const { status, body } = await server.ask(method, `${listOf(noun)}/nobody`, {
        ...(method === 'GET' || method === 'DELETE' ? {} : { body: record }),
        version: 1,
      });
      expect([status, body['type'], body['id']]).toEqual([404, '/problems/not-found', 'nobody']);
    }
  });
});

describe('a record', () => {
  it('should be written by one of two who read it, and the other be told', async () => {
    const server = await startFull();
    const url = `/api/builds/${FULL}/tasks/close-wall`;
    const writers = ['A', 'B'].map((name) => server.ask('PATCH', url, { body: { name }, version: 1 }));
    const answers = await Promise.all(writers);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 412]);
    const won = answers.find(({ status }) => status === 200)!;
    expect((await server.ask('GET', url)).body).toEqual(won.body);
    expect((await server.snapshot()).revision).toBe(2);
  });

  it.each([
    ['a number as text', { capacity: '5' }, '/capacity'],
    ['nothing for a number', { capacity: null }, '/capacity'],
    ['true for 1', { capacity: true }, '/capacity'],
    ['a text for a list', { depths: 'metal' }, '/depths'],
    ['a list for a text', { name: ['x'] }, '/name'],
    ['a fraction for a whole number', { capacity: 1.5 }, '/capacity'],
  ])('should not take %s', async (_what, change, pointer) => {
    const server = await startFull();
    const { status, body } = await server.ask('PATCH', `/api/builds/${FULL}/zones/L2`, {
      body: change,
      version: 1,
    });
    expect([status, (body['errors'] as Loose[])[0]!['pointer']]).toEqual([422, pointer]);
  });

  it('should not take a number beyond all numbers', async () => {
    const server = await startFull();
    const url = `/api/builds/${FULL}/zones/L2`;
    const { status, body } = await server.ask('PATCH', url, { text: '{"capacity":1e400}', version: 1 });
    expect([status, (body['errors'] as Loose[])[0]!['pointer']]).toEqual([422, '/capacity']);
  });

  it('should name every field that is wrong, not the first', async () => {
    const server = await startFull();
    const body = { name: '', capacity: 0, face: 'up', depths: [5] };
    const refused = await server.ask('PATCH', `/api/builds/${FULL}/zones/L2`, { body, version: 1 });
    const pointers = (refused.body['errors'] as Loose[]).map(({ pointer }) => pointer);
    expect(pointers.sort()).toEqual(['/capacity', '/depths/0', '/face', '/name']);
  });

  it('should keep its key: whoever wants another makes another record', async () => {
    const server = await startFull();
    const url = `/api/builds/${FULL}/phases/first-fix`;
    const { status, body } = await server.ask('PATCH', url, { body: { key: 'second-fix' }, version: 1 });
    expect([status, body['detail']]).toEqual([422, expect.stringContaining('"second-fix"')]);
  });

  it('should not be made twice', async () => {
    const server = await startFull();
    const body = { key: 'first-fix', name: 'Again' };
    const refused = await server.ask('POST', `/api/builds/${FULL}/phases`, { body });
    expect([refused.status, (refused.body['errors'] as Loose[])[0]!['pointer']]).toEqual([422, '/key']);
  });

  it('should stay while others point at it, and say which', async () => {
    const server = await startFull();
    const before = await server.snapshot();
    const { status, body } = await server.ask('DELETE', `/api/builds/${FULL}/people/ines`, { version: 1 });
    expect(status).toBe(422);
    const pointers = (body['errors'] as Loose[]).map(({ pointer }) => String(pointer));
    expect(pointers).toContain('/tasks/hose-test/who/0');
    expect(pointers.some((pointer) => pointer.startsWith('/hours/'))).toBe(true);
    expect(await server.snapshot()).toEqual(before);
  });

  it('should be told apart from the words every object knows', async () => {
    const server = await startFull();
    for (const key of ['constructor', 'toString', 'hasOwnProperty', 'valueOf']) {
      const made = await server.ask('POST', `/api/builds/${FULL}/phases`, { body: { key, name: key } });
      expect([made.status, made.body['version']]).toEqual([201, 1]);
      const patched = await server.ask('PATCH', `/api/builds/${FULL}/phases/${key}`, {
        body: { budget: 5 },
        version: 1,
      });
      expect(patched.body).toMatchObject({ version: 2, value: { budget: 5 } });
    }
    const { versions, file } = await server.snapshot();
    expect(versions['phases']!['constructor']).toBe(2);
    expect(file.phases).toHaveLength(5);
  });

  it('should come back letter by letter in any script', async () => {
    const server = await startFull();
    const url = `/api/builds/${FULL}/tasks/close-wall`;
    const note = 'Größe ☃ 🚐 日本語 عربى\n\ttabs & <script>alert(1)</script> "quotes" \\ \'';
    const patched = await server.ask('PATCH', url, { body: { note, fixedWhy: note }, version: 1 });
    expect(patched.body['value']).toMatchObject({ note, fixedWhy: note });
    await server.close();
  });

  it.each(['note', 'fixedWhy', 'name'])(
    'should refuse half a letter in its %s rather than store another',
    async (field) => {
      const server = await startFull();
      const url = `/api/builds/${FULL}/tasks/close-wall`;
      const { status, body } = await server.ask('PATCH', url, {
        text: `{"${field}":"half \\ud83d"}`,
        version: 1,
      });
      expect([status, (body['errors'] as Loose[])[0]!['pointer']]).toEqual([422, `/${field}`]);
    },
  );
});

// Helpers

function listOf(noun: NounName): string {
  return `/api/builds/${FULL}/${addressOf(noun)}`;
}

async function create(server: TestServer, noun: NounName, key?: string): Promise<Answer> {
  const { id, record } = SAMPLES[noun];
  const body = id === null && key !== undefined ? { ...record, key } : record;
  const made = await server.ask('POST', listOf(noun), { body });
  expect(made.status, made.text).toBe(201);
  return made;
}

async function firstOf(server: TestServer, noun: NounName): Promise<string> {
  const [first] = (await server.ask('GET', listOf(noun))).body as unknown as { id: string }[];
  return `${listOf(noun)}/${encodeURIComponent(first!.id)}`;
}

async function valueOf(server: TestServer, url: string): Promise<unknown> {
  return (await server.ask('GET', url)).body['value'];
}

/** Everything but what only ever rises. */
async function stateOf(server: TestServer): Promise<unknown> {
  return (await server.snapshot()).file;
}

/** The values a record had in the fields of a change. */
function pick(made: Answer, change: Loose): Loose {
  const value = made.body['value'] as Loose;
  return Object.fromEntries(Object.keys(change).map((name) => [name, value[name]]));
}
