/** The interface as it describes itself: the document for programs and the page for people, against the real routes. */
import { Compile } from 'typebox/compile';
import { describe, expect, it } from 'vitest';
import type { TSchema } from 'typebox';
import { NOUN_NAMES } from '#shared/contract/nouns.ts';
import { addressOf } from '../../server/routes/nouns.ts';
import { fullDocument, type Loose } from '../support/full-document.ts';
import { SAMPLES } from '../support/samples.ts';
import { FULL, startFull, type TestServer } from '../support/server.ts';

interface Operation {
  readonly summary: string;
  readonly tags: readonly string[];
  readonly parameters?: readonly { name: string; in: string; required?: boolean; schema: Loose }[];
  readonly requestBody?: { required?: boolean; content: Record<string, { schema: TSchema }> };
  readonly responses: Record<string, { description: string; content?: Record<string, { schema: Loose }> }>;
}
interface Document {
  readonly openapi: string;
  readonly info: Loose;
  readonly components: { readonly schemas: Record<string, Loose> };
  readonly paths: Record<string, Record<string, Operation>>;
}

/** Parts of the server that are not of the interface it describes. */
const APART = new Set(['/api/health', '/api/openapi.json', '/api/reference', '/api/reference.css']);

describe('the OpenAPI document', () => {
  it('should be an OpenAPI 3.1 document', async () => {
    const document = await documentOf(await startFull());
    expect(document.openapi).toMatch(/^3\.1\.\d+$/);
    expect(document.info).toMatchObject({ title: 'Coverlast', version: expect.any(String) as string });
    for (const [path, method, operation] of operationsOf(document)) {
      const at = `${method} ${path}`;
      const inPath = [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name!);
      const parameters = operation.parameters ?? [];
      expect(
        parameters
          .filter((one) => one.in === 'path')
          .map(({ name }) => name)
          .sort(),
        at,
      ).toEqual(inPath.sort());
      for (const one of parameters) {
        expect(['path', 'query', 'header'], at).toContain(one.in);
        expect(one.schema, at).toBeTypeOf('object');
        if (one.in === 'path') expect(one.required, at).toBe(true);
      }
      expect(new Set(parameters.map((one) => `${one.in} ${one.name}`)).size, at).toBe(parameters.length);
      expect(operation.summary, at).toMatch(/\S/);
      expect(operation.tags, at).toHaveLength(1);
      expect(Object.keys(operation.responses), at).toEqual(expect.arrayContaining(['4XX', '5XX']));
      for (const [status, response] of Object.entries(operation.responses)) {
        expect(status, at).toMatch(/^[1-5](\d\d|XX)$/);
        expect(response.description, at).toBeTypeOf('string');
      }
    }
  });

  it('should refer only to what it has', async () => {
    const document = await documentOf(await startFull());
    const references = [...JSON.stringify(document).matchAll(/"\$ref":"([^"]*)"/g)].map(([, to]) => to!);
    expect(references.length).toBeGreaterThan(0);
    for (const to of new Set(references)) {
      const name = /^#\/components\/schemas\/(\w+)$/.exec(to)?.[1];
      expect(document.components.schemas[name ?? ''], to).toBeTypeOf('object');
    }
  });

  it('should have every route of the server and no other', async () => {
    const server = await startFull();
    const document = await documentOf(server);
    const described = operationsOf(document).map(([path, method]) => `${method.toUpperCase()} ${path}`);
    expect(described.sort()).toEqual(routesOf(server).sort());
    expect(described.length).toBeGreaterThan(NOUN_NAMES.length * 6 + 26);
  });

  it('should describe bodies that the routes take', async () => {
    const server = await startFull();
    const document = await documentOf(server);
    expect(fits(document, 'post', '/api/builds', fullDocument())).toBe(true);
    for (const noun of NOUN_NAMES) {
      const list = `/api/builds/{build}/${addressOf(noun)}`;
      const { record, change } = SAMPLES[noun];
      expect(fits(document, 'post', list, record), noun).toBe(true);
      expect(fits(document, 'put', `${list}/{id}`, record), noun).toBe(true);
      expect(fits(document, 'patch', `${list}/{id}`, change), noun).toBe(true);
    }
  });

  it('should refuse in its schemas what the routes refuse', async () => {
    const server = await startFull();
    const document = await documentOf(server);
    for (const noun of NOUN_NAMES) {
      const list = `/api/builds/{build}/${addressOf(noun)}`;
      const { record } = SAMPLES[noun];
      const [needed] = Object.keys(record);
      const { [needed!]: _, ...lacking } = record;
      for (const body of [
        { ...record, colour: 'red' },
        { ...record, [needed!]: 5 },
        lacking,
        [],
        null,
        'x',
      ]) {
        const at = `${noun} ${JSON.stringify(body)}`;
        // An entry of hours needs no task; every other sample lacks something without its first field.
        const isFine = noun === 'hours' && body === lacking;
        expect(fits(document, 'post', list, body), at).toBe(isFine);
        const { status } = await server.ask('POST', list.replace('{build}', FULL), { body });
        expect(status, at).toBe(isFine ? 201 : 422);
      }
    }
  });

  it('should describe what is answered', async () => {
    const server = await startFull();
    const document = await documentOf(server);
    await server.ask('PATCH', `/api/builds/${FULL}/tools/saw`, { body: { name: 'saw' }, version: 1 });
    for (const [path, method, { responses }] of operationsOf(document)) {
      const schema = responses['200']?.content?.['application/json']?.schema;
      if (method !== 'get' || schema === undefined) continue;
      const url = await exampleOf(server, path);
      const { status, body } = await server.ask('GET', url);
      expect(status, url).toBe(200);
      expect(Compile(schema as unknown as TSchema).Check(body), url).toBe(true);
    }
    const { body } = await server.ask('GET', '/api/builds/nobody');
    expect(Compile(document.components.schemas['Problem'] as unknown as TSchema).Check(body)).toBe(true);
  });
});

