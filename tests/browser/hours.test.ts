/** Hours with hands on the screen: a Saturday over several tasks, a timer, one that was forgotten, hours sorted later. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { BrowserContext, Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { DESK, openHouse, PHONE, type House } from './support/house.ts';

const CIRCUITS = '12 V left circuits: fridge, pump, outlets, control panel';
const RIGHT = 'Closed-cell sheet bonded to the skin, right';
const ROOF = 'Closed-cell sheet bonded to the roof skin';

let house: House;
beforeEach(async () => {
  house = await openHouse();
});
afterEach(() => house.close());

describe.each([
  ['at the desk', DESK],
  ['on the phone', PHONE],
])('hours %s', (_name, size) => {
  it('should log a Saturday over several tasks as one entry each, shared by what each still needs', async () => {
    const { page, complaints } = await opened(size);
    const before = await file();
    const log = page.getByRole('region', { name: 'Log hours' });
    await log.getByLabel('Day').fill('2027-03-06');
    await log.getByRole('textbox', { name: 'or typed' }).fill('6 h');
    for (const name of [CIRCUITS, RIGHT, ROOF]) await log.getByRole('button', { name, exact: true }).click();
    const split = log.getByRole('group', { name: 'What each task gets' });
    await split.getByText('Adds up to 6 h').waitFor();

    // Put right by hand: it has to add up before it can be kept.
    await split.getByRole('textbox', { name: `Hours of ${CIRCUITS}` }).fill('2 h');
    await split.getByText(/ more than 6 h\.| still to be given out\./).waitFor();
    expect(await log.getByRole('button', { name: 'Log 6 h on 3 tasks' }).isDisabled()).toBe(true);
    await split.getByRole('button', { name: 'Share out anew' }).click();
    await log.getByRole('button', { name: 'Log 6 h on 3 tasks' }).click();

    await expect.poll(async () => (await file()).hours.length).toBe(before.hours.length + 3);
    const known = new Set(before.hours.map(({ key }) => key));
    const added = (await file()).hours.filter(({ key }) => !known.has(key));
    expect(added.reduce((sum, { minutes }) => sum + minutes, 0)).toBe(360);
    expect(new Set(added.map(({ task }) => task)).size).toBe(3);
    expect(added.every(({ on, person }) => on === '2027-03-06' && person === 'ines')).toBe(true);
    // One action: it is taken back as one.
    await undo(page);
    await expect.poll(async () => (await file()).hours.length).toBe(before.hours.length);
    expect(complaints).toEqual([]);
  });

  it('should run a timer over a reload, split nothing twice and log it in quarter hours', async () => {
    const { page, context, complaints } = await opened(size);
    await page.getByRole('button', { name: `Start ${RIGHT}` }).click();
    await page.getByRole('timer').waitFor();
    await expect.poll(async () => (await file()).timers.map(({ person }) => person)).toEqual(['ines']);
    const before = (await file()).hours.length;

    await page.reload();
    await at(context, '2027-03-09T20:32');
    await page.reload();
    await page.getByRole('timer').filter({ hasText: '1:28' }).waitFor();
    const timer = page.getByRole('region', { name: 'Running timer of Ines' });
    await timer.getByRole('button', { name: 'three quarters' }).click();
    await timer.getByRole('button', { name: '+ 15 min' }).click();
    await timer.getByRole('button', { name: 'Stop and log 1 h 45' }).click();
    await expect.poll(async () => (await file()).timers.length).toBe(0);
    const { hours, tasks } = await file();
    expect(hours.length).toBe(before + 1);
    expect(hours.at(-1)).toMatchObject({
      task: 'skin-right',
      person: 'ines',
      on: '2027-03-09',
      minutes: 105,
    });
    // 2 h 30 and 1 h 45 are three quarters: a third of them is left, by the two of them at it or one.
    const task = tasks.find(({ key }) => key === 'skin-right')!;
    expect(task.remainingMinutes).toBe(Math.round(255 / 3 / task.people));
    expect(complaints).toEqual([]);
  });

  it('should start and stop the timer on the sheet of the task', async () => {
    const { page, context, complaints } = await opened(size, 'task/skin-right', false, RIGHT);
    const bar = page.getByRole('group', { name: 'State of the task' });
    await bar.getByRole('button', { name: 'Start timer' }).click();
    await bar.getByRole('button', { name: /^Stop 0:00/ }).waitFor();
    await expect
      .poll(async () => (await file()).timers.map(({ person, task }) => [person, task]))
      .toEqual([['ines', 'skin-right']]);
    const before = (await file()).hours.length;

    // On the sheet of another task it says that this one is stopped by it.
    await page.goto('/builds/wagtail/task/skin-ceiling');
    await page.getByRole('heading', { level: 1, name: ROOF }).waitFor();
    expect(await bar.getByRole('button', { name: 'Switch timer' }).getAttribute('title')).toContain(RIGHT);

    await at(context, '2027-03-09T20:34');
    await page.goto('/builds/wagtail/task/skin-right');
    await bar.getByRole('button', { name: /^Stop 1:30/ }).click();
    const dialog = page.getByRole('dialog', { name: 'Stop' });
    await dialog.getByRole('button', { name: 'Stop and log 1 h 30' }).click();
    await expect.poll(async () => (await file()).timers.length).toBe(0);
    expect((await file()).hours).toHaveLength(before + 1);
    expect((await file()).hours.at(-1)).toMatchObject({ task: 'skin-right', person: 'ines', minutes: 90 });
    await bar.getByRole('button', { name: 'Start timer' }).waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(
      0,
    );
    expect(complaints).toEqual([]);
  });

  it('should stop a timer on one device and show it stopped on the other', async () => {
    const { page } = await opened(size);
    const other = (await opened(PHONE)).page;
    await page.getByRole('button', { name: `Start ${RIGHT}` }).click();
    await other.getByRole('timer').waitFor();
    await other.getByRole('button', { name: '+ 15 min' }).click();
    await other.getByRole('button', { name: 'Stop and log 15 min' }).click();
    await page.getByRole('timer').waitFor({ state: 'detached' });
    await expect
      .poll(async () => (await file()).hours.filter(({ on }) => on === '2027-03-09').length)
      .toBe(1);
  });

  it('should ask about a timer that ran into the night, and log it up to the end of the window', async () => {
    const { page, context, complaints } = await opened(size);
    await page.getByRole('button', { name: `Start ${RIGHT}` }).click();
    await page.getByRole('timer').waitFor();
    await at(context, '2027-03-10T07:10');
    await page.reload();
    await page.getByText('Stopped at Tue 9 Mar, 21:00?').waitFor();
    expect(await page.getByRole('button', { name: /^Stop and log/ }).count()).toBe(0);
    await page.getByRole('button', { name: 'Yes, at 21:00' }).click();
    await page.getByRole('button', { name: 'Stop and log 2 h', exact: true }).click();
    await expect.poll(async () => (await file()).timers.length).toBe(0);
    expect((await file()).hours.at(-1)).toMatchObject({ on: '2027-03-09', minutes: 120 });
    expect(complaints).toEqual([]);
  });

  it('should switch to another task, and log the first up to then', async () => {
    const { page, context } = await opened(size);
    await page.getByRole('button', { name: `Start ${RIGHT}` }).click();
    await page.getByRole('timer').waitFor();
    await at(context, '2027-03-09T20:04');
    await page.reload();
    await page.getByRole('timer').filter({ hasText: '1:00' }).waitFor();
    await page.getByRole('button', { name: `Start ${CIRCUITS}` }).click();
    await page.getByRole('timer').filter({ hasText: '0:00' }).waitFor();
    await expect
      .poll(async () => (await file()).hours.at(-1))
      .toMatchObject({ task: 'skin-right', minutes: 60 });
    expect((await file()).timers).toHaveLength(1);
  });

  it('should sort hours of a phase to tasks', async () => {
    const { page, complaints } = await opened(size);
    const unsorted = (await file()).hours.filter(({ task }) => task === null);
    expect(unsorted.map(({ minutes }) => minutes).toSorted()).toEqual([120, 60]);
    const list = page.getByRole('region', { name: /^To be sorted/ });
    await list.getByRole('button', { name: /^Sort 2 h/ }).click();
    expect(page.url()).toContain('sort=');
    await list.getByRole('combobox', { name: 'It was on which task' }).fill('filler hose');
    await list.getByRole('option').first().click();
    await list.getByRole('button', { name: 'Sort 2 h', exact: true }).click();
    await expect.poll(async () => (await file()).hours.filter(({ task }) => task === null).length).toBe(1);
    const { hours } = await file();
    expect(
      hours.find(({ key }) => key === unsorted.find(({ minutes }) => minutes === 120)!.key),
    ).toMatchObject({
      task: 'filler-hose',
      minutes: 120,
    });
    expect(complaints).toEqual([]);
  });

  it('should refuse more than a day has, in words, and keep what was typed', async () => {
    const { page } = await opened(size);
    const log = page.getByRole('region', { name: 'Log hours' });
    await log.getByLabel('Day').fill('2027-03-06');
    await log.getByRole('textbox', { name: 'or typed' }).fill('20 h');
    // Five hours are on that day already.
    await log
      .getByText('Ines has 5 h on Sat 6 Mar already: 20 h more would be 1 h more than a day has.')
      .waitFor();
    expect(await log.getByRole('button', { name: 'Log 20 h' }).isDisabled()).toBe(true);
    expect(await log.getByRole('textbox', { name: 'or typed' }).inputValue()).toBe('20 h');
    await log.getByRole('textbox', { name: 'or typed' }).fill('19 h');
    await expect.poll(() => log.getByRole('button', { name: 'Log 19 h' }).isEnabled()).toBe(true);
  });

  it('should fill the form from one typed line, and log nothing before the button is pressed', async () => {
    const { page } = await opened(size);
    const before = (await file()).hours.length;
    await page.getByRole('textbox', { name: 'In one line' }).fill('tor sat 1.5 roof skin half');
    await page.getByText(`Read: Tor, 1 h 30, Sat 6 Mar, ${ROOF} and 50 % done.`).waitFor();
    await page.getByRole('button', { name: 'Fill in' }).click();
    const log = page.getByRole('region', { name: 'Log hours' });
    expect((await file()).hours.length).toBe(before);
    expect(await log.getByRole('button', { name: 'half' }).getAttribute('aria-pressed')).toBe('true');
    await log.getByRole('button', { name: 'Log 1 h 30', exact: true }).click();
    await expect.poll(async () => (await file()).hours.length).toBe(before + 1);
    const { hours, tasks } = await file();
    expect(hours.at(-1)).toMatchObject({
      person: 'tor',
      on: '2027-03-06',
      minutes: 90,
      task: 'skin-ceiling',
    });
    expect(tasks.find(({ key }) => key === 'skin-ceiling')!.state).toBe('started');
  });

  it('should tell what went in, month and day in the address', async () => {
    const { page, complaints } = await opened(size, 'hours?month=2026-10');
    const went = page.getByRole('region', { name: /^What went in/ });
    await went.getByRole('heading', { name: 'What went in Oct 2026' }).waitFor();
    await went.getByRole('button', { name: /^Sat 24 Oct/ }).click();
    await went.getByRole('heading', { name: /Sat 24 Oct/ }).waitFor();
    expect(page.url()).toContain('day=2026-10-24');
    await went.getByRole('button', { name: 'Day after' }).click();
    expect(page.url()).toContain('day=2026-10-25');
    await page.reload();
    await went.getByRole('heading', { name: /Sun 25 Oct/ }).waitFor();
    expect(complaints).toEqual([]);
  });

  it('should show nothing serious to axe while a timer runs, sorts and splits are open, in both themes', async () => {
    for (const dark of [false, true]) {
      const { page, context } = await opened(size, 'hours', dark);
      await context.addInitScript(AXE);
      if (!dark) await page.getByRole('button', { name: `Start ${RIGHT}` }).click();
      await page.reload();
      await page.getByRole('timer').waitFor();
      const log = page.getByRole('region', { name: 'Log hours' });
      await log.getByRole('button', { name: '4 h', exact: true }).click();
      for (const name of [CIRCUITS, ROOF]) await log.getByRole('button', { name, exact: true }).click();
      await page.getByRole('button', { name: /^Sort 2 h/ }).click();
      await page.getByText('The weeks as a table').click();
      await page.getByRole('columnheader', { name: 'Week from' }).waitFor();
      expect(await seriousFindings(page)).toEqual([]);
      expect(
        await page.evaluate(() => document.documentElement.scrollWidth - innerWidth),
      ).toBeLessThanOrEqual(0);
      await context.close();
    }
  });
});

describe('hours by keyboard alone', () => {
  it('should start and stop a timer without the pointer', async () => {
    const { page, context } = await opened(DESK);
    await tabTo(page, `Start ${RIGHT}`);
    await page.keyboard.press('Enter');
    await page.getByRole('timer').waitFor();
    await expect.poll(async () => (await file()).timers.length).toBe(1);
    await at(context, '2027-03-09T19:34');
    await page.reload();
    await page.getByRole('timer').filter({ hasText: '0:30' }).waitFor();
    await tabTo(page, 'Stop and log 30 min');
    await page.keyboard.press('Enter');
    await expect.poll(async () => (await file()).timers.length).toBe(0);
    expect((await file()).hours.at(-1)).toMatchObject({ minutes: 30 });
  });
});

// Helpers

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

async function opened(size: typeof DESK | typeof PHONE, view = 'hours', dark = false, heading = 'Hours') {
  const device = await house.device(size, { dark });
  await device.page.goto(`/builds/wagtail/${view}`);
  await device.page.getByRole('heading', { level: 1, name: heading }).waitFor();
  return device;
}

async function file(): Promise<BuildFile> {
  return (await (await fetch(`${house.url}/api/builds/wagtail/file`)).json()) as BuildFile;
}

/** The device's clock, for the pages it loads from now on. */
async function at(context: BrowserContext, instant: string): Promise<void> {
  await context.clock.setFixedTime(new Date(instant));
}

async function undo(page: Page): Promise<void> {
  await page.getByRole('status').getByRole('button', { name: 'Undo' }).first().click();
  await page.getByText(/^Undone:/).waitFor();
}

async function tabTo(page: Page, words: string): Promise<void> {
  for (let i = 0; i < 200; i++) {
    const now = await page.evaluate(() => {
      const element = document.activeElement as HTMLElement | null;
      return (element?.getAttribute('aria-label') ?? element?.innerText ?? '').trim().replace(/\s+/g, ' ');
    });
    if (now.startsWith(words)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`The Tab key never reaches ${words}`);
}

async function seriousFindings(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    interface Finding {
      readonly id: string;
      readonly impact: string;
      readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
    }
    const { axe } = globalThis as unknown as {
      axe: { run: (root: unknown, options: object) => Promise<{ violations: Finding[] }> };
    };
    const { violations } = await axe.run(document, { resultTypes: ['violations'] });
    return violations
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .map(
        ({ id, nodes }) =>
          `${id}: ${nodes.map(({ html, failureSummary }) => `${html.slice(0, 200)} ${failureSummary}`).join(' | ')}`,
      );
  });
}
