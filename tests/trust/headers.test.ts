/** Who may ask and what an answer may do: names, origins and sites that are foreign, and the headers on everything. */
import { request } from 'node:http';
import { connect } from 'node:net';
import { describe, expect, it } from 'vitest';
import { fullDocument } from '../support/full-document.ts';
import { FULL, startFull, type TestServer } from '../support/server.ts';

/** Each address stands for a kind: data, a write, the description, a page of it, and what is not there. */
const ASKED = [
  ['GET', '/api/builds'],
  ['GET', `/api/builds/${FULL}/snapshot`],
  ['GET', `/api/builds/${FULL}/events`],
  ['POST', `/api/builds/${FULL}/undo`],
  ['GET', '/api/openapi.json'],
  ['GET', '/api/reference'],
  ['GET', '/nowhere'],
] as const;

describe('the Host header', () => {
  it.each([
    'localhost',
    'localhost:4180',
    'LOCALHOST:4180',
    '127.0.0.1:4180',
    '[::1]:4180',
    '[::1]',
    '127.0.0.1',
  ])('should be served as %s', async (host) => {
    const server = await startFull();
    expect((await server.ask('GET', '/api/builds', { headers: { host } })).status).toBe(200);
  });

  it.each([
    'van.example',
    'van.example:4180',
    'localhost.van.example',
    'localhost.van.example:4180',
    'van.localhost',
    'localhost.',
    '127.0.0.1.van.example',
    '127.0.0.2',
    '0.0.0.0:4180',
    '192.168.1.5:4180',
    '[::2]:4180',
    '[::1].van.example',
    '::1',
    'localhost:4180:4180',
    'localhost:x',
    'localhost@van.example',
    'van.example#localhost',
    ' ',
  ])('should be refused as "%s", whatever is asked', async (host) => {
    const server = await startFull();
    for (const [method, url] of ASKED) {
      const { status, body } = await server.ask(method, url, { headers: { host } });
      expect([status, body['type']], `${method} ${url}`).toEqual([403, '/problems/foreign-host']);
    }
    expect((await server.snapshot()).revision).toBe(1);
  });

  it('should not be missing', async () => {
    const server = await startFull();
    const address = new URL(await server.listen());
    expect(await raw(address, 'GET /api/builds HTTP/1.1\r\nConnection: close\r\n\r\n')).toMatch(
      /^HTTP\/1\.1 400 /,
    );
    expect(await raw(address, 'GET /api/builds HTTP/1.0\r\n\r\n')).toMatch(/^HTTP\/1\.1 403 /);
  });

  it('should not be taken from what a proxy says', async () => {
    const server = await startFull();
    const headers = { host: 'van.example', 'x-forwarded-host': 'localhost', forwarded: 'host=localhost' };
    expect((await server.ask('GET', '/api/builds', { headers })).status).toBe(403);
  });
});

describe('the Origin header', () => {
  it('should be served when it is the server itself, and when there is none', async () => {
    const server = await startFull();
    for (const origin of ['http://localhost:4180', undefined]) {
      const headers = origin === undefined ? {} : { origin };
      expect((await server.ask('POST', '/api/builds', { body: fullDocument(), headers })).status).toBe(201);
    }
  });

  it.each([
    'http://van.example',
    'https://localhost:4180',
    'http://localhost:5173',
    'http://localhost',
    'http://127.0.0.1:4180',
    'http://localhost:4180.van.example',
    'null',
    '',
    'file://',
  ])('should be refused as "%s", whatever is asked', async (origin) => {
    const server = await startFull();
    for (const [method, url] of ASKED) {
      const { status, body } = await server.ask(method, url, { headers: { origin } });
      expect([status, body['type']], `${method} ${url}`).toEqual([403, '/problems/foreign-origin']);
    }
    expect((await server.snapshot()).revision).toBe(1);
  });
});

describe('the site a browser says it comes from', () => {
  it.each([
    ['same-origin', 'cors', 200],
    ['none', 'navigate', 200],
    ['cross-site', 'navigate', 200],
    ['cross-site', 'no-cors', 403],
    ['cross-site', 'cors', 403],
    ['same-site', 'no-cors', 403],
    ['same-site', 'navigate', 200],
    ['cross-site', undefined, 403],
  ])('should be weighed: a GET from %s to %s is answered %s', async (site, mode, status) => {
    const server = await startFull();
    const headers = { 'sec-fetch-site': site, ...(mode === undefined ? {} : { 'sec-fetch-mode': mode }) };
    expect((await server.ask('GET', '/api/builds', { headers })).status).toBe(status);
  });

  it('should never write from elsewhere, not even as a form that navigates here', async () => {
    const server = await startFull();
    const headers = { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'navigate' };
    expect((await server.ask('POST', `/api/builds/${FULL}/undo`, { headers })).status).toBe(403);
    expect((await server.ask('POST', '/api/builds', { body: fullDocument(), headers })).status).toBe(403);
  });

  it('should not be let in by asking beforehand', async () => {
    const server = await startFull();
    const headers = { origin: 'http://van.example', 'access-control-request-method': 'PATCH' };
    const { status, headers: answered } = await server.ask('OPTIONS', `/api/builds/${FULL}/tools/saw`, {
      headers,
    });
    expect(status).toBe(403);
    expect(Object.keys(answered).filter((name) => name.startsWith('access-control'))).toEqual([]);
  });
});

