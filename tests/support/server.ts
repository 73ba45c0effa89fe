/**
 * A server for tests: the real application on a real store in a folder of its own, with a clock that stands still.
 * Asked without a port unless a test needs one. It is closed and its folder removed when the test ends.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance, InjectOptions } from 'fastify';
import { onTestFinished } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Changed, Edit } from '#shared/contract/changes.ts';
import { buildApp } from '../../server/app.ts';
import { openStore, type Store, type StoreSettings } from '../../server/store/database.ts';
import { fullDocument, type Loose } from './full-document.ts';

export const NOW = '2027-03-10T08:00';
/** The id the full document gets. */
export const FULL = 'full';

export interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, unknown>>;
  /** The parsed body; undefined when there is none. */
  readonly body: Loose;
  readonly text: string;
}

export interface Snapshot {
  readonly id: string;
  readonly revision: number;
  readonly file: BuildFile;
  readonly versions: Readonly<Record<string, Readonly<Record<string, number>>>>;
  readonly canUndo: string | null;
  readonly canRedo: string | null;
}

export interface Asked {
  readonly body?: unknown;
  /** Sent as it is instead of a body. */
  readonly text?: string;
  readonly headers?: Record<string, string>;
  /** Shorthand for If-Match. */
  readonly version?: number;
}

export interface TestServer {
  readonly app: FastifyInstance;
  readonly store: Store;
  readonly folder: string;
  readonly path: string;
  /** What the server reported of its own faults. */
  readonly reported: unknown[];
  readonly ask: (method: string, url: string, asked?: Asked) => Promise<Answer>;
  readonly snapshot: (build?: string) => Promise<Snapshot>;
  readonly change: (edits: readonly Edit[], label?: string) => Promise<Answer>;
  /** Listens on a free port. @returns the address without a slash at its end */
  readonly listen: () => Promise<string>;
  /** Closes it; its folder stays until the test ends. */
  readonly close: () => Promise<void>;
}

export interface ServerOptions extends StoreSettings {
  /** A folder of an earlier server. */
  readonly folder?: string;
  /** Build documents to take in first. */
  readonly builds?: readonly object[];
  readonly pages?: string | null;
  /** The test is about a fault of the server's own; otherwise such a fault ends the test. */
  readonly mayFail?: boolean;
}

export function makeFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'coverlast-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export async function startServer(options: ServerOptions = {}): Promise<TestServer> {
  const { folder = makeFolder(), builds = [], pages = null, mayFail = false, ...settings } = options;
  const path = join(folder, 'coverlast.db');
  const store = openStore(path, settings);
  const reported: unknown[] = [];
  const app = await buildApp({ store, now: () => NOW, pages, report: (error) => reported.push(error) });
  onTestFinished(() => app.close());

  const ask = async (method: string, url: string, { body, text, headers = {}, version }: Asked = {}) => {
    const payload = text ?? (body === undefined ? undefined : JSON.stringify(body));
    const response = await app.inject({
      method: method as NonNullable<InjectOptions['method']>,
      url,
      headers: {
        host: 'localhost:4180',
        ...(payload === undefined ? {} : { 'content-type': 'application/json' }),
        ...(version === undefined ? {} : { 'if-match': `"${version}"` }),
        ...headers,
      },
      ...(payload === undefined ? {} : { payload }),
    });
    if (response.statusCode === 500 && !mayFail) throw reported.at(-1);
    const isJson = response.payload !== '' && /json/.test(String(response.headers['content-type']));
    const parsed = (isJson ? JSON.parse(response.payload) : undefined) as Loose;
    return { status: response.statusCode, headers: response.headers, body: parsed, text: response.payload };
  };

  for (const document of builds) {
    const { status, text } = await ask('POST', '/api/builds', { body: document });
    if (status !== 201) throw new Error(`A build of the test is refused: ${text}`);
  }

  return {
    app,
    store,
    folder,
    path,
    reported,
    ask,
    snapshot: async (build = FULL) =>
      (await ask('GET', `/api/builds/${build}/snapshot`)).body as unknown as Snapshot,
    change: (edits, label = 'Test') => ask('POST', `/api/builds/${FULL}/changes`, { body: { label, edits } }),
    listen: async () => {
      await app.listen({ port: 0, host: '127.0.0.1' });
      return `http://127.0.0.1:${(app.server.address() as AddressInfo).port}`;
    },
    close: () => app.close(),
  };
}

/** A server that has the full document. */
export function startFull(options: ServerOptions = {}): Promise<TestServer> {
  return startServer({ builds: [fullDocument()], ...options });
}

export function changedOf({ status, body, text }: Answer): Changed {
  if (status !== 200) throw new Error(text);
  return body as unknown as Changed;
}

/** Rows in all tables of a store, by table. */
export function countRows({ store }: TestServer): Record<string, number> {
  const tables = store.db.all<{ name: string }>(
    `select name from sqlite_master where type = 'table' and name not like 'sqlite_%' order by name`,
  );
  return Object.fromEntries(
    tables.map(({ name }) => [name, store.db.get<{ n: number }>(`select count(*) as n from "${name}"`).n]),
  );
}
