/** Two devices on one build: what one types is never lost to what the other stores, and neither is written over unseen. */
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readBuild } from '#shared/contract/read.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { addBuild } from '../../server/store/builds.ts';
import { changeElsewhere, changeHeadElsewhere, fileOf, undoElsewhere } from './support/elsewhere.ts';
import { openHouse, type House } from './support/house.ts';

let house: House;
beforeEach(async () => {
  house = await openHouse();
});
afterEach(() => house.close());

const INES = '/builds/wagtail/settings/people/ines';
const name = (page: Page) => page.getByRole('textbox', { name: 'Name', exact: true });
const bar = (page: Page) => page.getByRole('group', { name: 'Changes not saved yet' });
const button = (page: Page, words: string) => bar(page).getByRole('button', { name: words, exact: true });

describe('two devices on one record', () => {
  it('should say that the other was first, keep what was typed, and take theirs when asked to', async () => {
    const { page, complaints } = await opened(INES);
    await name(page).fill('Ines at the desk');
    await changeElsewhere(house, 'people', 'ines', { name: 'Ines on the phone' });
    await bar(page).getByText('changed elsewhere meanwhile').waitFor();
    expect(await name(page).inputValue()).toBe('Ines at the desk');
    await button(page, 'Take theirs').click();
    expect(await name(page).inputValue()).toBe('Ines on the phone');
    await bar(page).waitFor({ state: 'detached' });
    expect((await fileOf(house)).people[0]!.name).toBe('Ines on the phone');
    expect(complaints).toEqual([]);
  });

  it('should write over what the other stored only by the word that says so', async () => {
    const { page } = await opened(INES);
    await name(page).fill('Ines at the desk');
    await changeElsewhere(house, 'people', 'ines', { name: 'Ines on the phone' });
    await button(page, 'Save mine over it').click();
    await expect.poll(async () => (await fileOf(house)).people[0]!.name).toBe('Ines at the desk');
  });

  it('should refuse the second save where nothing was heard of the first, and offer the same two ways', async () => {
    const { page, context } = await house.device();
    await context.route('**/events', (route) => route.abort());
    await page.goto(INES);
    await name(page).fill('Ines at the desk');
    await changeElsewhere(house, 'people', 'ines', { name: 'Ines on the phone' });
    await button(page, 'Save').click();
    await page.getByText('Not saved: Change the hours of').waitFor();
    await bar(page).getByText('changed elsewhere meanwhile').waitFor();
    expect(await name(page).inputValue()).toBe('Ines at the desk');
    expect((await fileOf(house)).people[0]!.name).toBe('Ines on the phone');
    await button(page, 'Save mine over it').click();
    await expect.poll(async () => (await fileOf(house)).people[0]!.name).toBe('Ines at the desk');
  });

  it('should keep both where each changed another field', async () => {
    const { page } = await opened(INES);
    await name(page).fill('Ines at the desk');
    await changeElsewhere(house, 'people', 'ines', { rate: 1700 });
    const rate = page.getByRole('textbox', { name: 'Paid by the hour' });
    await expect.poll(() => rate.inputValue()).toBe('17');
    await button(page, 'Save').click();
    await expect
      .poll(async () =>
        (await fileOf(house)).people.slice(0, 1).map(({ name: is, rate: paid }) => [is, paid]),
      )
      .toEqual([['Ines at the desk', 1700]]);
  });

  it('should keep both where nothing was heard of the other, too', async () => {
    const { page, context } = await house.device();
    await context.route('**/events', (route) => route.abort());
    await page.goto(INES);
    await name(page).fill('Ines at the desk');
    await changeElsewhere(house, 'people', 'ines', { rate: 1700 });
    await button(page, 'Save').click();
    await expect
      .poll(async () =>
        (await fileOf(house)).people.slice(0, 1).map(({ name: is, rate: paid }) => [is, paid]),
      )
      .toEqual([['Ines at the desk', 1700]]);
  });

  it('should refuse a press made on what was changed meanwhile, and keep what is typed beside it', async () => {
    const { page, context } = await house.device();
    await context.route('**/events', (route) => route.abort());
    await page.goto('/builds/wagtail/decisions/probe-kind');
    const question = page.getByRole('textbox', { name: 'Question', exact: true });
    await question.fill('Which probe, then?');
    await changeElsewhere(house, 'decisions', 'probe-kind', { question: 'Which probe for the waste tank?' });
    await page.getByRole('button', { name: 'Put off' }).first().click();
    await page.getByText('Not saved: Put off').waitFor();
    await bar(page).getByText('changed elsewhere meanwhile').waitFor();
    expect(await question.inputValue()).toBe('Which probe, then?');
    expect((await fileOf(house)).decisions[0]).toMatchObject({
      question: 'Which probe for the waste tank?',
      putOff: 2,
    });
  });
});

