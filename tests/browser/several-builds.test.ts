/** Several builds in one store at both sizes: told in the list, duplicated, put away, put in order, and sharing a person. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readBuild } from '#shared/contract/read.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { addBuild } from '../../server/store/builds.ts';
import { document, task } from '../support/builds.ts';
import { DESK, openHouse, PHONE, type House } from './support/house.ts';

let house: House;
beforeAll(async () => {
  house = await openHouse();
  addBuild(house.store, readBuild(second()), '2027-03-09T18:30:00.000Z');
});
afterAll(() => house.close());

describe.each([
  ['at the desk', DESK],
  ['on the phone', PHONE],
] as const)('builds %s', (name, size) => {
  it('should stand in the list with finish and share done, be duplicated, put away and brought back', async () => {
    const { page, complaints } = await house.device(size);
    await page.goto('/builds/');
    const row = page.getByRole('row', { name: /^Wagtail/ });
    await row.getByText('51 of 149 tasks').waitFor();
    const finish = (await planOf('wagtail')).finish.dates!;
    await row.getByText(new RegExp(`${Number(finish.slice(8, 10))} \\w+ ${finish.slice(0, 4)}`)).waitFor();

    const copy = `Kestrel ${name}`;
    await page.getByRole('button', { name: 'Duplicate Wagtail' }).click();
    const dialog = page.getByRole('dialog', { name: 'Duplicate Wagtail' });
    await dialog.getByLabel('Name of the new build').fill(copy);
    await dialog.getByRole('button', { name: 'Duplicate it' }).click();
    await dialog.waitFor({ state: 'detached' });
    const made = page.getByRole('row', { name: new RegExp(`^${copy}`) });
    await made.getByText('0 of 149 tasks').waitFor();

    await page.getByRole('button', { name: `Archive ${copy}` }).click();
    await made.waitFor({ state: 'detached' });
    await page.getByText(/^Put away: /).click();
    await page.getByRole('button', { name: `Bring back ${copy}` }).waitFor();
    await page.getByRole('button', { name: `Bring back ${copy}` }).click();
    await made.waitFor();
    await page.getByRole('button', { name: `Move ${copy} up` }).click();
    await expect.poll(async () => (await listed()).map((one) => one.name).at(-2)).toBe(copy);
    await page.getByRole('button', { name: `Archive ${copy}` }).click();
    await made.waitFor({ state: 'detached' });
    await expectNoOverflow(page);
    expect(complaints).toEqual([]);
  });
});

describe('a person of two builds', () => {
  it('should be named once, show what that does before it is done, and be planned in one van at a time', async () => {
    const { page, complaints } = await house.device(DESK);
    const alone = (await planOf('second')).tasks['x']!.dates!.start;
    await page.goto('/builds/second/settings/people/tor');
    await page.getByLabel('Works on another build too').selectOption({ label: 'Tor on Wagtail' });
    await page.getByText('Wagtail comes first: the dates here keep clear').waitFor();
    await page.getByText(/^Finish .* later/).waitFor();
    await page.getByRole('button', { name: 'They are one person' }).click();
    await page.getByText('Tor works here and on').waitFor();
    await expect.poll(async () => (await planOf('second')).tasks['x']!.dates!.start > alone).toBe(true);

    // The other device hears that Wagtail changed and plans around it, as the server does.
    await page.goto('/builds/second/task/x');
    await page
      .getByText(/Tor is at Wagtail until/)
      .first()
      .waitFor();

    await page.goto('/builds/');
    await page.getByText('Tor works here and on Second').waitFor();
    await page.getByRole('button', { name: 'Move Second up' }).click();
    await expect.poll(async () => (await planOf('second')).tasks['x']!.dates!.start).toBe(alone);
    expect(complaints).toEqual([]);
  });

  it('should be planned anew on an open page when the build before it changes', async () => {
    const { page, complaints } = await house.device(PHONE);
    await fetch(`${house.url}/api/builds/wagtail/place`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ before: 'second' }),
    });
    await page.goto('/builds/second/task/x');
    await page
      .getByText(/Tor is at Wagtail until/)
      .first()
      .waitFor();
    await fetch(`${house.url}/api/builds/wagtail/archive`, { method: 'POST' });
    await page
      .getByText(/Tor is at Wagtail until/)
      .first()
      .waitFor({ state: 'detached' });
    await page.goto('/builds/second/settings/people/tor');
    await page.getByRole('heading', { level: 1 }).first().waitFor();
    await fetch(`${house.url}/api/builds/wagtail/bring-back`, { method: 'POST' });
    await page.getByText('Tor works here and on').waitFor();
    await expectNoOverflow(page);
    expect(complaints).toEqual([]);
  });
});

// Helpers

/** A second van for Tor, who works on it at the demo's hours. */
function second(): object {
  const tor = wagtail().people.find(({ key }) => key === 'tor')!;
  return document({
    build: { name: 'Second', startOn: '2027-03-08', asOf: '2027-03-09T19:00' },
    people: [{ key: tor.key, name: tor.name, week: tor.week }],
    tasks: [task('x', 240, { name: 'Strip the van' })],
  });
}

async function planOf(build: string): Promise<Plan> {
  return (await (await fetch(`${house.url}/api/builds/${build}/plan`)).json()) as Plan;
}

async function listed(): Promise<{ name: string }[]> {
  return (await (await fetch(`${house.url}/api/builds`)).json()) as { name: string }[];
}

async function expectNoOverflow(page: Page): Promise<void> {
  expect(
    await page.evaluate(() => globalThis.document.documentElement.scrollWidth - innerWidth),
  ).toBeLessThanOrEqual(0);
}
