/** The built pages: the files of their folder, each by its name, and nothing beside it. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeFolder, startServer } from '../support/server.ts';

describe('the pages', () => {
  it('should be one page for every view, asked for anew each time', async () => {
    const server = await withPages();
    for (const url of [
      '/',
      '/builds',
      '/builds/wagtail',
      '/builds/wagtail/schedule',
      '/builds/a/task/b?x=1',
    ]) {
      const { status, headers, text } = await server.ask('GET', url);
      expect([status, headers['content-type'], text], url).toEqual([
        200,
        'text/html; charset=utf-8',
        '<!doctype html><p>page',
      ]);
      expect(headers['cache-control']).toBe('no-cache');
      expect(headers['content-security-policy']).toContain("script-src 'self';");
    }
  });

  it('should have assets that never change, and say what kind they are', async () => {
    const server = await withPages();
    const { status, headers, text } = await server.ask('GET', '/assets/index-1a2b.js');
    expect([status, text]).toEqual([200, 'export {}']);
    expect(headers['cache-control']).toBe('public, max-age=31536000, immutable');
    expect(headers['content-type']).toMatch(/^(text|application)\/javascript/);
    expect((await server.ask('GET', '/favicon.svg')).headers['cache-control']).toBe('no-cache');
  });

  it.each([
    '/../secret.txt',
    '/assets/../../secret.txt',
    '/%2e%2e/secret.txt',
    '/%2e%2e%2fsecret.txt',
    '/assets/%2e%2e/%2e%2e/secret.txt',
    '/..%5csecret.txt',
    '/assets/..%00/secret.txt',
    '//secret.txt',
    '/assets//etc/passwd',
    '/.stamp',
    '/assets/',
    '/assets',
    '/index.html%00.js',
  ])('should have nothing at %s', async (path) => {
    const server = await withPages();
    const { port } = new URL(await server.listen());
    const answer = await new Promise<string>((resolve, reject) => {
      let text = '';
      // By hand: a client would tidy the address up.
      const socket = connect(Number(port), '127.0.0.1', () =>
        socket.write(`GET ${path} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n`),
      );
      socket.on('data', (part) => (text += part.toString()));
      socket.on('close', () => resolve(text));
      socket.on('error', reject);
    });
    expect(answer).toMatch(/^HTTP\/1\.1 (400|403|404) /);
    expect(answer).not.toContain('secret words');
  });

  it('should not answer to writes', async () => {
    const server = await withPages();
    for (const method of ['POST', 'PUT', 'DELETE', 'PATCH'])
      expect((await server.ask(method, '/')).status).toBe(404);
  });

  it('should be refused under a foreign name like all else', async () => {
    const server = await withPages();
    for (const url of ['/', '/assets/index-1a2b.js', '/builds/x'])
      expect((await server.ask('GET', url, { headers: { host: 'van.example' } })).status).toBe(403);
  });
});

// Helpers

async function withPages() {
  const folder = makeFolder();
  const pages = join(folder, 'dist');
  mkdirSync(join(pages, 'assets'), { recursive: true });
  writeFileSync(join(folder, 'secret.txt'), 'secret words');
  writeFileSync(join(pages, 'index.html'), '<!doctype html><p>page');
  writeFileSync(join(pages, '.stamp'), 'secret words');
  writeFileSync(join(pages, 'favicon.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>');
  writeFileSync(join(pages, 'assets', 'index-1a2b.js'), 'export {}');
  return startServer({ pages });
}
