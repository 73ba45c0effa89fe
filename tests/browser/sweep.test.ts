/** Every view at both sizes in both themes: no complaint of the browser, nothing serious from axe, nothing wider than the screen. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seriousFindings, withAxe } from './support/axe.ts';
import { DESK, openHouse, PHONE, type Device, type House } from './support/house.ts';
import { BUILD, VIEWS } from './support/views.ts';

let house: House;
beforeAll(async () => {
  house = await openHouse();
});
afterAll(() => house.close());

const LOOKS = [
  ['at the desk on paper', DESK, false],
  ['at the desk on blueprint', DESK, true],
  ['on the phone on paper', PHONE, false],
  ['on the phone on blueprint', PHONE, true],
] as const;

describe.each(LOOKS)('every view %s', (_name, size, dark) => {
  let device: Device;
  beforeAll(async () => {
    device = await house.device(size, { dark });
    await withAxe(device);
  });
  afterAll(() => device.context.close());

  it.each(VIEWS)('should show %s without complaint', async (view) => {
    const { page, complaints } = device;
    complaints.length = 0;
    await page.goto(`/builds/${BUILD}/${view}`);
    await page.getByRole('heading', { level: 1 }).first().waitFor();
    await page.waitForFunction(() => document.fonts.status === 'loaded');
    const serious = await page.evaluate(seriousFindings);
    const overflow = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    const text = await page.evaluate(() => document.body.innerText);
    expect(serious).toEqual([]);
    expect(overflow, 'wider than the screen').toBeLessThanOrEqual(0);
    expect(text).not.toMatch(/\bNaN\b|undefined|\[object |\bnull\b|\d{4}-\d{2}-\d{2}T/);
    expect(complaints).toEqual([]);
  });
});
