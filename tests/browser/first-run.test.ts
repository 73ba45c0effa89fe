/** The first ten minutes: three doors, a plan from the questions, a van that is half built. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { untouchedVan } from '../support/untouched-van.ts';
import { seriousFindings, withAxe } from './support/axe.ts';
import { DESK, openHouse, PHONE, type House } from './support/house.ts';

const SIZES = [
  ['at the desk', DESK],
  ['on the phone', PHONE],
] as const;
/** From the empty store to the first plan. */
const THREE_MINUTES_MS = 180_000;

describe.each(SIZES)('an empty store %s', (_name, size) => {
  let house: House;
  beforeAll(async () => {
    house = await openHouse(null);
  });
  afterAll(() => house.close());

  it('should lead to a first plan within three minutes of taps', async () => {
    const device = await house.device(size, { realTime: true });
    await withAxe(device);
    const { page, complaints } = device;
    const taps = tapper(page);
    await page.goto('/');
    await page.getByText('There is no build in this store yet').waitFor();
    expect(await page.evaluate(seriousFindings)).toEqual([]);

    await taps.on('link', 'Answer the questions');
    await page.getByRole('heading', { level: 1, name: 'What will your van be?' }).waitFor();
    const bar = page.getByRole('status').filter({ hasText: /tasks/ });
    await bar.waitFor();
    const first = await bar.innerText();
    expect(await page.evaluate(seriousFindings)).toEqual([]);
    expect(await overflow(page)).toBeLessThanOrEqual(0);

    await taps.choose('Which windows go in?', 'None');
    await taps.choose('Is there an inlet for mains?', 'No');
    await taps.choose('Which insulation goes on the skin?', 'Wool');
    await taps.choose('Hours of you in a usual week', 'Saturday and Sunday');
    await expect.poll(() => bar.innerText()).not.toBe(first);
    await page.getByLabel('Name of the build').fill('Kestrel');

    // A reload loses nothing.
    await page.reload();
    await page.getByLabel('Name of the build').waitFor();
    expect(await page.getByLabel('Name of the build').inputValue()).toBe('Kestrel');
    expect(
      await page
        .getByRole('group', { name: 'Which insulation goes on the skin?' })
        .getByLabel('Wool')
        .isChecked(),
    ).toBe(true);

    await taps.on('button', 'Make the plan');
    await page.waitForURL('**/builds/kestrel/start');
    await page.getByRole('heading', { name: 'First finish' }).waitFor();
    expect(taps.count).toBeLessThanOrEqual(8);
    expect(taps.elapsed()).toBeLessThan(THREE_MINUTES_MS);

    const { finish, errors } = await planOf(house, 'kestrel');
    expect(finish.dates).not.toBeNull();
    expect(errors).toEqual([]);
    const file = await fileOf(house, 'kestrel');
    expect(file.tasks.length).toBeGreaterThan(90);
    expect(file.people[0]!.week.sun).toHaveLength(2);
    expect(await page.getByText(finish.dates!.slice(0, 4)).first().isVisible()).toBe(true);

    // A lever, pulled and let go again.
    const pull = page.getByRole('button', { name: /^Do it: Have a helper on/ });
    await pull.click({ timeout: 90_000 });
    await expect
      .poll(async () => (await fileOf(house, 'kestrel')).people.length)
      .toBe(file.people.length + 1);
    expect((await planOf(house, 'kestrel')).finish.dates! < finish.dates!).toBe(true);
    await page.getByRole('button', { name: 'Undo' }).filter({ visible: true }).first().click();
    await expect.poll(async () => (await fileOf(house, 'kestrel')).people.length).toBe(file.people.length);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    expect(complaints).toEqual([]);
    await device.context.close();
  });

  it('should take in the demo by a press and offer the tour once', async () => {
    const { page, complaints, context } = await house.device(size);
    await page.goto('/builds/');
    await page.getByRole('button', { name: 'Open the demo' }).click();
    await page.waitForURL(/\/builds\/wagtail\/today$/);
    const tour = page.getByRole('region', { name: 'Tour' });
    await tour.getByRole('button', { name: 'No, thank you' }).click();
    await tour.waitFor({ state: 'detached' });
    await page.goto('/builds/wagtail/shell');
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.goto('/');
    await page.waitForURL(/\/builds\/wagtail\/today$/);
    await page.getByRole('heading', { level: 1 }).first().waitFor();
    expect(await tour.count()).toBe(0);
    const file = await fileOf(house, 'wagtail');
    expect(file.tasks).toHaveLength(149);
    // Moved into the week of whoever opens it.
    expect(file.build.asOf!.slice(0, 10)).toBe('2027-03-09');
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('should name the field of an answer that will not do, and keep the rest', async () => {
    const { page, context } = await house.device(size);
    await page.goto('/builds/?door=starter');
    await page.getByLabel('Budget').fill('a lot');
    await page.getByLabel('Done by').fill('2020-01-01');
    await page.getByRole('button', { name: 'Make the plan' }).click();
    await page.getByText('Not made yet: see what is said at the fields above.').waitFor();
    await page
      .getByText(/must be .* or later|must be an amount/)
      .first()
      .waitFor();
    expect(await page.getByLabel('Budget').inputValue()).toBe('a lot');
    expect(await page.getByText(/NaN|undefined/).count()).toBe(0);
    await context.close();
  });
});

describe.each(SIZES)('a half-built van %s', (_name, size) => {
  let house: House;
  beforeAll(async () => {
    house = await openHouse(untouchedVan('evenings'));
  });
  afterAll(() => house.close());

  it('should be taken in by tapping the bands of the shell, as one change', async () => {
    const { page, complaints, context } = await house.device(size);
    await page.goto('/builds/untouched/start');
    await page.getByRole('link', { name: /^Where are you\?/ }).click();
    await page.getByRole('heading', { level: 1, name: 'Where are you?' }).waitFor();
    const before = await planOf(house, 'untouched');

    if (size === PHONE) await page.getByRole('button', { name: /^L1 Left wall, front/ }).click();
    else await page.getByRole('link', { name: /^L1 Left wall, front/ }).click({ position: { x: 90, y: 8 } });
    await page.getByRole('button', { name: /^Insulation/ }).click();
    await page.getByRole('button', { name: /^Insulation in up to here/ }).waitFor();
    await page.getByRole('button', { name: 'The same in L2 and L3' }).click();
    // Nothing is saved yet, and a reload loses nothing.
    await page.reload();
    const save = page.getByRole('button', { name: /^Mark \d+ tasks in$/ });
    await save.waitFor();
    const tasks = Number(/\d+/.exec(await save.innerText())![0]);
    expect(tasks).toBeGreaterThan(20);
    await page.getByText(/checks are covered without a signature/).waitFor();
    expect((await fileOf(house, 'untouched')).tasks.every(({ state }) => state === 'not-started')).toBe(true);
    expect(await overflow(page)).toBeLessThanOrEqual(0);

    // One of them is still to do, and what comes after it with it.
    await page.getByText('Which tasks', { exact: true }).click();
    await page.getByRole('checkbox', { name: /^Closed-cell sheet bonded to the skin, left/ }).uncheck();
    await page.getByText('still to do').first().waitFor();
    await expect.poll(async () => Number(/\d+/.exec(await save.innerText())![0])).toBeLessThan(tasks);
    await page.getByRole('checkbox', { name: /^Closed-cell sheet bonded to the skin, left/ }).check();
    await page.getByRole('button', { name: `Mark ${tasks} tasks in` }).click();

    await page.waitForURL('**/start');
    const finished = (await fileOf(house, 'untouched')).tasks.filter(({ state }) => state === 'finished');
    expect(finished).toHaveLength(tasks);
    for (const task of finished) expect(task.hoursKnown).toBe(false);
    const after = await planOf(house, 'untouched');
    expect(after.finish.dates! < before.finish.dates!).toBe(true);
    // What nobody checked stays an error; nothing was closed too early.
    expect(new Set(after.errors.map(({ rule }) => rule))).toEqual(new Set(['covered-unchecked']));
    expect(after.progress.pace).toBe(before.progress.pace);

    await page.getByRole('button', { name: 'Undo' }).filter({ visible: true }).first().click();
    await expect
      .poll(async () => (await fileOf(house, 'untouched')).tasks.some(({ state }) => state === 'finished'))
      .toBe(false);
    expect(complaints).toEqual([]);
    await context.close();
  });
});

describe('the shell that is tapped', () => {
  let house: House;
  beforeAll(async () => {
    house = await openHouse(untouchedVan('evenings'));
  });
  afterAll(() => house.close());

  it('should take a press on a band of the drawing, and the keys', async () => {
    const { page } = await house.device(DESK);
    await page.goto('/builds/untouched/where');
    const cell = page.locator('a[data-zone="F2"]');
    await cell.waitFor();
    const band = await page.locator('g[data-depth="fixing"]').evaluateAll((all) => {
      const inF2 = document.querySelector('a[data-zone="F2"]')!.getBoundingClientRect();
      const box = all
        .map((one) => one.getBoundingClientRect())
        .find(({ x, y }) => x >= inF2.x && x < inF2.right && y >= inF2.y && y < inF2.bottom)!;
      return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    });
    await page.mouse.click(band.x, band.y);
    await page.getByRole('button', { name: /^Fixing points in up to here/ }).waitFor();
    expect(new URL(page.url()).searchParams.get('in')).toBe('F2:fixing');

    await cell.focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'F3 Floor, rear' }).waitFor();
    await page.getByRole('button', { name: /^Damping/ }).focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => new URL(page.url()).searchParams.get('in')).toBe('F2:fixing,F3:damping');
  });
});

// Helpers

/** Presses and what they took, as a person with a script would. */
function tapper(page: Page) {
  const begun = performance.now();
  let count = 0;
  return {
    get count() {
      return count;
    },
    elapsed: () => performance.now() - begun,
    on: async (role: 'link' | 'button', name: string) => {
      count++;
      await page.getByRole(role, { name, exact: true }).click();
    },
    choose: async (question: string, answer: string) => {
      count++;
      await page.getByRole('group', { name: question }).getByText(answer, { exact: true }).click();
    },
  };
}

function overflow(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
}

async function fileOf(house: House, build: string): Promise<BuildFile> {
  return (await (await fetch(`${house.url}/api/builds/${build}/file`)).json()) as BuildFile;
}

async function planOf(house: House, build: string): Promise<Plan> {
  return (await (await fetch(`${house.url}/api/builds/${build}/plan`)).json()) as Plan;
}
