/** Stored files: what is taken, where it lies, and that nothing in one can run, whatever it is called. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { MOST_FILE_BYTES } from '#shared/contract/stored-file.ts';
import type { Loose } from '../support/full-document.ts';
import { JPEG, PDF, PNG, WEBP } from '../support/pictures.ts';
import { FULL, startFull, type TestServer } from '../support/server.ts';

const files = `/api/builds/${FULL}/files`;
const hashOf = (bytes: Buffer) => createHash('sha256').update(bytes).digest('hex');

describe('a file', () => {
  it.each([
    ['image/png', PNG, 'inline'],
    ['image/jpeg', JPEG, 'inline'],
    ['image/webp', WEBP, 'inline'],
    ['application/pdf', PDF, 'attachment'],
  ])('should come back as it was, able to run nothing: %s', async (media, bytes, shown) => {
    const server = await startFull();
    const put = await send(server, bytes);
    const hash = hashOf(bytes);
    expect([put.status, put.body]).toEqual([
      201,
      { file: `sha256:${hash}`, bytes: bytes.length, type: media },
    ]);
    expect(put.headers['location']).toBe(`${files}/${hash}`);
    const got = await fetchFile(server, `${files}/${hash}`);
    expect([got.statusCode, got.rawPayload.equals(bytes)]).toEqual([200, true]);
    expect(got.headers).toMatchObject({
      'content-type': media,
      'x-content-type-options': 'nosniff',
      'content-security-policy': "default-src 'none'; sandbox",
      'content-disposition': expect.stringContaining(shown) as string,
      'cross-origin-resource-policy': 'same-origin',
      'cache-control': 'private, max-age=31536000, immutable',
    });
  });

  it('should lie under the name of what it holds, whole, once, for its owner only', async () => {
    const server = await startFull();
    for (let i = 0; i < 3; i++) expect((await send(server, PNG)).status).toBe(201);
    const hash = hashOf(PNG);
    const folder = join(server.folder, 'records', hash.slice(0, 2));
    expect(readdirSync(folder)).toEqual([hash]);
    expect(readFileSync(join(folder, hash)).equals(PNG)).toBe(true);
    expect(statSync(join(folder, hash)).mode & 0o777).toBe(0o600);
    expect(statSync(folder).mode & 0o777).toBe(0o700);
  });

  it('should be what it begins with, whatever it is said to be', async () => {
    const server = await startFull();
    const page = Buffer.from('<html><script>alert(1)</script></html>');
    const drawing = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>');
    for (const bytes of [page, drawing, Buffer.alloc(0), Buffer.from('RIFF....WAVE'), Buffer.from('GIF89a')])
      for (const media of ['image/png', 'image/jpeg', 'application/pdf', 'text/html']) {
        const { status, body } = await send(server, bytes, media);
        expect([status, body['type']]).toEqual([415, '/problems/unsupported-media']);
        expect(body['detail']).toMatch(/send a JPEG, PNG, WebP or PDF/);
      }
    expect(existsSync(join(server.folder, 'records'))).toBe(false);
    // A picture that goes on as a page is still a picture.
    const both = Buffer.concat([PNG, page]);
    expect((await send(server, both, 'text/html')).body['type']).toBe('image/png');
    expect((await fetchFile(server, `${files}/${hashOf(both)}`)).headers['content-type']).toBe('image/png');
  });

  it('should be refused in words when it is too large, and leave nothing behind', async () => {
    const server = await startFull();
    const { status, body } = await send(server, Buffer.concat([PNG, Buffer.alloc(MOST_FILE_BYTES)]));
    expect([status, body['detail']]).toEqual([413, 'The body is too large: at most 24 MB are taken here.']);
    expect(existsSync(join(server.folder, 'records'))).toBe(false);
  });

  it.each([
    '../coverlast.db',
    '..%2Fcoverlast.db',
    '..%5Ccoverlast.db',
    '%2e%2e%2f%2e%2e%2fetc%2fpasswd',
    '%2Fetc%2Fpasswd',
    'coverlast.db',
    '00',
    '0'.repeat(63),
    '0'.repeat(65),
    'F'.repeat(64),
    `${'0'.repeat(64)}%00.png`,
    `${'0'.repeat(32)}%2F${'0'.repeat(31)}`,
    '0'.repeat(64),
    'constructor',
  ])('should be found by its 64 digits and by no way through the folders: %s', async (name) => {
    const server = await startFull();
    await send(server, PNG);
    const { statusCode, payload } = await fetchFile(server, `${files}/${name}`);
    expect([400, 404]).toContain(statusCode);
    expect(payload).not.toMatch(/SQLite|root:/);
    expect(payload).not.toContain(server.folder);
  });

  it('should be given out only as long as it is one of those that are taken', async () => {
    const server = await startFull();
    await send(server, PNG);
    const hash = hashOf(PNG);
    writeFileSync(join(server.folder, 'records', hash.slice(0, 2), hash), '<script>alert(1)</script>');
    expect((await fetchFile(server, `${files}/${hash}`)).statusCode).toBe(404);
  });

  it('should be kept from whoever is kept from all else', async () => {
    const server = await startFull();
    await send(server, PNG);
    for (const headers of [
      { host: 'van.example' },
      { host: 'localhost:4180', origin: 'http://van.example' },
      { host: 'localhost:4180', 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'no-cors' },
    ]) {
      const got = await server.app.inject({ url: `${files}/${hashOf(PNG)}`, headers });
      const put = await server.app.inject({ method: 'POST', url: files, headers, payload: JPEG });
      expect([got.statusCode, put.statusCode]).toEqual([403, 403]);
    }
  });

  it('should stay when its build is removed, so that the kept file of the build still has its photos', async () => {
    const server = await startFull();
    await send(server, PNG);
    const { file } = await server.snapshot();
    await server.ask('DELETE', `/api/builds/${FULL}`, { version: 1 });
    expect((await fetchFile(server, `${files}/${hashOf(PNG)}`)).statusCode).toBe(404);
    await server.ask('POST', '/api/builds', { body: file });
    expect((await fetchFile(server, `${files}/${hashOf(PNG)}`)).statusCode).toBe(200);
  });

  it('should need a build', async () => {
    const server = await startFull();
    const put = await server.app.inject({
      method: 'POST',
      url: '/api/builds/nobody/files',
      headers: { host: 'localhost:4180', 'content-type': 'image/png' },
      payload: PNG,
    });
    expect(put.statusCode).toBe(404);
    expect(existsSync(join(server.folder, 'records'))).toBe(false);
  });
});

// Helpers

async function send(server: TestServer, payload: Buffer, media = 'application/octet-stream') {
  const response = await server.app.inject({
    method: 'POST',
    url: files,
    headers: { host: 'localhost:4180', 'content-type': media },
    payload,
  });
  return { status: response.statusCode, headers: response.headers, body: response.json<Loose>() };
}

function fetchFile(server: TestServer, url: string) {
  return server.app.inject({ url, headers: { host: 'localhost:4180' } });
}
