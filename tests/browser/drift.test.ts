/** Frozen plans: freezing, the drift from them by phase and task, the slip of the finish, the ghost bars on the Schedule. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { changeElsewhere, fileOf } from './support/elsewhere.ts';
import { DESK, openHouse, PHONE, type House } from './support/house.ts';

let house: House;
beforeEach(async () => {
  house = await openHouse();
});
afterEach(() => house.close());

describe.each([
  ['at the desk', DESK],
  ['on the phone', PHONE],
] as const)('the drift %s', (_name, size) => {
  it('should be frozen, seen to slip by phase, task and day, renamed and taken out', async () => {
    const { page, complaints } = await house.device(size);
    await page.goto('/builds/wagtail/drift');
    await page.getByRole('heading', { level: 1, name: 'Drift' }).waitFor();
    await page.getByPlaceholder('name of the first frozen plan').fill('First plan');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /^From “First plan” of Tue 9 Mar/ }).waitFor();
    await page.getByText('The finish is where it was.').waitFor();
    await page.getByText('No task has drifted').waitFor();
    await expect.poll(() => fileOf(house).then(({ baselines }) => baselines.length)).toBe(1);

    // The work on the driving chain takes much longer than was thought.
    const { tasks } = await fileOf(house);
    const task = tasks.find(({ state }) => state === 'not-started')!;
    const minutes = { low: 9000, likely: 9600, high: 12_000 };
    await changeElsewhere(house, 'tasks', task.key, { minutes });
    await page.getByText(/^The finish is \d+ days later\./).waitFor();
    await page.getByRole('heading', { name: /^\d+ tasks? drifted$/ }).waitFor();
    await page.getByRole('row', { name: /^The whole build .* d later .*\+[\d  .]+ h/ }).waitFor();
    // Today it was taken in and changed: one day, and its finish is the plan's.
    const finish = (await page.getByRole('row', { name: /^The whole build/ }).innerText()).match(
      /\w{3} \d+ \w{3}/,
    )![0];
    await page.getByText('As a table').click({ timeout: 60_000 });
    const slip = page.getByRole('table', { name: /^The finish as of the end of each day/ });
    await slip.getByText(finish).last().waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(
      0,
    );

    await page.getByRole('link', { name: 'See it on the Schedule' }).click();
    await page.getByLabel('Frozen').waitFor();
    expect(await page.locator('svg rect.was').count()).toBeGreaterThan(3);
    await page.getByLabel('Frozen').selectOption({ label: 'none' });
    await expect.poll(() => page.locator('svg rect.was').count()).toBe(0);

    await page.goto('/builds/wagtail/drift');
    await page.getByLabel('Name', { exact: true }).fill('Before the tank');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await expect
      .poll(() => fileOf(house).then(({ baselines }) => baselines[0]?.name))
      .toBe('Before the tank');
    await page.getByRole('button', { name: 'Take out Before the tank' }).click();
    await expect.poll(() => fileOf(house).then(({ baselines }) => baselines.length)).toBe(0);
    await page.getByText('No plan is frozen yet.').waitFor();
    expect(complaints).toEqual([]);
  });
});