describe('two devices on one build', () => {
  it('should keep a draft when another record changes, and work out its effect anew', async () => {
    const { page } = await opened('/builds/wagtail/task/floor-insul?edit=work');
    const likely = page.getByRole('textbox', { name: 'Hours, likely' });
    await likely.fill('30');
    await page.getByRole('textbox', { name: 'Hours, high' }).fill('60');
    const before = await bar(page).innerText();
    expect(before).toMatch(/later/);
    const { week } = (await fileOf(house)).people[0]!;
    await changeElsewhere(house, 'people', 'ines', {
      week: { ...week, mon: ['08:00-20:00'], tue: ['08:00-20:00'] },
    });
    await expect.poll(() => bar(page).innerText()).not.toBe(before);
    expect(await likely.inputValue()).toBe('30 h');
  });

  it('should undo on one device what was done on the other, and show it on both', async () => {
    const desk = await opened('/builds/wagtail/decisions');
    const other = await opened('/builds/wagtail/decisions');
    const pressed = (page: Page) =>
      page.getByRole('button', { name: 'a locker' }).getAttribute('aria-pressed');
    await desk.page.getByRole('button', { name: 'a locker' }).click();
    await expect.poll(() => pressed(other.page)).toBe('true');
    await other.page.keyboard.press('Control+z');
    await expect.poll(() => pressed(desk.page)).toBe('false');
    await desk.page.keyboard.press('Control+y');
    await expect.poll(() => pressed(other.page)).toBe('true');
  });

  it('should show what it missed once it hears again', async () => {
    const { page, context } = await house.device();
    await page.goto('/builds/wagtail/decisions');
    await page.getByRole('heading', { level: 1 }).waitFor();
    await house.away();
    await page.getByText('not connected').filter({ visible: true }).first().waitFor();
    await house.back();
    await changeElsewhere(house, 'decisions', 'probe-kind', { question: 'Which probe, then?' });
    await page.getByText('Which probe, then?').waitFor();
    await page.getByText('not connected').filter({ visible: true }).first().waitFor({ state: 'hidden' });
    await context.close();
  });

  it('should not hold a connection for a page that is not seen, and catch up when it is', async () => {
    const { page, context } = await house.device();
    await context.addInitScript(() =>
      Object.defineProperty(document, 'hidden', { get: () => !('seen' in globalThis) }),
    );
    const heard: string[] = [];
    page.on('request', (request) => request.url().endsWith('/events') && heard.push(request.url()));
    await page.goto('/builds/wagtail/decisions');
    await page.getByRole('heading', { level: 1 }).waitFor();
    await changeElsewhere(house, 'decisions', 'probe-kind', { question: 'Which probe, then?' });
    await page.waitForTimeout(300);
    expect(heard).toEqual([]);
    await page.evaluate(() => {
      Object.assign(globalThis, { seen: true });
      document.dispatchEvent(new Event('visibilitychange'));
    });
    await page.getByText('Which probe, then?').waitFor();
  });

  it('should open it anew when it was removed and taken in again', async () => {
    const { page } = await opened('/builds/wagtail/decisions');
    await changeElsewhere(house, 'decisions', 'probe-kind', { question: 'Which probe, then?' });
    await page.getByText('Which probe, then?').waitFor();
    await house.away();
    await house.back();
    await fetch(`${house.url}/api/builds/wagtail`, { method: 'DELETE', headers: { 'if-match': '"2"' } });
    addBuild(house.store, readBuild(wagtail()), '2027-03-09T20:00:00.000Z');
    await page.getByText('Which level probe').first().waitFor();
  });

  it('should say so when the build is removed elsewhere, and let nothing be typed into the void', async () => {
    const { page } = await opened(INES);
    await name(page).fill('Ines at the desk');
    const response = await fetch(`${house.url}/api/builds/wagtail`, {
      method: 'DELETE',
      headers: { 'if-match': '"1"' },
    });
    expect(response.status).toBe(204);
    await page.getByText('“Wagtail” was removed meanwhile').first().waitFor();
    await page.getByRole('link', { name: 'See all builds' }).click();
    await page.getByRole('heading', { level: 1, name: 'Where do you begin?' }).waitFor();
    expect(await asksBeforeLeaving(page)).toBe(false);
  });
});

