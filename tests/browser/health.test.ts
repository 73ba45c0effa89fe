/** The health of the plan on the screen: every row leads to its records, and what is mended there is seen at once. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { wagtail } from '#shared/demo/wagtail.ts';
import { planHealth } from '#shared/health/plan-health.ts';
import { computePlan } from '#shared/plan.ts';
import { DESK, NOW, openHouse, PHONE, type House } from './support/house.ts';

let house: House;
beforeAll(async () => {
  house = await openHouse();
});
afterAll(() => house.close());

const expected = planHealth(wagtail(), computePlan(wagtail(), { now: NOW }));

describe.each([
  ['at the desk', DESK],
  ['on the phone', PHONE],
])('health %s', (_name, size) => {
  it('should be found under More and say how many checks are passed', async () => {
    const { page, complaints } = await house.device(size);
    await page.goto('/builds/wagtail/more');
    await page
      .getByRole('main')
      .getByRole('link', { name: /^Health/ })
      .first()
      .click();
    await page.getByRole('heading', { level: 1, name: 'Health' }).waitFor();
    await page.getByText(`${expected.passed} of ${expected.rows.length} checks passed`).waitFor();
    for (const { name } of expected.rows) await page.getByText(name, { exact: true }).first().waitFor();
    expect(complaints).toEqual([]);
  });

  it('should lead from a row to each record and back', async () => {
    const { page, complaints } = await house.device(size);
    await page.goto('/builds/wagtail/health');
    await page.getByRole('link', { name: /^After 1,000 km/ }).click();
    await page.waitForURL('**/task/retorque-rain');
    await page.goBack();
    await page.getByRole('link', { name: /^rust converter/ }).click();
    await page.waitForURL('**/purchases/p018');
    await page.goBack();
    const long = expected.rows.find(({ check }) => check === 'long-tasks')!;
    await page
      .getByRole('button', { name: `Show all ${long.count}`, exact: true })
      .first()
      .click();
    await page.getByText(long.records.at(-1)!.name).first().waitFor();
    expect(new URL(page.url()).search).toBe('?show=long-tasks');
    await page.getByRole('button', { name: 'Show fewer' }).click();
    expect(complaints).toEqual([]);
  });

  it('should show only what was found when asked, and fit the screen', async () => {
    const { page } = await house.device(size, { dark: true });
    await page.goto('/builds/wagtail/health?only=found');
    await page.getByText(expected.rows.find(({ state }) => state === 'failed')!.name).waitFor();
    const passed = expected.rows.find(({ state }) => state === 'passed')!;
    expect(await page.getByText(passed.name, { exact: true }).count()).toBe(0);
    await page.getByRole('button', { name: 'Show all checks' }).click();
    await page.getByText(passed.name, { exact: true }).first().waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(
      0,
    );
    expect(await page.evaluate(() => document.body.innerText)).not.toMatch(/\bNaN\b|undefined|\bnull\b/);
  });
});

describe('health', () => {
  it('should change as soon as the plan does', async () => {
    const own = await openHouse();
    try {
      const { page, complaints } = await own.device(DESK);
      await page.goto('/builds/wagtail/health');
      const row = page.getByRole('row', { name: /No task waits for itself in a circle/ });
      await row.getByText('failed').waitFor();
      const id = 'furring-walls~filler-hose~FS';
      const snapshot = await fetch(`${own.url}/api/builds/wagtail/snapshot`);
      const { versions } = (await snapshot.json()) as { versions: Record<string, Record<string, number>> };
      const link = await fetch(`${own.url}/api/builds/wagtail/changes`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({
          label: 'Take the link out',
          edits: [{ noun: 'links', id, version: versions['links']![id], value: null }],
        }),
      });
      expect(link.status).toBe(200);
      await row.getByText('passed').waitFor();
      expect(complaints).toEqual([]);
    } finally {
      await own.close();
    }
  });
});
