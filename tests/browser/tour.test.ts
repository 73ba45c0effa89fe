/** The tour: by keyboard, by touch, over a reload, left at any stop, and not offered twice. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seriousFindings, withAxe } from './support/axe.ts';
import { DESK, openHouse, PHONE, type House } from './support/house.ts';

describe('the tour', () => {
  let house: House;
  beforeAll(async () => {
    house = await openHouse();
  });
  afterAll(() => house.close());

  it('should lead by the keyboard from sheet to sheet and trap nobody', async () => {
    const device = await house.device(DESK);
    await withAxe(device);
    const { page, complaints } = device;
    await page.goto('/builds/wagtail/more');
    await page.getByRole('button', { name: /^Tour/ }).focus();
    await page.keyboard.press('Enter');
    const tour = page.getByRole('region', { name: 'Tour' });
    for (const [stop, view] of ['shell', 'shell', 'schedule', 'today', 'purchases', 'history'].entries()) {
      await tour.getByText(`${stop + 1} of 6`).waitFor();
      await expect.poll(() => new URL(page.url()).pathname.split('/')[3]).toBe(view);
      expect(await page.evaluate(seriousFindings)).toEqual([]);
      if (stop === 5) break;
      // Its words have the keys; the way on lies a few steps of the Tab key ahead.
      if (stop > 0) await expect.poll(() => focusedText(page)).toContain(`${stop + 1} of 6`);
      await tabTo(page, /^Next/);
      await page.keyboard.press('Enter');
    }
    // Whoever goes elsewhere meanwhile is told the way back.
    await page.keyboard.press('g');
    await page.keyboard.press('m');
    await page.waitForURL('**/money');
    await tour.getByRole('link', { name: 'Go there' }).click();
    await page.waitForURL('**/history');

    await tabTo(page, /^End the tour/);
    await page.keyboard.press('Enter');
    await tour.waitFor({ state: 'detached' });
    await page.reload();
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(await tour.count()).toBe(0);
    expect(complaints).toEqual([]);
    await device.context.close();
  });

  it('should go on after a reload, fit a phone, and be left at any stop', async () => {
    const { page, context } = await house.device(PHONE);
    await page.goto('/');
    const tour = page.getByRole('region', { name: 'Tour' });
    await tour.getByRole('button', { name: 'Take the tour' }).click();
    await tour.getByRole('button', { name: /^Next/ }).click();
    await tour.getByText('2 of 6').waitFor();
    await page.reload();
    await tour.getByText('2 of 6').waitFor();
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    await tour.getByRole('button', { name: 'Back' }).click();
    await tour.getByText('1 of 6').waitFor();
    await tour.getByRole('button', { name: 'Leave the tour' }).click();
    await tour.waitFor({ state: 'detached' });
    await context.close();
  });
});

// Helpers

async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let step = 0; step < 60; step++) {
    if (name.test(await focusedText(page))) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`The Tab key never came to ${name.source}.`);
}

function focusedText(page: Page): Promise<string> {
  return page.evaluate(() => document.activeElement?.textContent?.trim() ?? '');
}

function overflow(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
}