describe('the reference page', () => {
  it('should name every address, its fields in words, and run no script', async () => {
    const server = await startFull();
    const document = await documentOf(server);
    const { status, headers, text } = await server.ask('GET', '/api/reference');
    expect([status, headers['content-type']]).toEqual([200, 'text/html; charset=utf-8']);
    for (const path of Object.keys(document.paths)) expect(text).toContain(`</span>${path}</code>`);
    expect(text).toContain('one line of text, 1 to 200 characters, not blank');
    expect(text).not.toMatch(/<script|\son\w+=|\sstyle=|javascript:/i);
  });

  it('should come with its own style, which has both themes', async () => {
    const server = await startFull();
    const [, url] = /<link rel="stylesheet" href="([^"]+)">/.exec(
      (await server.ask('GET', '/api/reference')).text,
    )!;
    const { status, headers, text } = await server.ask('GET', url!);
    expect([status, headers['content-type']]).toEqual([200, 'text/css; charset=utf-8']);
    expect(text).toContain('prefers-color-scheme: dark');
  });

  it('should lead only to places there are', async () => {
    const server = await startFull();
    const { text } = await server.ask('GET', '/api/reference');
    const targets = [...text.matchAll(/href="([^"]+)"/g)].map(([, to]) => to!);
    expect(targets.length).toBeGreaterThan(18);
    for (const to of targets)
      if (to.startsWith('#')) expect(text).toContain(`id="${to.slice(1)}"`);
      else expect((await server.ask('GET', to)).status, to).toBe(200);
  });
});

// Helpers

async function documentOf(server: TestServer): Promise<Document> {
  return (await server.ask('GET', '/api/openapi.json')).body as unknown as Document;
}

function operationsOf({ paths }: Document): [string, string, Operation][] {
  return Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]): [string, string, Operation] => [
      path,
      method,
      operation,
    ]),
  );
}

/** `GET /api/builds/{build}` and so on, as the router itself knows them. */
function routesOf({ app }: TestServer): string[] {
  const lines = app.printRoutes({ commonPrefix: false }).split('\n');
  const stack: string[] = [];
  const routes: string[] = [];
  for (const line of lines) {
    const found = /^([│ ]*)[├└]── (\S*)(?: \((.*)\))?$/u.exec(line);
    if (found === null) continue;
    const [, indent = '', part = '', methods] = found;
    const depth = indent.length / 4;
    stack.length = depth;
    stack[depth] = part;
    const path = stack.join('');
    for (const method of methods?.split(', ') ?? [])
      if (method !== 'HEAD' && !APART.has(path))
        routes.push(`${method} ${path.replaceAll(/:(\w+)/g, '{$1}')}`);
  }
  return routes;
}

function fits(document: Document, method: string, path: string, body: unknown): boolean {
  const content = document.paths[path]![method]!.requestBody!.content;
  expect(Object.keys(content)).toEqual(['application/json']);
  return Compile(content['application/json']!.schema).Check(body);
}

/** The address with a build and the first record of its list. */
async function exampleOf(server: TestServer, path: string): Promise<string> {
  const url = path.replace('{build}', FULL);
  if (!url.endsWith('/{id}')) return url;
  const list = url.slice(0, -'/{id}'.length);
  const [first] = (await server.ask('GET', list)).body as unknown as { id: string }[];
  return `${list}/${encodeURIComponent(first!.id)}`;
}
