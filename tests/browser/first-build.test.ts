/** The first hour: an empty store, a build made by hand, and a plan with a finish at the end of it. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { openHouse, type House } from './support/house.ts';

let house: House;
beforeAll(async () => {
  house = await openHouse(null);
});
afterAll(() => house.close());

describe('a build made by hand', () => {
  it('should lead from an empty store to a plan that knows when it ends', async () => {
    const { page, complaints } = await house.device();
    await page.goto('/');
    await page.getByText('There is no build in this store yet').waitFor();
    await page.getByRole('link', { name: 'begin an empty one' }).click();
    await page.getByLabel('Name', { exact: true }).fill('Kestrel');
    await page.getByLabel('Vehicle').fill('high roof');
    await page.getByLabel('Who works on it').fill('Mara');
    await page.getByLabel('Starts on').fill('2027-03-01');
    await page.getByRole('button', { name: 'Begin' }).click();

    await page.waitForURL('**/builds/kestrel/settings/people');
    await page.getByRole('button', { name: /^Add a window on Sunday/ }).click();
    await save(page);
    await expect.poll(async () => (await file()).people[0]?.week.sun.length).toBe(1);

    await page.goto('/builds/kestrel/settings/zones');
    await page.getByLabel('Name of the new zone').fill('Loft');
    await page.getByRole('button', { name: 'Add', exact: true }).click();
    await page.getByRole('textbox', { name: 'Name', exact: true }).waitFor();
    await expect.poll(async () => (await file()).zones.some(({ name }) => name === 'Loft')).toBe(true);
    for (const depth of ['wires and pipes', 'lining'])
      await page.getByRole('combobox', { name: 'Add a depth' }).selectOption({ label: depth });
    await save(page);
    await expect.poll(async () => (await loft()).depths).toHaveLength(3);

    const { key } = await loft();
    await newTask(page, 'Wire the loft', key, 'Wires and pipes');
    await newTask(page, 'Line the loft', key, 'Lining');
    await page.getByRole('button', { name: 'Add what comes first' }).click();
    await page.getByRole('combobox', { name: 'It comes after' }).fill('wire');
    await page.getByRole('listbox').getByRole('option').first().click();
    await page.getByRole('button', { name: 'Add the link' }).click();
    await expect
      .poll(async () => (await file()).links.map(({ from, to }) => [from, to]))
      .toEqual([['wire-the-loft', 'line-the-loft']]);

    await page.goto('/builds/kestrel/purchases');
    await page.getByPlaceholder(/part to buy/).fill('Cable');
    await page.getByRole('button', { name: 'Add', exact: true }).first().click();
    await page.getByRole('textbox', { name: 'Price of one' }).fill('12.50');
    await page.getByLabel('Tasks that need it').selectOption({ label: 'Wire the loft' });
    await save(page);
    await expect
      .poll(async () => (await file()).purchases[0]?.lines[0])
      .toMatchObject({
        name: 'Cable',
        unitPrice: 1250,
        neededBy: ['wire-the-loft'],
      });

    await page.goto('/builds/kestrel/today');
    await page.getByText('Wire the loft').first().waitFor();
    const { finish, tasks } = await plan();
    expect(finish).not.toBeNull();
    expect(tasks['line-the-loft']!.dates!.start > tasks['wire-the-loft']!.dates!.start).toBe(true);
    expect(complaints).toEqual([]);
  });
});

// Helpers

async function file(): Promise<BuildFile> {
  return (await (await fetch(`${house.url}/api/builds/kestrel/file`)).json()) as BuildFile;
}

async function plan(): Promise<Plan> {
  return (await (await fetch(`${house.url}/api/builds/kestrel/plan`)).json()) as Plan;
}

async function loft() {
  return (await file()).zones.find(({ name }) => name === 'Loft')!;
}

async function save(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByRole('group', { name: 'Changes not saved yet' }).waitFor({ state: 'detached' });
}

async function newTask(page: Page, name: string, zone: string, depth: string): Promise<void> {
  await page.getByRole('button', { name: 'New task' }).filter({ visible: true }).click();
  const dialog = page.getByRole('dialog', { name: 'New task' });
  await dialog.getByLabel('What is it called?').fill(name);
  await dialog.getByRole('button', { name: new RegExp(`^${zone}\\b`) }).click();
  await dialog.getByRole('radio', { name: depth }).check();
  await dialog.getByRole('button', { name: 'Add the task' }).click();
  await page.waitForURL(`**/task/${name.toLowerCase().replaceAll(' ', '-')}`);
}
