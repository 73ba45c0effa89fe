/**
 * `npm run bench -- page`: what the client weighs, how long an edit takes to show, and whether the schedule of 2,000
 * tasks pans without stutter, in real Chromium on this machine.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { DESK, NOW, openHouse, PAGES, type Device, type House } from '../browser/support/house.ts';
import { median } from './measure.ts';
import { seeded } from './networks.ts';
import { atMost, digits, printTable } from './table.ts';
import { manyZones } from './zones.ts';

export async function run(): Promise<void> {
  benchWeight();
  await benchEdits();
  await benchPanning();
}

function benchWeight(): void {
  const folder = join(PAGES, 'assets');
  const sizes = readdirSync(folder).map((name) => {
    const bytes = readFileSync(join(folder, name));
    return { name, raw: bytes.length, packed: gzipSync(bytes, { level: 9 }).length };
  });
  const sum = (ends: RegExp, of: 'raw' | 'packed') =>
    sizes.filter(({ name }) => ends.test(name)).reduce((all, one) => all + one[of], 0) / 1000;
  // What the page itself asks for, before any sheet.
  const html = readFileSync(join(PAGES, 'index.html'), 'utf8');
  const first =
    sizes.filter(({ name }) => html.includes(name)).reduce((all, { packed }) => all + packed, 0) / 1000;
  const code = sum(/\.(js|css)$/, 'packed');
  printTable(
    'Weight of the client, kB',
    ['', 'kB', 'aim'],
    [
      ['script and style, compressed, every sheet', digits(code), atMost(150, code, ' kB')],
      ['of these before the first sheet', digits(first), ''],
      [
        'fonts (latin; the rest only where a text needs it)',
        digits(sum(/(?<!ext)-wght-.*\.woff2$/, 'raw')),
        '',
      ],
      ['fonts, all', digits(sum(/\.woff2$/, 'raw')), ''],
    ],
  );
}

async function benchEdits(): Promise<void> {
  const rows: string[][] = [];
  const cases = [
    ['the demo, 149 tasks', undefined, 'wagtail', 'pull-left', 50],
    ['1,000 tasks in 15 zones', manyZones(1000, 15, seeded(15)), 'test', 't7', 100],
  ] as const;
  for (const [name, file, build, task, aim] of cases) {
    const house = await openHouse(file);
    const { page } = await deviceOf(house);
    await page.goto(`/builds/${build}/task/${task}?edit=work`);
    const field = page.getByLabel('Hours, likely');
    await field.waitFor();
    const taken = median(await editTimes(page, await field.getAttribute('id')));
    rows.push([name, digits(taken), atMost(aim, taken, ' ms')]);
    await house.close();
  }
  printTable(
    'From an edit to its painted effect on finish and closings, ms (median of 25)',
    ['', 'ms', 'aim'],
    rows,
  );
}

/** Functions that run in the page come from tsx with a helper for their names, which the page lacks. */
async function deviceOf(house: House): Promise<Device> {
  const device = await house.device(DESK, { realTime: true });
  await device.context.addInitScript('globalThis.__name = (named) => named');
  return device;
}

/** Types another estimate and waits for the frame that shows what it does. */
function editTimes(page: Page, id: string | null): Promise<number[]> {
  return page.evaluate(async (fieldId) => {
    const field = document.getElementById(fieldId ?? '') as HTMLInputElement;
    const painted = () => new Promise<void>((done) => requestAnimationFrame(() => setTimeout(done)));
    const times: number[] = [];
    for (let i = 0; i < 30; i++) {
      await painted();
      const from = performance.now();
      field.value = `${3 + (i % 7)} h`;
      field.dispatchEvent(new Event('input', { bubbles: true }));
      await painted();
      times.push(performance.now() - from);
    }
    if (document.querySelector('[aria-label="Changes not saved yet"]') === null)
      throw new Error('the edit shows no effect');
    return times.slice(5);
  }, id);
}

async function benchPanning(): Promise<void> {
  const house = await openHouse(manyZones(2000, 15, seeded(16)));
  const { page } = await deviceOf(house);
  await page.goto('/builds/test/schedule?show=all');
  await page.getByRole('heading', { level: 1 }).waitFor();
  await page.waitForTimeout(1500);
  const rows: string[][] = [];
  for (const [name, dx, dy] of [
    ['sideways, by pointer', -14, 0],
    ['down the rows, by wheel', 0, 90],
  ] as const) {
    const frames = recordFrames(page, 2500);
    if (dy === 0) await drag(page, dx);
    else for (let i = 0; i < 40; i++) await page.mouse.wheel(0, dy).then(() => page.waitForTimeout(30));
    const deltas = await frames;
    const worst = Math.max(...deltas);
    rows.push([name, String(deltas.length), digits(median(deltas)), digits(worst), atMost(33, worst, ' ms')]);
  }
  await house.close();
  printTable(
    `Frames while panning 2,000 tasks (the story's moment, ${NOW})`,
    ['', 'frames', 'median ms', 'longest ms', 'aim'],
    rows,
  );
}

async function drag(page: Page, dx: number): Promise<void> {
  await page.mouse.move(1200, 500);
  await page.mouse.down();
  for (let i = 1; i <= 60; i++) {
    await page.mouse.move(1200 + i * dx * 0.9, 500);
    await page.waitForTimeout(16);
  }
  await page.mouse.up();
}

function recordFrames(page: Page, ms: number): Promise<number[]> {
  return page.evaluate(
    (length) =>
      new Promise<number[]>((done) => {
        const deltas: number[] = [];
        const from = performance.now();
        let last = from;
        const frame = (now: number) => {
          deltas.push(now - last);
          last = now;
          if (now - from < length) requestAnimationFrame(frame);
          else done(deltas.slice(1));
        };
        requestAnimationFrame(frame);
      }),
    ms,
  );
}
