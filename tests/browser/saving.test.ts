/** Saving: nothing typed or pressed is lost to a server that is away, an answer that is lost, or a word that cannot be read. */
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { changeElsewhere, fileOf, labelsOf } from './support/elsewhere.ts';
import { openHouse, PHONE, type House } from './support/house.ts';

let house: House;
beforeEach(async () => {
  house = await openHouse();
});
afterEach(() => house.close());

const INES = '/builds/wagtail/settings/people/ines';
const DECISIONS = '/builds/wagtail/decisions';
const WORK = '/builds/wagtail/task/floor-insul?edit=work';
const CHANGES = '**/api/builds/wagtail/changes';
const name = (page: Page) => page.getByRole('textbox', { name: 'Name', exact: true });
const likely = (page: Page) => page.getByRole('textbox', { name: 'Hours, likely' });
const bar = (page: Page) => page.getByRole('group', { name: 'Changes not saved yet' });
const save = (page: Page) => bar(page).getByRole('button', { name: 'Save', exact: true });
const option = (page: Page, words: string) => page.getByRole('button', { name: words, exact: true });
const pressed = (page: Page, words: string) => option(page, words).getAttribute('aria-pressed');
const LOCKER = 'a locker';
const SHELF = 'an open shelf with a rail';
const shelf = async () => (await fileOf(house)).decisions[1]!.chosen;

describe('a server that is away', () => {
  it.each([
    ['at the desk', undefined],
    ['on the phone', PHONE],
  ] as const)(
    'should keep what was changed on the screen %s, say that it waits, and store it when it is back',
    async (_name, size) => {
      const { page } = await opened(DECISIONS, size);
      await house.away();
      await option(page, LOCKER).click();
      await option(page, SHELF).click();
      await page.getByText('2 changes wait here').waitFor();
      expect(await pressed(page, SHELF)).toBe('true');
      await house.back();
      await expect.poll(shelf, { timeout: 10_000 }).toBe(SHELF);
      await page.getByText('2 changes wait here').waitFor({ state: 'detached' });
      expect(await labelsOf(house)).toHaveLength(2);
      expect(await pressed(page, SHELF)).toBe('true');
      await page.getByText('Not saved').waitFor({ state: 'detached' });
    },
  );

  it('should take back what waits by undo, before it was ever sent', async () => {
    const { page } = await opened(DECISIONS);
    await house.away();
    await option(page, LOCKER).click();
    await option(page, SHELF).click();
    await page.getByText('2 changes wait here').waitFor();
    await page.keyboard.press('Control+z');
    await expect.poll(() => pressed(page, LOCKER)).toBe('true');
    await house.back();
    await expect.poll(shelf, { timeout: 10_000 }).toBe(LOCKER);
    expect(await labelsOf(house)).toHaveLength(1);
  });

  it('should roll back of those that wait only the one that is refused, and name it', async () => {
    const { page, context } = await house.device();
    await context.route('**/events', (route) => route.abort());
    await page.goto(DECISIONS);
    await context.route(CHANGES, (route) => route.abort());
    await page.getByRole('button', { name: 'Put off' }).first().click();
    await option(page, LOCKER).click();
    await changeElsewhere(house, 'decisions', 'probe-kind', { question: 'Which probe, then?' });
    await context.unroute(CHANGES);
    await page.getByText('Not saved: Put off “Which level probe for the waste tank?”').waitFor();
    await expect.poll(shelf).toBe(LOCKER);
    expect((await fileOf(house)).decisions[0]).toMatchObject({ question: 'Which probe, then?', putOff: 2 });
    await page.getByText('Which probe, then?').waitFor();
    expect(await pressed(page, LOCKER)).toBe('true');
  });

  it('should store a saved form later, and warn before the page is left meanwhile', async () => {
    const { page, context } = await opened(INES);
    await name(page).fill('Ines by the sea');
    await context.route(CHANGES, (route) => route.abort());
    await save(page).click();
    await bar(page).getByText('saved as soon as').waitFor();
    await page.getByRole('navigation', { name: 'Sheets' }).getByText('Shell').click();
    await page.getByText('1 change waits here').waitFor();
    expect(await asksBeforeReload(page)).toBe(true);
    await context.unroute(CHANGES);
    await expect
      .poll(async () => (await fileOf(house)).people[0]!.name, { timeout: 10_000 })
      .toBe('Ines by the sea');
  });
});

