/** Tasks made easy at both sizes: a bay copied to another, a task split by hours, a check that failed and then passed. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { document, EVENINGS, link, task } from '../support/builds.ts';
import { DESK, openHouse, PHONE, type House } from './support/house.ts';
import { snapshotOf } from './support/elsewhere.ts';

const BUILD = 'bays';
let house: House;
beforeAll(async () => {
  house = await openHouse(bays());
});
afterAll(() => house.close());

describe.each([
  ['at the desk', DESK],
  ['on the phone', PHONE],
] as const)('a bay copied %s', (_name, size) => {
  it('should be shown with its tasks and hours before it is done, done as one change, and taken back', async () => {
    const { page, complaints } = await house.device(size);
    const before = await fileText();
    await page.goto(`/builds/${BUILD}/shell/L2?show=all`);
    await page.getByRole('button', { name: 'Copy the tasks of L2 to another zone' }).click();
    const sheet = page.getByRole('dialog', { name: 'Copy the tasks of L2 to another zone' });
    await sheet.getByText('Choose the zone they are copied to.').waitFor();
    await sheet.getByRole('button', { name: /^R2/ }).click();
    await sheet.getByText('2 tasks, 5 h', { exact: false }).waitFor();
    await sheet.getByText('Rib fill right').waitFor();
    await sheet.getByText('R2 gets the depth fill').waitFor();
    await sheet.getByText('Already planned in R2, so not copied: Clean.').waitFor();
    await sheet.getByText('Wanted once more: 1 line').waitFor();
    await sheet.getByText(/^Finish .* later/).waitFor();
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    await sheet.getByRole('button', { name: 'Copy them' }).click();
    await sheet.waitFor({ state: 'detached' });
    await expect
      .poll(async () => (await file()).tasks.map(({ key }) => key))
      .toEqual(['clean', 'fill', 'fill-R2', 'panel', 'panel-R2']);
    const { links, zones } = await file();
    expect(links.map(({ from, to }) => `${from} ${to}`)).toEqual([
      'clean fill',
      'fill panel',
      'clean fill-R2',
      'fill-R2 panel-R2',
    ]);
    expect(zones.find(({ key }) => key === 'R2')!.depths).toEqual(['metal', 'fill', 'panel']);
    await page.keyboard.press('Control+z');
    await expect.poll(fileText).toBe(before);
    expect(complaints).toEqual([]);
  });
});

describe('a bay copied from its settings', () => {
  it('should say why nothing can be copied to itself', async () => {
    const { page, complaints } = await house.device(DESK);
    await page.goto(`/builds/${BUILD}/settings/zones/L2`);
    await page.getByRole('button', { name: 'Copy its tasks to another zone' }).click();
    const sheet = page.getByRole('dialog', { name: 'Copy the tasks of L2 to another zone' });
    await sheet.getByRole('button', { name: /^L2/ }).click();
    await sheet.getByText('That is the zone itself: choose another one.').waitFor();
    expect(await sheet.getByRole('button', { name: 'Copy them' }).isDisabled()).toBe(true);
    await sheet.getByRole('button', { name: 'Leave it' }).click();
    await sheet.waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
  });
});

describe('a task', () => {
  it('should be split by hours, its second part behind the first', async () => {
    const { page, complaints } = await house.device(DESK);
    await page.goto(`/builds/${BUILD}/task/panel`);
    await page.getByRole('button', { name: 'Split by hours' }).click();
    await page.getByLabel('First part').fill('1 h');
    await page.getByText('1 h now, 2 h in “Close the left wall, second part”.', { exact: false }).waitFor();
    await page.getByRole('button', { name: 'Split it' }).click();
    await expect
      .poll(async () => (await file()).tasks.map(({ key, minutes }) => `${key} ${minutes.likely}`))
      .toEqual(['clean 60', 'fill 120', 'panel 60', 'panel-2 120']);
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await file()).tasks).toHaveLength(3);
    expect(complaints).toEqual([]);
  });

  it('should keep the history of a check that failed and then passed, in the same minute too', async () => {
    const { page, complaints } = await house.device(PHONE);
    await page.goto(`/builds/${BUILD}/task/panel`);
    const check = page.getByRole('listitem').filter({ hasText: 'Screws hold' });
    await check.getByLabel(/^Reading/).fill('two loose');
    await check.getByRole('button', { name: 'It failed' }).click();
    await check.getByText(/Failed.*two loose/).waitFor();
    await check.getByLabel(/^Reading/).fill('all tight');
    await check.getByRole('button', { name: 'Sign' }).click();
    await check.getByText(/Passed.*all tight/).waitFor();
    await check.getByRole('button', { name: 'Check again' }).waitFor();
    await check.getByText(/Failed.*two loose/).waitFor();
    const { holdPoints } = (await file()).tasks.find(({ key }) => key === 'panel')!;
    expect(holdPoints[0]!.attempts.map(({ pass, reading }) => [pass, reading])).toEqual([
      [false, 'two loose'],
      [true, 'all tight'],
    ]);
    expect(complaints).toEqual([]);
  });
});

// Helpers

function bays(): object {
  return document({
    build: { name: 'Bays', startOn: '2027-03-08', asOf: '2027-03-09T19:00' },
    people: [{ key: 'ines', name: 'Ines', week: EVENINGS }],
    depths: ['metal', 'fill', 'panel'],
    zones: [
      { key: 'L2', name: 'left wall, middle', face: 'left', bay: 2, depths: ['metal', 'fill', 'panel'] },
      { key: 'R2', name: 'right wall, middle', face: 'right', bay: 2, depths: ['metal', 'panel'] },
    ],
    tasks: [
      task('clean', 60, {
        name: 'Clean',
        places: [
          { zone: 'L2', depth: 'metal' },
          { zone: 'R2', depth: 'metal' },
        ],
      }),
      task('fill', 120, { name: 'Rib fill left', places: [{ zone: 'L2', depth: 'fill', hides: 'metal' }] }),
      task('panel', 180, {
        name: 'Close the left wall',
        places: [{ zone: 'L2', depth: 'panel', hides: 'fill' }],
        holdPoints: [{ key: 'screws', name: 'Screws hold', kind: 'visual', when: 'exit' }],
      }),
    ],
    links: [link('clean', 'fill'), link('fill', 'panel')],
    purchases: [
      {
        key: 'wool',
        leadDays: 2,
        lines: [{ key: 'l', name: 'wool left', quantity: 2, unitPrice: 500, neededBy: ['fill'] }],
      },
    ],
  });
}

async function file() {
  return (await snapshotOf(house, BUILD)).file;
}

async function fileText(): Promise<string> {
  return JSON.stringify(await file());
}

function overflow(page: Page): Promise<number> {
  return page.evaluate(() => globalThis.document.documentElement.scrollWidth - innerWidth);
}
