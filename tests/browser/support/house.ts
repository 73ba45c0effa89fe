/** A whole house for a browser test: a real database file with the demo in it, the server, and Chromium at its door. */
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
import { readBuild } from '#shared/contract/read.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { buildApp } from '../../../server/app.ts';
import { addBuild } from '../../../server/store/builds.ts';
import { openStore, type Store } from '../../../server/store/database.ts';

export const PAGES = fileURLToPath(new URL('../../../web/dist', import.meta.url));
/** The demo's own moment: its story is told from here. */
export const NOW = '2027-03-09T19:00';

export const DESK = { width: 1440, height: 900 } as const;
export const PHONE = { width: 390, height: 844 } as const;
export type Size = typeof DESK | typeof PHONE;

export interface House {
  readonly url: string;
  readonly store: Store;
  readonly browser: Browser;
  /** A new device: its own storage. What goes wrong on it is collected. */
  readonly device: (size?: Size, options?: { dark?: boolean; realTime?: boolean }) => Promise<Device>;
  /** The server goes away, and comes back at the same address with what it had stored. */
  readonly away: () => Promise<void>;
  readonly back: () => Promise<void>;
  readonly close: () => Promise<void>;
}

export interface Device {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Console errors, page errors and failed requests so far. */
  readonly complaints: string[];
}

/** @param build a build file to serve; left out: the demo as it is; null: nothing, an empty store */
export async function openHouse(build: unknown = wagtail()): Promise<House> {
  const folder = mkdtempSync(join(tmpdir(), 'coverlast-browser-'));
  const file = join(folder, 'coverlast.db');
  let store = openStore(file);
  if (build !== null) addBuild(store, readBuild(build), '2027-03-09T18:00:00.000Z');
  let app = await serve(store, 0);
  const { port } = app.server.address() as AddressInfo;
  const url = `http://localhost:${port}`;
  const browser = await chromium.launch({
    executablePath: chromiumPath(),
    args: ['--headless', '--no-sandbox', '--disable-gpu'],
  });
  return {
    url,
    get store() {
      return store;
    },
    browser,
    device: async (viewport = DESK, { dark = false, realTime = false } = {}) => {
      const context = await browser.newContext({
        viewport,
        colorScheme: dark ? 'dark' : 'light',
        reducedMotion: 'reduce',
        hasTouch: viewport.width < 760,
        baseURL: url,
      });
      // The page's clock stands where the story does.
      if (!realTime) await context.clock.setFixedTime(new Date(2027, 2, 9, 19, 4));
      context.setDefaultTimeout(10_000);
      const page = await context.newPage();
      const complaints: string[] = [];
      listenTo(page, complaints);
      context.on('page', (other) => listenTo(other, complaints));
      return { page, context, complaints };
    },
    away: () => app.close(),
    back: async () => {
      store = openStore(file);
      app = await serve(store, port);
    },
    close: async () => {
      await browser.close();
      await app.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

async function serve(store: Store, port: number): Promise<Awaited<ReturnType<typeof buildApp>>> {
  const app = await buildApp({
    store,
    now: () => NOW,
    pages: PAGES,
    report: (error) => console.error(error),
  });
  await app.listen({ port, host: 'localhost' });
  return app;
}

function listenTo(page: Page, complaints: string[]): void {
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning')
      complaints.push(`console: ${message.text()}`);
  });
  page.on('pageerror', (error) => complaints.push(`page: ${error.message}`));
}

function chromiumPath(): string {
  const named = process.env['CHROMIUM'];
  const found = [named, '/usr/bin/chromium', '/usr/bin/chromium-browser'].find(
    (path) => path !== undefined && path !== '' && existsSync(path),
  );
  if (found === undefined)
    throw new Error('There is no Chromium: install it (apt-get install chromium) or name one in CHROMIUM.');
  return found;
}
