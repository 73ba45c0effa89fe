/** What would bring it forward most, on the screen: run, ended, looked at, done, taken back, and marked once it is stale. */
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { DESK, NOW, openHouse, PHONE, type House } from './support/house.ts';

let house: House;
beforeEach(async () => {
  house = await openHouse();
});
afterEach(() => house?.close());

const before = computePlan(wagtail(), { now: NOW }).finish.dates!.slice(0, 10);
const SLOW = { timeout: 90_000 };
const EVENING = /^Work Mondays 18:30 to 21:00 as well: Ines and Tor/;

describe.each([
  ['at the desk', DESK],
  ['on the phone', PHONE],
])('levers %s', (_name, size) => {
  it('should be found under More, tried with progress, done and taken back', async () => {
    const { page, complaints } = await house.device(size);
    await page.goto('/builds/wagtail/more');
    await page
      .getByRole('main')
      .getByRole('link', { name: /^Levers/ })
      .first()
      .click();
    await page.getByRole('heading', { level: 1, name: 'Levers' }).waitFor();
    await page.getByRole('button', { name: 'Try what would bring it forward' }).click();
    await page.getByText(/\d+ of \d+ changes tried/).waitFor(SLOW);
    expect(await page.getByRole('progressbar', { name: 'Changes tried' }).count()).toBe(1);
    await page.getByRole('button', { name: 'Try anew' }).waitFor(SLOW);
    const lever = page.getByRole('listitem', { name: EVENING });
    await lever
      .getByText(/\d+ days/)
      .first()
      .waitFor();
    await lever.getByRole('button', { name: 'Do it' }).click();
    await lever.getByText(/Finish .*earlier/).waitFor();
    expect(await storedFinish()).toBe(before);
    await lever.getByRole('button', { name: 'Change the plan' }).click();
    await expect.poll(storedFinish).not.toBe(before);
    expect((await storedFinish()) < before).toBe(true);
    await page.getByText('The plan has changed since.').waitFor();
    expect(await lever.getByRole('button', { name: 'Do it' }).isDisabled()).toBe(true);
    await undo(page);
    await expect.poll(storedFinish).toBe(before);
    expect(complaints).toEqual([]);
  });

  it('should stand with what was tried when it is ended, and be looked at without touching the plan', async () => {
    const { page, complaints } = await house.device(size, { dark: true });
    await page.goto('/builds/wagtail/levers');
    await page.getByRole('button', { name: 'Try what would bring it forward' }).click();
    const look = page.getByRole('button', { name: 'Look at it' }).first();
    await look.waitFor(SLOW);
    await page.getByRole('button', { name: 'Stop', exact: true }).click();
    await page.getByText(/^Stopped after \d+ of \d+ changes/).waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(
      0,
    );
    expect(await page.evaluate(() => document.body.innerText)).not.toMatch(/\bNaN\b|undefined|\bnull\b/);
    await look.click();
    await page.waitForURL('**/what-if**');
    await page.getByRole('heading', { level: 1, name: /What-if/ }).waitFor();
    expect(await storedFinish()).toBe(before);
    expect(complaints).toEqual([]);
  });
});

// Helpers

async function undo(page: Page): Promise<void> {
  await page.locator('body').press('Control+z');
}

async function storedFinish(): Promise<string> {
  const answer = await fetch(`${house.url}/api/builds/wagtail/plan?now=${NOW}`);
  const plan = (await answer.json()) as { finish: { dates: string } };
  return plan.finish.dates.slice(0, 10);
}
