/** Bodies and addresses made to harm: too much, too deep, not what they say, or named after what every object has. */
import { describe, expect, it } from 'vitest';
import { fullDocument, type Loose } from '../support/full-document.ts';
import { FULL, startFull } from '../support/server.ts';

const change = `/api/builds/${FULL}/changes`;

describe('a body', () => {
  it('should be refused when it is too large, by its length and by what really comes', async () => {
    const server = await startFull();
    const text = `"${'x'.repeat(4 * 1024 * 1024)}"`;
    const refused = await server.ask('POST', `/api/builds/${FULL}/phases`, { text });
    expect([refused.status, refused.body]).toMatchObject([
      413,
      { type: '/problems/too-large', most: 4 * 1024 * 1024 },
    ]);

    const address = await server.listen();
    const parts = (async function* () {
      for (let i = 0; i < 80; i++) yield new TextEncoder().encode('x'.repeat(64 * 1024));
    })();
    const streamed = await fetch(`${address}/api/builds/${FULL}/phases`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: parts as unknown as ReadableStream,
      duplex: 'half',
    } as RequestInit).then(
      ({ status }) => status,
      () => 413, // it may hang up before all is sent
    );
    expect(streamed).toBe(413);
    expect((await server.ask('GET', '/api/builds')).status).toBe(200);
  });

  it.each([
    ['100 000 open brackets', '['.repeat(100_000), 400],
    ['100 000 brackets', '['.repeat(100_000) + ']'.repeat(100_000), 422],
    ['100 000 objects', '{"a":'.repeat(100_000) + '1' + '}'.repeat(100_000), 422],
    ['nothing', '', 400],
    ['a byte order mark alone', '\uFEFF', 400],
    ['a word', 'yes', 400],
    ['two documents', '{}{}', 400],
    ['a comment', '{/* no */}', 400],
    ['a comma too many', '[1,]', 400],
    ['NaN', '{"version": NaN}', 400],
    ['a zero byte', '{"a":"\u0000"}', 400],
  ])('should be refused and harm nothing: %s', async (_what, text, status) => {
    const server = await startFull();
    const refused = await server.ask('POST', '/api/builds', { text });
    expect(refused.status).toBe(status);
    expect(refused.body['type']).toBe(status === 400 ? '/problems/not-json' : '/problems/bad-build');
    if (status === 400)
      expect(refused.body).toMatchObject({
        line: expect.any(Number) as number,
        column: expect.any(Number) as number,
      });
    expect((await server.ask('GET', '/api/builds')).body).toHaveLength(1);
  });

  it('should be refused when it nests where a record takes anything at first', async () => {
    const server = await startFull();
    const deep = '{"a":'.repeat(50_000) + '1' + '}'.repeat(50_000);
    const text = `{"label":"x","edits":[{"noun":"phases","id":"w","version":null,"value":${deep}}]}`;
    const { status, body } = await server.ask('POST', change, { text });
    expect([status, (body['errors'] as Loose[]).map(({ pointer }) => pointer)]).toEqual([
      422,
      expect.arrayContaining(['/edits/0/value/a']),
    ]);
  });

  it.each([
    'text/plain',
    'application/x-www-form-urlencoded',
    'multipart/form-data; boundary=x',
    'application/xml',
    'text/html',
    'application/jsonp',
  ])('should be refused as %s, which a page elsewhere could send unasked', async (type) => {
    const server = await startFull();
    const { status, body } = await server.ask('POST', '/api/builds', {
      text: JSON.stringify(fullDocument()),
      headers: { 'content-type': type },
    });
    expect([status, body['type'], body['media']]).toEqual([415, '/problems/unsupported-media', type]);
    expect((await server.ask('GET', '/api/builds')).body).toHaveLength(1);
  });

  it('should be taken as JSON with its letters named', async () => {
    const server = await startFull();
    const headers = { 'content-type': 'application/json; charset=utf-8' };
    expect((await server.ask('POST', '/api/builds', { body: fullDocument(), headers })).status).toBe(201);
  });

  it('should have no fields that every object has, and change none of them', async () => {
    const server = await startFull();
    for (const name of ['__proto__', 'constructor', 'prototype', 'hasOwnProperty', 'toString']) {
      const field = `{"${name}":{"polluted":true}}`;
      const url = `/api/builds/${FULL}/tools/saw`;
      for (const answer of [
        await server.ask('PATCH', url, { text: field, version: 1 }),
        await server.ask('POST', `/api/builds/${FULL}/tools`, {
          text: `{"key":"k","name":"k",${field.slice(1)}`,
        }),
        await server.ask('POST', '/api/builds', {
          text: JSON.stringify(fullDocument()).replace('{', `{${field.slice(1, -1)},`),
        }),
        await server.ask('POST', change, {
          text: `{"label":"x","edits":[{"noun":"tools","id":"k","version":null,"value":{"key":"k","name":"k","only":[],${field.slice(1)}}]}`,
        }),
      ]) {
        expect(answer.status, `${name} ${answer.text}`).toBe(422);
        const [first] = answer.body['errors'] as Loose[];
        expect(String(first!['pointer'])).toMatch(new RegExp(`/${name}$`));
      }
    }
    expect(({} as Loose)['polluted']).toBeUndefined();
    expect((await server.snapshot()).revision).toBe(1);
  });

  it('should have no key that every object has under its feet', async () => {
    const server = await startFull();
    const proto = await server.ask('POST', `/api/builds/${FULL}/phases`, {
      text: '{"key":"__proto__","name":"x"}',
    });
    expect(proto.status).toBe(422);
    const baseline = `{"key":"b","name":"b","on":"2027-01-01","tasks":{"__proto__":{"start":"2027-01-01T10:00","finish":"2027-01-01T11:00","minutes":1}}}`;
    expect((await server.ask('POST', `/api/builds/${FULL}/baselines`, { text: baseline })).status).toBe(422);
    for (const key of ['constructor', 'toString']) {
      const made = await server.ask('POST', `/api/builds/${FULL}/tasks`, {
        body: { key, name: key, minutes: { low: 1, likely: 1, high: 1 } },
      });
      expect(made.status).toBe(201);
    }
    const plan = (await server.ask('GET', `/api/builds/${FULL}/plan`)).body['tasks'] as Loose;
    expect(plan['constructor']).toMatchObject({ state: 'not-started' });
  });

  it('should find no record, build or noun that every object has', async () => {
    const server = await startFull();
    for (const word of ['__proto__', 'constructor', 'hasOwnProperty', 'toString']) {
      for (const url of [
        `/api/builds/${word}/snapshot`,
        `/api/builds/${word}/plan`,
        `/api/builds/${FULL}/tools/${word}`,
        `/api/builds/${FULL}/${word}`,
      ])
        expect((await server.ask('GET', url)).status, url).toBe(404);
      const edit = { noun: 'tools', id: word, version: 1, value: null };
      expect((await server.change([edit as never])).status).toBe(404);
      expect((await server.change([{ ...edit, noun: word } as never])).status).toBe(400);
    }
  });
});

describe('an address', () => {
  it('should be refused when it is longer than any of ours, and harm nothing', async () => {
    const server = await startFull();
    const address = await server.listen();
    expect((await server.ask('GET', `/api/builds/${'x'.repeat(300)}`)).status).toBe(404);
    expect((await server.ask('GET', `/api/builds/${'x'.repeat(5000)}`)).status).toBe(400);
    expect((await fetch(`${address}/api/builds/${'x'.repeat(100_000)}`)).status).toBe(431);
    expect((await fetch(`${address}/api/builds`)).status).toBe(200);
  });

  it('should be read as text, whatever is in it', async () => {
    const server = await startFull();
    for (const id of ["' or 1=1 --", '../../etc/passwd', '%', '☃', '"; drop table builds', '\u0000']) {
      const url = `/api/builds/${encodeURIComponent(id)}/snapshot`;
      expect((await server.ask('GET', url)).status, url).toBe(404);
      expect((await server.ask('GET', `/api/builds/${FULL}/tasks/${encodeURIComponent(id)}`)).status).toBe(
        404,
      );
    }
    expect((await server.ask('GET', '/api/builds')).body).toHaveLength(1);
  });
});