describe('an answer that is lost', () => {
  it('should not be taken for a refusal, and what was changed after it goes on from it', async () => {
    const { page, context } = await opened(DECISIONS);
    const lost = await loseAnswers(context, 1);
    await option(page, LOCKER).click();
    await option(page, SHELF).click();
    await option(page, SHELF).click();
    await expect.poll(async () => (await labelsOf(house)).length, { timeout: 10_000 }).toBe(3);
    expect(lost()).toBe(1);
    expect(await shelf()).toBe(null);
    expect(await page.getByText('Not saved').count()).toBe(0);
    expect(await pressed(page, SHELF)).toBe('false');
  });

  it('should not log hours twice', async () => {
    const { page, context } = await opened('/builds/wagtail/hours?task=floor-insul');
    const before = (await fileOf(house)).hours.length;
    await loseAnswers(context, 1);
    await page.getByRole('button', { name: '1 h 30', exact: true }).click();
    await page.getByRole('button', { name: 'Log 1 h 30' }).click();
    await page.getByText(/^Log 1 h 30 on .*\.$/).waitFor();
    expect((await fileOf(house)).hours.length).toBe(before + 1);
    expect(await page.getByText('Not saved').count()).toBe(0);
  });

  it('should show an undo whose answer was lost, and not undo twice', async () => {
    const { page, context } = await opened(DECISIONS);
    await option(page, LOCKER).click();
    await expect.poll(shelf).toBe(LOCKER);
    await option(page, SHELF).click();
    await expect.poll(shelf).toBe(SHELF);
    await loseAnswers(context, 1, '**/undo');
    await page.keyboard.press('Control+z');
    await expect.poll(() => pressed(page, LOCKER)).toBe('true');
    expect(await shelf()).toBe(LOCKER);
  });
});

describe('presses in quick succession', () => {
  it('should end where the last one leaves it', async () => {
    const { page, complaints } = await opened(DECISIONS);
    for (let i = 0; i < 3; i++) await option(page, LOCKER).click();
    await expect.poll(async () => (await labelsOf(house)).length).toBe(3);
    expect(await shelf()).toBe(LOCKER);
    expect(await pressed(page, LOCKER)).toBe('true');
    expect(complaints).toEqual([]);
  });

  it('should undo the change that is still on its way, not the one before it', async () => {
    const { page, context } = await opened(DECISIONS);
    await option(page, LOCKER).click();
    await expect.poll(shelf).toBe(LOCKER);
    await context.route(CHANGES, async (route) => {
      await new Promise((resolve) => setTimeout(resolve, 700));
      await route.continue();
    });
    await option(page, SHELF).click();
    await page.keyboard.press('Control+z');
    await page.getByText('Undone: Settle').waitFor();
    expect(await shelf()).toBe(LOCKER);
    expect(await pressed(page, LOCKER)).toBe('true');
    await page.keyboard.press('Control+Shift+z');
    await expect.poll(shelf).toBe(SHELF);
  });

  it('should undo nothing else where the change on its way was refused', async () => {
    const { page, context } = await house.device();
    await context.route('**/events', (route) => route.abort());
    await page.goto(DECISIONS);
    await option(page, LOCKER).click();
    await expect.poll(shelf).toBe(LOCKER);
    await changeElsewhere(house, 'decisions', 'shelf-or-locker', { putOff: 3 });
    await context.route(CHANGES, async (route) => {
      await new Promise((resolve) => setTimeout(resolve, 500));
      await route.continue();
    });
    await option(page, SHELF).click();
    await page.keyboard.press('Control+z');
    await page.getByText('Not saved: Settle').waitFor();
    await page.waitForTimeout(300);
    expect((await fileOf(house)).decisions[1]).toMatchObject({ chosen: LOCKER, putOff: 3 });
  });

  it('should undo by key right after a box was ticked', async () => {
    const { page } = await opened('/builds/wagtail/settings/people/ines');
    await page.getByRole('checkbox', { name: /By name only/ }).check();
    await save(page).click();
    await expect.poll(async () => (await fileOf(house)).people[0]!.byNameOnly).toBe(true);
    await page.getByRole('checkbox', { name: /By name only/ }).focus();
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await fileOf(house)).people[0]!.byNameOnly).toBe(false);
  });
});

