/** The main job once more, by keyboard alone: the pointer is never touched. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { openHouse, type House } from './support/house.ts';

let house: House;
beforeAll(async () => {
  house = await openHouse();
});
afterAll(() => house.close());

describe('with the keyboard alone', () => {
  it('should repair the order, undo, add a task, link it, fix its date, and change a week', async () => {
    const { page, complaints } = await house.device();
    const press = (...keys: string[]) =>
      keys.reduce((before, key) => before.then(() => page.keyboard.press(key)), Promise.resolve());
    await page.goto('/builds/wagtail/today');
    await page.getByRole('heading', { level: 1 }).waitFor();

    await press('g', 'q');
    await page.getByText('Dates are provisional').waitFor();
    await tabTo(page, /^Battens on walls, linked before Filler hose/);
    await press('Enter');
    await page.getByText('The dates are no longer provisional').waitFor();
    await press('a');
    await page.getByText('Dates are provisional').waitFor({ state: 'detached' });
    await expect.poll(async () => (await plan()).provisional).toBe(false);
    await press('Control+z');
    await page.getByText('Dates are provisional').waitFor();
    await expect.poll(async () => (await plan()).provisional).toBe(true);

    await press('n');
    await page.getByLabel('What is it called?').waitFor();
    await tabTo(page, /^What is it called/);
    await page.keyboard.type('Cord for a spare lamp');
    // The net of the van is one stop of the Tab key; arrows walk it as it lies.
    await tabTo(page, /^EL/);
    await press('ArrowDown', 'ArrowDown', 'ArrowRight', 'ArrowRight');
    expect(await focused(page)).toMatch(/^R2/);
    await press('Enter');
    await tabTo(page, /decide later|nothing covers it|Drying locker/);
    for (let i = 0; i < 12 && !(await focused(page)).startsWith('Rib and cavity fill'); i++)
      await press('ArrowUp');
    expect(await focused(page)).toMatch(/^Rib and cavity fill/);
    await tabTo(page, /^Add the task/);
    await press('Enter');
    await page.waitForURL('**/task/cord-for-a-spare-lamp');
    await expect
      .poll(async () => taskOf(await file())?.places)
      .toEqual([{ zone: 'R2', depth: 'services', hides: null }]);

    await tabTo(page, /^Add what comes first/);
    await press('Enter');
    await page.getByRole('combobox', { name: 'It comes after' }).waitFor();
    await tabTo(page, /^It comes after/);
    await page.keyboard.type('conduits right');
    await page.getByRole('option').first().waitFor();
    await press('Enter');
    await tabTo(page, /^Add the link|^Save/);
    await press('Enter');
    await expect
      .poll(async () =>
        (await file()).links.some(
          ({ from, to }) => from === 'conduit-right-ceiling' && to === 'cord-for-a-spare-lamp',
        ),
      )
      .toBe(true);

    await tabTo(page, /^Fix the date/);
    await press('Enter');
    await tabTo(page, /^Fixed to/);
    await page.keyboard.type('06052027');
    await press('Tab');
    await page.keyboard.type('1000AM');
    await tabTo(page, /^Save/);
    await press('Enter');
    await expect.poll(async () => taskOf(await file())?.fixedStart).toBe('2027-06-05T10:00');

    await tabTo(page, /./);
    await press('/');
    await page.getByRole('combobox', { name: 'Find' }).waitFor();
    await page.keyboard.type('ines');
    await page.getByRole('option', { name: /^person/ }).waitFor();
    while (!(await page.getByRole('option', { selected: true }).innerText()).startsWith('person'))
      await press('ArrowDown');
    await press('Enter');
    await page.waitForURL('**/settings/people/ines');
    await tabTo(page, /^Add a window on Wednesday/);
    await press('Enter');
    await tabTo(page, /^Save/);
    await press('Enter');
    await expect.poll(async () => (await file()).people[0]!.week.wed.length).toBe(1);
    expect(complaints).toEqual([]);
  });
});

// Helpers

async function plan(): Promise<Plan> {
  return (await (await fetch(`${house.url}/api/builds/wagtail/plan`)).json()) as Plan;
}

async function file(): Promise<BuildFile> {
  return (await (await fetch(`${house.url}/api/builds/wagtail/file`)).json()) as BuildFile;
}

function taskOf({ tasks }: BuildFile) {
  return tasks.find(({ key }) => key === 'cord-for-a-spare-lamp');
}

/** What stands at the focus: its label or its text. */
function focused(page: Page): Promise<string> {
  return page.evaluate(() => {
    const at = document.activeElement as HTMLElement | null;
    if (at === null || at === document.body) return '';
    const labels = (at as HTMLInputElement).labels;
    const text = at.getAttribute('aria-label') ?? (labels?.[0]?.innerText || at.innerText || '');
    return text.trim().replace(/\s+/g, ' ');
  });
}

/** Presses Tab until the focus says that. */
async function tabTo(page: Page, words: RegExp): Promise<void> {
  const seen: string[] = [];
  for (let i = 0; i < 250; i++) {
    const now = await focused(page);
    if (words.test(now)) return;
    seen.push(now);
    await page.keyboard.press('Tab');
  }
  throw new Error(
    `The Tab key never reaches ${words}; it passed ${[...new Set(seen)].slice(0, 60).join(' | ')}`,
  );
}
