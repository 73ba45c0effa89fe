/** The odds on the screen: worked out, watched, stopped, old after an edit, and drawn on the Schedule. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { oddsOf } from '#shared/odds/odds.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { DESK, NOW, openHouse, PHONE, type House } from './support/house.ts';

let house: House;
beforeAll(async () => {
  house = await openHouse();
});
afterAll(() => house.close());

const SLOW = { timeout: 60_000 };
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

describe('the odds', () => {
  it('should show the figures the same seed gives elsewhere, and put them on the Schedule', async () => {
    const { page, complaints } = await house.device(DESK);
    await page.goto('/');
    await page.getByRole('link', { name: 'More', exact: true }).first().click();
    await page.getByRole('link', { name: 'Odds' }).first().click();
    const when = page.getByRole('region', { name: 'When it will be done' });
    await when.waitFor(SLOW);
    const { finish } = oddsOf(wagtail(), { now: NOW, trials: 2000, seed: 1 });
    for (const instant of [finish.p50!, finish.p80!])
      await when.getByText(dayText(instant)).first().waitFor();
    await page.getByRole('region', { name: 'What decides the finish' }).getByRole('row').nth(3).waitFor();
    await page.getByRole('region', { name: 'What it will cost' }).getByText('even chance').first().waitFor();
    await page.getByRole('link', { name: 'Schedule' }).first().click();
    await page.getByText('even chance', { exact: true }).waitFor();
    await page.getByText('four in five', { exact: true }).waitFor();
    expect(complaints).toEqual([]);
  });

  it('should be watched and stopped, be old after an edit, and be renewed by themselves', async () => {
    const { page, complaints } = await house.device(DESK);
    await page.goto('/');
    await page.getByRole('link', { name: 'Today' }).first().waitFor();
    await page.goto(`${page.url().replace(/\/today.*$/, '')}/odds`);
    const trials = page.getByRole('group', { name: 'Trials' });
    await trials.getByText('2 000 trials of the plan as it stands.').waitFor(SLOW);
    await trials.getByRole('button', { name: 'Try 10 000 times' }).click();
    await expect
      .poll(() => trials.getByRole('progressbar').getAttribute('value').then(Number), SLOW)
      .toBeGreaterThan(0);
    await trials.getByRole('button', { name: 'Stop' }).click();
    // What was known stands.
    await trials.getByText('2 000 trials of the plan as it stands.').waitFor();
    await trials.getByRole('button', { name: 'Try 10 000 times' }).click();
    await trials.getByText('10 000 trials of the plan as it stands.').waitFor(SLOW);
    const id = /builds\/([^/]+)/.exec(page.url())![1]!;
    await page.evaluate(async (address) => {
      const head = await fetch(address);
      await fetch(address, {
        method: 'PATCH',
        headers: { 'content-type': 'application/json', 'if-match': head.headers.get('etag')! },
        body: JSON.stringify({ targetFinishOn: '2029-02-01' }),
      });
    }, `${house.url}/api/builds/${id}/head`);
    await trials.getByText('Old:').waitFor();
    await trials.getByText('10 000 trials of the plan as it stands.').waitFor(SLOW);
    await page
      .getByRole('region', { name: 'When it will be done' })
      .getByText(/target Thu 1 Feb 2029/)
      .first()
      .waitFor();
    expect(complaints).toEqual([]);
  });

  it('should fit the phone', async () => {
    const { page, complaints } = await house.device(PHONE);
    await page.goto('/');
    await page.getByRole('link', { name: 'Today' }).first().waitFor();
    await page.goto(`${page.url().replace(/\/today.*$/, '')}/odds`);
    await page.getByRole('region', { name: 'What it will cost' }).waitFor(SLOW);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    expect(complaints).toEqual([]);
  });
});

// Helpers

/** "Sat 13 Jan 2029", as far as it is the same in every sentence. */
function dayText(instant: string): RegExp {
  const [year, month, day] = instant.slice(0, 10).split('-').map(Number) as [number, number, number];
  return new RegExp(`${day} ${MONTHS[month - 1]} ${year}`);
}