describe('what is typed and not saved', () => {
  it('should warn before the page is left', async () => {
    const { page } = await opened(INES);
    expect(await asksBeforeReload(page)).toBe(false);
    await name(page).fill('Ines by the sea');
    expect(await asksBeforeReload(page)).toBe(true);
  });

  it('should stand while other sheets are looked at, with a way back to it, and go when it is left', async () => {
    const { page } = await opened(INES);
    await name(page).fill('Ines by the sea');
    await page.getByRole('navigation', { name: 'Sheets' }).getByText('Shell').click();
    const way = page.getByText('Typed and not saved').getByRole('link', { name: 'Ines' });
    await way.click();
    expect(await name(page).inputValue()).toBe('Ines by the sea');
    await page.getByText('Typed and not saved').waitFor({ state: 'detached' });
    await bar(page).getByRole('button', { name: 'Leave as it was' }).click();
    expect(await name(page).inputValue()).toBe('Ines');
    await bar(page).waitFor({ state: 'detached' });
  });

  it('should stay in its field when it cannot be read, be said in plain words, and keep the form from being saved', async () => {
    const { page, complaints } = await opened(WORK);
    const was = await likely(page).inputValue();
    await likely(page).fill('a while');
    await page.getByRole('textbox', { name: 'Hours, high' }).click();
    expect(await likely(page).inputValue()).toBe('a while');
    await page.getByText('must be hours and minutes').first().waitFor();
    expect(await bar(page).innerText()).toMatch(/Not right yet: Hours, likely cannot be read/);
    expect(await save(page).isDisabled()).toBe(true);
    expect(await page.evaluate(() => document.body.innerText)).not.toMatch(/\bNaN\b/);
    await bar(page).getByRole('button', { name: 'Leave as it was' }).click();
    expect(await likely(page).inputValue()).toBe(was);
    await bar(page).waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
  });

  it('should not log hours that cannot be read', async () => {
    const { page } = await opened('/builds/wagtail/hours?task=floor-insul');
    await page.getByRole('button', { name: '1 h 30', exact: true }).click();
    await page.getByRole('textbox', { name: 'or typed' }).fill('all day');
    expect(await page.getByRole('button', { name: /^Log it/ }).isDisabled()).toBe(true);
    await page.getByRole('textbox', { name: 'or typed' }).fill('2 h 15');
    await page.getByRole('button', { name: 'Log 2 h 15' }).waitFor();
  });

  it('should give way to an undo of the same record', async () => {
    const { page } = await opened(WORK);
    const was = await likely(page).inputValue();
    await likely(page).fill('16 h');
    await save(page).click();
    await expect
      .poll(async () => (await fileOf(house)).tasks.find(({ key }) => key === 'floor-insul')!.minutes.likely)
      .toBe(960);
    await page.getByRole('button', { name: 'Undo', exact: true }).first().click();
    await expect.poll(() => likely(page).inputValue()).toBe(was);
  });

  it('should undo letters inside a field, not the build', async () => {
    const { page } = await opened(DECISIONS);
    await option(page, LOCKER).click();
    await expect.poll(shelf).toBe(LOCKER);
    await page.getByRole('textbox').first().fill('x');
    await page.keyboard.press('Control+z');
    await page.waitForTimeout(300);
    expect(await shelf()).toBe(LOCKER);
  });

  it('should be stored under a name as long as names may be', async () => {
    const long = `Ines ${'and the very long name of a person '.repeat(6)}`.slice(0, 200).trim();
    const { page } = await opened(INES);
    await name(page).fill(long);
    await save(page).click();
    await expect.poll(async () => (await fileOf(house)).people[0]!.name).toBe(long);
    await page.getByRole('textbox', { name: 'Paid by the hour' }).fill('20');
    await save(page).click();
    await expect.poll(async () => (await fileOf(house)).people[0]!.rate).toBe(2000);
  });
});

// Helpers

async function opened(path: string, size?: typeof PHONE) {
  const device = await house.device(size);
  await device.page.goto(path);
  await device.page.getByRole('heading', { level: 1 }).first().waitFor();
  return device;
}

/** The server stores what it is sent, and its answer never arrives. @returns how many were lost so far */
async function loseAnswers(
  context: Awaited<ReturnType<House['device']>>['context'],
  most: number,
  at = CHANGES,
): Promise<() => number> {
  let lost = 0;
  await context.route(at, async (route) => {
    if (lost >= most) return route.continue();
    lost++;
    await route.fetch();
    return route.abort();
  });
  return () => lost;
}

/** Does the browser ask before the page is left? It stays. */
async function asksBeforeReload(page: Page): Promise<boolean> {
  // It asks nobody who has not touched the page.
  await page.mouse.click(5, 5);
  return page.evaluate(() => !dispatchEvent(new Event('beforeunload', { cancelable: true })));
}
