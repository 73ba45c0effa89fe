/**
 * The server against bare Fastify routes that send the same answer from a string, or from bytes, made beforehand: what
 * checking who asks, finding the revision and naming the answer cost. Servers here, the client in a thread of its own,
 * over real sockets, taking turns. After that what a first answer and a write cost, in milliseconds of this machine.
 */
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import Fastify, { type FastifyInstance } from 'fastify';
import { wagtail } from '#shared/demo/wagtail.ts';
import { buildApp } from '../../server/app.ts';
import { openStore } from '../../server/store/database.ts';
import { median, ratio } from './measure.ts';
import { atLeast, digits, printTable, times } from './table.ts';

/** Ask one address so many times. */
interface Round {
  readonly port: number;
  readonly path: string;
  readonly times: number;
}

const SAMPLES = 31;
const WARM_UP = 3;
const REQUESTS = 200;
const AIM = 0.8;
const READS = ['snapshot', 'plan'] as const;
const NOW = '2027-03-10T08:00';

export async function run(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'coverlast-bench-'));
  const store = openStore(join(folder, 'coverlast.db'));
  const ours = await buildApp({
    store,
    now: () => NOW,
    pages: null,
    report: (error) => console.error(error),
  });
  const client = new Worker(new URL('./client.mjs', import.meta.url));
  const bare = Fastify();
  try {
    await ask(ours, 'POST', '/api/builds', wagtail());
    await benchReads(ours, bare, client);
    await benchWrites(ours);
  } finally {
    await client.terminate();
    await Promise.all([ours.close(), bare.close()]);
    rmSync(folder, { recursive: true });
  }
}

async function benchReads(ours: FastifyInstance, bare: FastifyInstance, client: Worker): Promise<void> {
  const sizes: number[] = [];
  for (const read of READS) {
    const text = (await ask(ours, 'GET', `/api/builds/wagtail/${read}`)).payload;
    const bytes = Buffer.from(text);
    sizes.push(bytes.length);
    for (const [kind, body] of [
      ['text', text],
      ['bytes', bytes],
    ] as const)
      bare.get(`/${read}/${kind}`, (_request, reply) =>
        reply.type('application/json; charset=utf-8').send(body),
      );
  }
  const [port, barePort] = [await listen(ours), await listen(bare)];
  const rows: string[][] = [];
  for (const [i, read] of READS.entries()) {
    const [mine, text, bytes] = await alternate(client, [
      { port, path: `/api/builds/wagtail/${read}`, times: REQUESTS },
      { port: barePort, path: `/${read}/text`, times: REQUESTS },
      { port: barePort, path: `/${read}/bytes`, times: REQUESTS },
    ]);
    const perSecond = (samples: readonly number[]) => digits((REQUESTS * 1000) / median(samples));
    const share = ratio(text!, mine!);
    rows.push([
      `${read}, ${Math.round(sizes[i]! / 1000)} kB`,
      ...[mine!, text!, bytes!].map(perSecond),
      times(ratio(bytes!, mine!)),
      times(share),
      atLeast(AIM, share),
    ]);
  }
  const head = ['answer', 'requests/s', 'bare, text', 'bare, bytes', 'to bytes', 'to text', 'aim'];
  printTable('Reads over HTTP, the demo', head, rows);
}

/** Milliseconds of every round, in the order of the rounds; entries of one index were taken side by side. */
async function alternate(client: Worker, rounds: readonly Round[]): Promise<number[][]> {
  const taken = rounds.map((): number[] => []);
  for (let i = -WARM_UP; i < SAMPLES; i++)
    // Nobody always comes first: who does pays for the caches the last one left.
    for (let j = 0; j < rounds.length; j++) {
      const which = (i + WARM_UP + j) % rounds.length;
      const ms = await timeOf(client, rounds[which]!);
      if (i >= 0) taken[which]!.push(ms);
    }
  return taken;
}

async function benchWrites(ours: FastifyInstance): Promise<void> {
  const taken: Record<string, number[]> = { write: [], snapshot: [], plan: [], undo: [], import: [] };
  const timed = async (name: string, work: () => Promise<unknown>) => {
    const from = performance.now();
    await work();
    taken[name]!.push(performance.now() - from);
  };
  const url = '/api/builds/wagtail';
  for (let i = 0; i < SAMPLES; i++) {
    const { version } = (await ask(ours, 'GET', `${url}/tasks/furring-walls`)).json<{ version: number }>();
    const headers = { 'if-match': `"${version}"` };
    await timed('write', () =>
      ask(ours, 'PATCH', `${url}/tasks/furring-walls`, { note: `Note ${i}` }, headers),
    );
    await timed('snapshot', () => ask(ours, 'GET', `${url}/snapshot`));
    await timed('plan', () => ask(ours, 'GET', `${url}/plan`));
    await timed('undo', () => ask(ours, 'POST', `${url}/undo`));
    if (i < 5) await timed('import', () => ask(ours, 'POST', '/api/builds', wagtail()));
  }
  const words: Record<string, string> = {
    write: 'change one task, through the journal to the disk',
    snapshot: 'the first snapshot after a change',
    plan: 'the first plan after a change',
    undo: 'take the change back',
    import: 'take in the demo',
  };
  const rows = Object.entries(taken).map(([name, samples]) => [words[name]!, digits(median(samples))]);
  printTable('What is not remembered, the demo', ['work', 'ms'], rows);
}

// Helpers

async function ask(
  app: FastifyInstance,
  method: 'GET' | 'POST' | 'PATCH',
  url: string,
  body?: object,
  headers: Record<string, string> = {},
) {
  const payload = body === undefined ? {} : { payload: body };
  const answer = await app.inject({ method, url, headers: { host: 'localhost', ...headers }, ...payload });
  if (answer.statusCode >= 300) throw new Error(`${method} ${url}: ${answer.payload.slice(0, 500)}`);
  return answer;
}

async function listen(app: FastifyInstance): Promise<number> {
  await app.listen({ port: 0, host: '127.0.0.1' });
  return (app.server.address() as AddressInfo).port;
}

async function timeOf(client: Worker, round: Round): Promise<number> {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
  client.postMessage(round);
  const [ms] = (await once(client, 'message')) as [number];
  return ms;
}
