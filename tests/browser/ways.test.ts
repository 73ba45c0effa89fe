/** The ways through the program: keys that keep out of what is typed, dialogs that give the focus back, and addresses. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readBuild } from '#shared/contract/read.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { addBuild } from '../../server/store/builds.ts';
import { openHouse, type House } from './support/house.ts';

let house: House;
beforeAll(async () => {
  house = await openHouse();
  const second = wagtail() as unknown as { build: { name: string } };
  addBuild(
    house.store,
    readBuild({ ...second, build: { ...second.build, name: 'Heron' } }),
    '2027-03-09T18:30:00.000Z',
  );
});
afterAll(() => house.close());

const open = (page: Page) => page.locator('dialog[open]').count();

describe('keys', () => {
  it('should keep out of what is typed, of dialogs, and of the keys of the browser', async () => {
    const { page } = await opened('/builds/wagtail/decisions');
    const field = page.getByRole('textbox').first();
    await field.click();
    await page.keyboard.type('n/?gs');
    expect(await field.inputValue()).toBe('n/?gs');
    expect(await open(page)).toBe(0);
    await field.fill('');
    await field.blur();
    for (const keys of ['Control+n', 'Alt+n', 'Meta+/']) await page.keyboard.press(keys);
    expect(await open(page)).toBe(0);
    await page.keyboard.press('?');
    await page.keyboard.press('n');
    expect(await open(page)).toBe(1);
    await page.getByRole('dialog', { name: 'Keys' }).waitFor();
    await page.keyboard.press('Escape');
    await page.keyboard.press('g');
    await page.keyboard.press('m');
    await page.waitForURL('**/builds/wagtail/money');
  });

  it('should work beside a box that was just ticked', async () => {
    const { page } = await opened('/builds/wagtail/settings/people/ines');
    await page.getByRole('checkbox', { name: /By name only/ }).focus();
    await page.keyboard.press('/');
    await page.getByRole('combobox', { name: 'Find' }).waitFor();
  });

  it('should do nothing on the list of builds that would need one', async () => {
    const { page } = await opened('/builds/');
    await page.keyboard.press('g');
    await page.keyboard.press('t');
    await page.keyboard.press('/');
    await page.keyboard.press('n');
    expect(new URL(page.url()).pathname).toBe('/builds/');
    await page.getByRole('link', { name: 'Heron', exact: true }).first().click();
    await page.waitForURL('**/builds/heron/today');
    await page.getByText('Heron').filter({ visible: true }).first().waitFor();
    expect(await open(page)).toBe(0);
  });
});

describe('dialogs', () => {
  it('should give the focus back to where it was', async () => {
    const { page } = await opened('/builds/wagtail/decisions');
    const find = page.getByRole('button', { name: 'Find', exact: true }).filter({ visible: true });
    await find.click();
    await page.keyboard.press('Escape');
    expect(await find.evaluate((one) => one === document.activeElement)).toBe(true);
    await find.click();
    await page.getByRole('combobox', { name: 'Find' }).fill('ines');
    await page.keyboard.press('Enter');
    await page.waitForURL('**/people/ines');
    expect(await page.evaluate(() => document.activeElement === document.body)).toBe(false);
  });

  it('should not close when words are marked in a field and the pointer is let go beside it', async () => {
    const { page } = await opened('/builds/wagtail/decisions');
    await page.keyboard.press('n');
    const field = page.getByLabel('What is it called?');
    await field.fill('Cord for a spare lamp');
    const box = (await field.boundingBox())!;
    await page.mouse.move(box.x + 60, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(10, box.y + box.height / 2, { steps: 4 });
    await page.mouse.up();
    expect(await open(page)).toBe(1);
    expect(await field.inputValue()).toBe('Cord for a spare lamp');
    await page.mouse.click(10, 10);
    expect(await open(page)).toBe(0);
  });

  it('should go with the sheet they were opened on when the reader goes back', async () => {
    const { page } = await opened('/builds/wagtail/decisions');
    await page.keyboard.press('g');
    await page.keyboard.press('h');
    await page.waitForURL('**/hours');
    await page.keyboard.press('/');
    await page.getByRole('combobox', { name: 'Find' }).waitFor();
    await page.goBack();
    await page.getByRole('heading', { level: 1, name: 'Decisions' }).waitFor();
    expect(await open(page)).toBe(0);
  });
});

describe('find', () => {
  it('should put what begins with the letters first, and keep the chosen one in sight', async () => {
    const { page } = await opened('/builds/wagtail/decisions');
    await page.keyboard.press('/');
    const field = page.getByRole('combobox', { name: 'Find' });
    await field.fill('r2');
    expect(await page.getByRole('option').first().innerText()).toMatch(/^zone\s+R2/);
    await field.fill('a');
    for (let i = 0; i < 25; i++) await page.keyboard.press('ArrowDown');
    const isSeen = await page.getByRole('option', { selected: true }).evaluate((one) => {
      const [own, list] = [one.getBoundingClientRect(), one.parentElement!.getBoundingClientRect()];
      return own.top >= list.top - 1 && own.bottom <= list.bottom + 1;
    });
    expect(isSeen).toBe(true);
  });
});

describe('addresses', () => {
  it('should bring the reader back to where the sheet was left', async () => {
    const { page } = await opened('/builds/wagtail/task');
    await page.evaluate(() => scrollTo(0, 600));
    await page.waitForTimeout(200);
    await page
      .locator('main a')
      .filter({ visible: true })
      .nth(60)
      .evaluate((link: HTMLElement) => link.click());
    await page.waitForURL('**/task/**');
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(await page.evaluate(() => scrollY)).toBe(0);
    await page.goBack();
    await expect.poll(() => page.evaluate(() => Math.round(scrollY))).toBe(600);
  });

  it('should not count a link to where the reader is already', async () => {
    const { page } = await opened('/builds/wagtail/decisions');
    await page.goto('/builds/wagtail/hours');
    const sheets = page.getByRole('navigation', { name: 'Sheets' });
    for (let i = 0; i < 3; i++) await sheets.getByText('Money').click();
    await page.waitForURL('**/money');
    await page.goBack();
    await page.waitForURL('**/hours');
  });

  it('should not offer the tools of one build under the address of another', async () => {
    const { page } = await opened('/builds/wagtail/decisions');
    await page.evaluate(() => history.pushState(null, '', '/builds/kestrel/today'));
    await page.evaluate(() => dispatchEvent(new PopStateEvent('popstate')));
    await page.getByText('There is no build "kestrel"').waitFor();
    await page.keyboard.press('n');
    expect(await open(page)).toBe(0);
    await page.goBack();
    await page.getByRole('heading', { level: 1, name: 'Decisions' }).waitFor();
  });

  it('should say that a sheet cannot be fetched, and fetch it when asked again', async () => {
    const { page, context } = await opened('/builds/wagtail/decisions');
    await context.route('**/assets/Money*.js', (route) => route.abort());
    await page.getByRole('navigation', { name: 'Sheets' }).getByText('Money').click();
    await page.getByRole('heading', { level: 1, name: 'Money cannot be fetched' }).waitFor();
    await context.unroute('**/assets/Money*.js');
    await page.getByRole('button', { name: 'Try again' }).click();
    await page.getByRole('heading', { level: 1, name: 'Money' }).waitFor();
  });
});

// Helpers

async function opened(path: string) {
  const device = await house.device();
  await device.page.goto(path);
  await device.page.getByRole('heading', { level: 1 }).first().waitFor();
  return device;
}