describe('two builds', () => {
  beforeEach(() => {
    const second = wagtail() as unknown as { build: { name: string } };
    addBuild(
      house.store,
      readBuild({ ...second, build: { ...second.build, name: 'Heron' } }),
      '2027-03-09T18:30:00.000Z',
    );
  });

  it('should stop listening to the one that is left, and keep what was typed in it', async () => {
    const { page } = await opened(INES);
    await name(page).fill('Ines at the desk');
    const left = page.waitForEvent('requestfailed', (request) => request.url().endsWith('/wagtail/events'));
    await toBuild(page, 'Heron');
    await left;
    await changeHeadElsewhere(house, { name: 'Wagtail the second' });
    await toBuild(page, 'Wagtail the second');
    await page.getByText('Wagtail the second').filter({ visible: true }).first().waitFor();
    await page.evaluate((to) => history.pushState(null, '', to), INES);
    await page.evaluate(() => dispatchEvent(new PopStateEvent('popstate')));
    expect(await name(page).inputValue()).toBe('Ines at the desk');
    await button(page, 'Save').click();
    await page.getByText('Change the hours of').first().waitFor();
    await bar(page).waitFor({ state: 'detached' });
    await expect.poll(async () => (await fileOf(house)).people[0]!.name).toBe('Ines at the desk');
    await page.getByRole('link', { name: /^Ines at the desk/ }).waitFor({ timeout: 2000 });
    // What is shown goes on following the store.
    await undoElsewhere(house);
    await expect.poll(() => name(page).inputValue()).toBe('Ines');
  });

  it('should not undo in a build nobody looks at', async () => {
    const { page } = await opened('/builds/wagtail/decisions');
    await page.getByRole('button', { name: 'a locker' }).click();
    await expect.poll(async () => (await fileOf(house)).decisions[1]!.chosen).toBe('a locker');
    await page.evaluate(() => history.pushState(null, '', '/builds/'));
    await page.evaluate(() => dispatchEvent(new PopStateEvent('popstate')));
    await page.getByRole('heading', { level: 1, name: 'Builds' }).waitFor();
    await page.keyboard.press('Control+z');
    await page.waitForTimeout(300);
    expect((await fileOf(house)).decisions[1]!.chosen).toBe('a locker');
  });
});

// Helpers

async function opened(path: string) {
  const device = await house.device();
  await device.page.goto(path);
  await device.page.getByRole('heading', { level: 1 }).first().waitFor();
  return device;
}

async function toBuild(page: Page, words: string): Promise<void> {
  await page.evaluate(() => history.pushState(null, '', '/builds/'));
  await page.evaluate(() => dispatchEvent(new PopStateEvent('popstate')));
  await page.getByRole('link', { name: words, exact: true }).first().click();
  await page.getByRole('navigation', { name: 'Sheets' }).filter({ visible: true }).first().waitFor();
}

async function asksBeforeLeaving(page: Page): Promise<boolean> {
  let asked = false;
  page.on('dialog', (dialog) => {
    asked = true;
    void dialog.dismiss();
  });
  await page.close({ runBeforeUnload: true });
  await new Promise((resolve) => setTimeout(resolve, 500));
  return asked;
}
