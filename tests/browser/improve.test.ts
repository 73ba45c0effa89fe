/** Better dates by search: watched, ended early, kept or left, and taken back. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { DESK, NOW, openHouse, PHONE, type House } from './support/house.ts';

let house: House;
beforeAll(async () => {
  house = await openHouse();
});
afterAll(() => house.close());

const before = computePlan(wagtail(), { now: NOW }).finish.dates!.slice(0, 10);

describe('better dates', () => {
  it('should be looked for with progress, ended at any moment, kept and taken back', async () => {
    const { page, complaints } = await house.device(DESK);
    await page.goto('/');
    await page.getByRole('link', { name: 'Schedule' }).first().click();
    await page.getByRole('button', { name: 'Look for better dates' }).click();
    const bar = page.getByRole('region', { name: 'Better dates' });
    await bar.getByText(/orders tried/).waitFor();
    await expect
      .poll(() => bar.getByRole('progressbar').getAttribute('value').then(Number))
      .toBeGreaterThan(0);
    await bar.getByText(/Best so far: .* days earlier/).waitFor({ timeout: 60_000 });
    await bar.getByRole('button', { name: 'Stop looking' }).click();
    await bar
      .getByText(/days earlier/)
      .first()
      .waitFor();
    await bar.getByText(/Finish .*earlier/).waitFor();
    await bar.getByRole('button', { name: 'Keep this order' }).click();
    await bar.waitFor({ state: 'detached' });
    const finish = () => storedFinish(page.url());
    await expect.poll(finish).not.toBe(before);
    expect((await finish()) < before).toBe(true);
    await page.keyboard.press('Control+z');
    await expect.poll(finish).toBe(before);
    expect(complaints).toEqual([]);
  });

  it('should be left on the phone without a trace', async () => {
    const { page, complaints } = await house.device(PHONE);
    await page.goto('/');
    await page.getByRole('link', { name: 'Schedule' }).first().click();
    await page.getByRole('button', { name: 'Look for better dates' }).click();
    const bar = page.getByRole('region', { name: 'Better dates' });
    await bar.getByText(/Best so far: .* days earlier/).waitFor({ timeout: 60_000 });
    await bar.getByRole('button', { name: 'Stop looking' }).click();
    await bar.getByRole('button', { name: 'Leave the old one' }).click();
    await bar.waitFor({ state: 'detached' });
    expect(await storedFinish(page.url())).toBe(before);
    expect(complaints).toEqual([]);
  });
});

// Helpers

async function storedFinish(address: string): Promise<string> {
  const id = /builds\/([^/]+)/.exec(address)![1]!;
  const answer = await fetch(`${house.url}/api/builds/${id}/plan?now=${NOW}`);
  const plan = (await answer.json()) as { finish: { dates: string } };
  return plan.finish.dates.slice(0, 10);
}