describe('an answer', () => {
  it('should let nothing run but the files of the server, whatever is asked and however it ends', async () => {
    const server = await startFull();
    for (const [url, status] of [
      ['/api/builds', 200],
      [`/api/builds/${FULL}/plan`, 200],
      ['/api/reference', 200],
      ['/nowhere', 404],
      ['/%zz', 400],
      [`/api/builds/${'x'.repeat(400)}`, 400],
      [`/api/builds/${FULL}/history?limit=x`, 400],
    ] as const) {
      const answer = await server.ask('GET', url);
      expect(answer.status, url).toBe(status);
      expect(answer.headers, url).toMatchObject(EXPECTED);
    }
    const foreign = await server.ask('GET', '/api/builds', { headers: { host: 'van.example' } });
    expect(foreign.headers).toMatchObject(EXPECTED);
  });

  it('should carry what somebody wrote as JSON and as nothing else', async () => {
    const server = await startFull();
    const evil = '<svg onload=alert(1)><script>alert(2)</script>';
    await server.ask('PATCH', `/api/builds/${FULL}/head`, {
      body: { name: evil, vehicle: evil },
      version: 1,
    });
    const body = { name: evil, note: evil, steps: [{ text: evil }] };
    await server.ask('PATCH', `/api/builds/${FULL}/tasks/close-wall`, { body, version: 1 });
    for (const rest of [
      '',
      '/snapshot',
      '/file',
      '/plan',
      '/head',
      '/tasks',
      '/tasks/close-wall',
      '/history',
    ]) {
      const answer = await server.ask('GET', `/api/builds/${FULL}${rest}`);
      if (rest !== '/plan') expect(answer.text, rest).toContain('<script>');
      expect(answer.headers).toMatchObject({
        'content-type': 'application/json; charset=utf-8',
        'x-content-type-options': 'nosniff',
      });
    }
    const missing = await server.ask('GET', `/api/${encodeURIComponent(evil)}`);
    expect(missing.headers).toMatchObject({
      'content-type': 'application/problem+json; charset=utf-8',
      'x-content-type-options': 'nosniff',
    });
    expect((await server.ask('GET', '/api/reference')).text).not.toContain('alert');
  });

  it('should not be kept by anyone on the way unless it never changes', async () => {
    const server = await startFull();
    expect((await server.ask('GET', `/api/builds/${FULL}/snapshot`)).headers['cache-control']).toBe(
      'no-cache',
    );
  });
});

describe('whoever sends by the byte', () => {
  it('should be let go: headers in 10 s, a request in 30 s, idle 10 s', async () => {
    const { app } = await startFull();
    const { headersTimeout, requestTimeout, keepAliveTimeout } = app.server;
    expect({ headersTimeout, requestTimeout, keepAliveTimeout }).toEqual({
      headersTimeout: 10_000,
      requestTimeout: 30_000,
      keepAliveTimeout: 10_000,
    });
  });

  it('should not hold up others', async () => {
    const server = await startFull();
    const address = new URL(await server.listen());
    const slow = Array.from({ length: 50 }, () =>
      connect(Number(address.port), address.hostname).on('error', () => {}),
    );
    for (const socket of slow)
      socket.write(
        'POST /api/builds HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{',
      );
    expect(await statusOf(server, `/api/builds/${FULL}/plan`)).toBe(200);
    for (const socket of slow) socket.destroy();
  });
});

// Helpers

const EXPECTED = {
  'content-security-policy':
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data: blob:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'",
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
};

function raw({ port, hostname }: URL, text: string): Promise<string> {
  return new Promise((resolve, reject) => {
    let answer = '';
    const socket = connect(Number(port), hostname, () => socket.write(text));
    socket.on('data', (part) => (answer += part.toString()));
    socket.on('close', () => resolve(answer));
    socket.on('error', reject);
  });
}

function statusOf(server: TestServer, path: string): Promise<number | undefined> {
  const { port } = server.app.server.address() as { port: number };
  return new Promise((resolve, reject) => {
    request({ port, path, host: '127.0.0.1' }, (answer) => {
      answer.resume();
      resolve(answer.statusCode);
    })
      .on('error', reject)
      .end();
  });
}
