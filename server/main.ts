/** Starts the server: reads the configuration, opens the store, fills an empty one with the demo, listens, stops cleanly. */
import { existsSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { demoOn } from '#shared/demo/demo-on.ts';
import { PlanError } from '#shared/errors.ts';
import { buildApp } from './app.ts';
import { nowText, stampText } from './clock.ts';
import { helpText, readConfig, type Config } from './config.ts';
import { addBuild, listBuilds } from './store/builds.ts';
import type { Store } from './store/database.ts';
import { openFolder } from './store/folder.ts';

const PAGES = fileURLToPath(new URL('../web/dist', import.meta.url));

try {
  const config = readConfig(process.argv.slice(2), process.env);
  if (config === null) process.stdout.write(helpText(process.env));
  else await serve(config);
} catch (error) {
  process.stderr.write(`${sentenceOf(error)}\n`);
  process.exit(1);
}

async function serve({ port, host, data, demo }: Config): Promise<void> {
  const store = openFolder(resolve(data));
  try {
    if (demo) fillEmpty(store);
    const pages = existsSync(PAGES) ? PAGES : null;
    const app = await buildApp({ store, now: nowText, pages, report: (error) => console.error(error) });
    await app.listen({ port, host });
    for (const signal of ['SIGINT', 'SIGTERM'] as const)
      process.once(signal, () => {
        void app.close().then(() => process.exit(0));
      });
    const { port: bound } = app.server.address() as AddressInfo;
    process.stdout.write(`http://${host.includes(':') ? `[${host}]` : host}:${bound}/\n`);
  } catch (error) {
    store.close();
    throw error;
  }
}

/** The demo, moved into this week. */
function fillEmpty(store: Store): void {
  if (listBuilds(store.db).length > 0) return;
  addBuild(store, demoOn(nowText().slice(0, 10)), stampText());
}

function sentenceOf(error: unknown): string {
  if (error instanceof PlanError) return error.message;
  const { code, port } = (error ?? {}) as { code?: unknown; port?: unknown };
  if (code === 'EADDRINUSE')
    return `Port ${String(port)} is taken by another program: choose another with --port NUMBER, or --port 0 for any free one.`;
  if (code === 'EACCES')
    return `Port ${String(port)} is not free to use: choose one above 1023 with --port NUMBER.`;
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
