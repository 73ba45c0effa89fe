/** Purchases with hands on the screen: a receipt at the till, a delivery in parts, something sent back, a pasted table. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Locator, Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { DESK, openHouse, PHONE, type House } from './support/house.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
let house: House;
beforeEach(async () => {
  house = await openHouse();
});
afterEach(() => house.close());

const SIZES = [
  ['at the desk', DESK],
  ['on the phone', PHONE],
] as const;

/** Name, price as typed, phase, minor units. */
const TRIP = [
  ['Screws 4 by 30', '7,95', 'Floor', 795],
  ['Tape', '6.49', 'Floor', 649],
  ['Primer', '18,90', 'Underbody and engine bay', 1890],
  ['Brushes', '4', 'Underbody and engine bay', 400],
  ['Cable ties', '3,5', 'First-fix electrics', 350],
  ['Heat shrink', '12,00', 'First-fix electrics', 1200],
] as const;

describe.each(SIZES)('a receipt %s', (_name, size) => {
  it('should take six lines over three phases in less than a minute of taps', async () => {
    const { page, complaints } = await house.device(size, { realTime: true });
    await page.goto('/builds/wagtail/purchases');
    const before = (await plan()).money;
    const begun = performance.now();
    await press(page.getByRole('link', { name: 'Enter a receipt' }), size);
    await page.getByLabel('Shop', { exact: true }).fill('corner shop');
    for (const [name, price, phase] of TRIP) {
      await page.getByLabel('What', { exact: true }).fill(name);
      await page.getByLabel('Price', { exact: true }).fill(price);
      await choosePhase(page, phase, size);
      await press(page.getByRole('button', { name: 'Next line' }), size);
    }
    await page.getByRole('list', { name: 'On the receipt' }).getByText('Heat shrink').waitFor();
    await press(page.getByRole('button', { name: /^Put in 6 lines/ }), size);
    await page.waitForURL('**/purchases/corner-shop');
    const seconds = (performance.now() - begun) / 1000;
    expect(seconds).toBeLessThan(60);

    await expect.poll(async () => (await bought('corner-shop'))?.state).toBe('received');
    const purchase = (await bought('corner-shop'))!;
    expect(purchase.lines.map(({ name, unitPrice }) => [name, unitPrice])).toEqual(
      TRIP.map(([name, , , minor]) => [name, minor]),
    );
    expect(purchase.payments).toMatchObject([{ amount: 5284, by: 'ines', kind: 'full' }]);
    const after = (await plan()).money;
    expect(after.total.paid - before.total.paid).toBe(5284);
    for (const [phase, sum] of [
      ['floor', 1444],
      ['underbody', 2290],
      ['first-fix-electrics', 1550],
    ] as const)
      expect(after.phases[phase]!.paid - before.phases[phase]!.paid).toBe(sum);
    expect(complaints).toEqual([]);
  });

  it('should say which amount cannot be, and store nothing of it', async () => {
    const { page, complaints } = await house.device(size);
    const before = (await file()).purchases.length;
    await page.goto('/builds/wagtail/purchases?enter=receipt');
    await page.getByLabel('What', { exact: true }).fill('Screws');
    const price = page.getByLabel('Price', { exact: true });
    for (const [typed, words] of [
      ['twelve', 'must be an amount in €, such as 120.50'],
      ['3,999', 'must be an amount in €, such as 120.50'],
      ['99999999999', 'is more than anything on a receipt costs: look again'],
      ['-5', 'must be 0 or more'],
    ] as const) {
      await price.fill(typed);
      await page.getByRole('button', { name: 'Next line' }).click();
      await page.getByText(words).waitFor();
      expect(await page.getByRole('list', { name: 'On the receipt' }).count()).toBe(0);
      await page.getByRole('button', { name: /^Put / }).click();
    }
    await price.fill('');
    await page.getByRole('button', { name: 'Next line' }).click();
    await page.getByText('is missing').waitFor();
    expect((await file()).purchases).toHaveLength(before);
    // What was typed outlives a reload, and right words take it on.
    await page.reload();
    expect(await page.getByLabel('What', { exact: true }).inputValue()).toBe('Screws');
    await price.fill('1 234,50');
    await page.getByRole('button', { name: 'Next line' }).click();
    await page.getByText('€\u20091\u2009234.50').first().waitFor();
    expect((await file()).purchases).toHaveLength(before);
    expect(complaints).toEqual([]);
  });
});

describe.each(SIZES)('what was ordered %s', (_name, size) => {
  it('should come in parts, with price and mass asked for, and go back in part', async () => {
    const { page, complaints } = await house.device(size);
    // The solar panels: two, ordered, not paid.
    await page.goto('/builds/wagtail/purchases/p040');
    await page.getByRole('button', { name: 'Mark in', exact: true }).last().click();
    const form = page.getByRole('form', { name: 'What came' });
    await form.getByLabel(/^Came, of 2/).fill('1');
    await form.getByLabel('Price of one').fill('180,50');
    await form.getByLabel('Mass of the whole line, kg').fill('22,4');
    await form.getByRole('button', { name: 'Mark this much in' }).click();
    await form.waitFor({ state: 'detached' });
    await expect.poll(async () => (await bought('p040'))?.state).toBe('part-received');
    expect(await bought('p040')).toMatchObject({
      lines: [{ unitPrice: 18_050, priceConfirmed: true, mass: 22_400 }],
      deliveries: [{ on: '2027-03-09', line: 'p040', quantity: 1 }],
    });

    await page.getByRole('button', { name: 'Mark in', exact: true }).last().click();
    await form.getByLabel(/^Came, of 1/).waitFor();
    await form.getByRole('button', { name: 'Mark all in' }).click();
    await expect.poll(async () => (await bought('p040'))?.state).toBe('received');

    await page.getByRole('button', { name: 'Mark paid' }).click();
    const pay = page.getByRole('form', { name: 'Payment' });
    await pay.getByLabel('Who paid').selectOption('tor');
    await pay.getByRole('button', { name: 'Mark paid' }).click();
    await expect
      .poll(async () => (await bought('p040'))?.payments)
      .toMatchObject([{ amount: 36_100, by: 'tor' }]);

    await page.getByRole('button', { name: 'Send back' }).click();
    const back = page.getByRole('form', { name: 'Send back' });
    await back.getByLabel(/^How much, of 2/).fill('3');
    await back.getByText('is more than the 2 that are here').waitFor();
    expect(await back.getByRole('button', { name: 'Mark sent back' }).isDisabled()).toBe(true);
    await back.getByLabel(/^How much, of 2/).fill('1');
    await back.getByRole('button', { name: 'Mark sent back' }).click();
    await page.getByText(/refund of €\s180\.50 not in yet/).waitFor();
    expect((await plan()).money.purchases['p040']).toMatchObject({ paid: 36_100, refundsOut: 18_050 });

    await page.getByRole('button', { name: 'Mark refunded' }).click();
    await expect
      .poll(async () => (await plan()).money.purchases['p040'])
      .toMatchObject({ paid: 18_050, refundsOut: 0 });
    expect((await bought('p040'))!.returns).toMatchObject([
      { quantity: 1, refund: 18_050, refundedOn: '2027-03-09' },
    ]);
    expect(complaints).toEqual([]);
  });

  it('should be listed with its days, and marked ordered with one press that can be taken back', async () => {
    const { page, complaints } = await house.device(size);
    await page.goto('/builds/wagtail/purchases?show=late');
    await page
      .getByText(/^holds up /)
      .first()
      .waitFor();
    const first = page.getByRole('button', { name: /^Mark ordered: / }).first();
    const name = (await first.getAttribute('aria-label'))!.replace('Mark ordered: ', '');
    await first.click();
    await page.getByText(`Mark ordered: ${name}.`).waitFor();
    const ordered = () =>
      file().then(({ purchases }) => purchases.filter(({ orderedOn }) => orderedOn === '2027-03-09').length);
    await expect.poll(ordered).toBe(1);
    await page.getByRole('status').getByRole('button', { name: 'Undo' }).first().click();
    await expect.poll(ordered).toBe(0);
    expect(complaints).toEqual([]);
  });
});

describe.each(SIZES)('a pasted table %s', (_name, size) => {
  it('should be previewed row by row, take in fifty rows less two, and leave those two to be mended', async () => {
    const { page, complaints } = await house.device(size);
    const before = (await file()).purchases.length;
    await page.goto('/builds/wagtail/purchases?enter=table');
    const rows = Array.from({ length: 50 }, (_, i) => {
      if (i === 11) return `bracket ${i}\tmany\t1,50\tFloor`;
      if (i === 29) return `bracket ${i}\t2\t1,50\tthe moon`;
      return `bracket ${i}\t${1 + (i % 4)}\t${i},${String(10 + i)}\tFloor`;
    });
    await page.getByRole('textbox').fill(['name\tquantity\tunit price\tphase', ...rows].join('\n'));
    await page.getByText('50 rows: 48 to take in, 2 left out.').waitFor();
    const table = page.getByRole('table');
    await table.getByText(/^Quantity is “?"?many/).waitFor();
    await table.getByText(/^Phase is “?"?the moon/).waitFor();
    await page
      .getByText(/^Moves neither|^Finish|^The finish/)
      .first()
      .waitFor();
    expect((await file()).purchases).toHaveLength(before);

    await page.getByRole('button', { name: 'Take in 48 rows' }).click();
    await page.getByText('48 rows taken in.').waitFor();
    await expect.poll(async () => (await file()).purchases.length).toBe(before + 48);
    const taken = (await file()).purchases.find(({ lines }) => lines[0]?.name === 'bracket 7')!;
    expect(taken).toMatchObject({
      state: 'wanted',
      lines: [{ quantity: 4, unitPrice: 717, phase: 'floor' }],
    });

    // The two stay in the field; mended, they go in too.
    await page.getByText('2 rows: 0 to take in, 2 left out.').waitFor();
    const left = await page.getByRole('textbox').inputValue();
    await page.getByRole('textbox').fill(left.replace('many', '3').replace('the moon', 'Floor'));
    await page.getByRole('button', { name: 'Take in 2 rows' }).click();
    await expect.poll(async () => (await file()).purchases.length).toBe(before + 50);
    expect(complaints).toEqual([]);
  });
});

describe.each(SIZES)('a receipt on paper %s', (_name, size) => {
  /** The smallest picture there is: one point. */
  const PICTURE = Buffer.from(
    'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
    'base64',
  );

  it('should be kept with what was bought, seen again, and taken off', async () => {
    const { page, complaints } = await house.device(size);
    await page.goto('/builds/wagtail/purchases/p045');
    const receipts = page.getByRole('region', { name: 'Receipts' });
    await receipts
      .getByLabel(/^Choose a file/)
      .setInputFiles({ name: 'till.png', mimeType: 'image/png', buffer: PICTURE });
    const shown = receipts.getByRole('img', { name: 'receipt 1' });
    await shown.waitFor();
    await expect.poll(async () => (await bought('p045'))?.receipts.length).toBe(1);
    expect((await bought('p045'))!.receipts[0]).toMatch(/^sha256:[0-9a-f]{64}$/);
    expect(await receipts.getByRole('img').count()).toBe(1);
    await expect.poll(() => shown.evaluate((image) => (image as HTMLImageElement).naturalWidth)).toBe(1);

    await receipts.getByRole('button', { name: /^Take off/ }).click();
    await expect.poll(async () => (await bought('p045'))?.receipts.length).toBe(0);
    expect(complaints).toEqual([]);
  });
});

describe('purchases by keyboard, and read aloud', () => {
  it('should take a receipt without a mouse', async () => {
    const { page } = await house.device(DESK);
    await page.goto('/builds/wagtail/purchases?enter=receipt');
    await page.getByLabel('What', { exact: true }).focus();
    for (const [name, price] of [
      ['Screws', '7,95'],
      ['Tape', '6.49'],
    ]) {
      await page.keyboard.type(name!);
      await page.keyboard.press('Enter');
      await page.keyboard.type(price!);
      await page.keyboard.press('Enter');
      await page.getByRole('list', { name: 'On the receipt' }).getByText(name!).waitFor();
    }
    await page.getByRole('button', { name: /^Put in 2 lines/ }).focus();
    await page.keyboard.press('Enter');
    await page.waitForURL('**/purchases/screws');
    await expect.poll(async () => (await bought('screws'))?.payments[0]?.amount).toBe(1444);
  });

  it.each(SIZES)('should have nothing serious for a screen reader %s', async (_size, size) => {
    const { page, context } = await house.device(size);
    await context.addInitScript(AXE);
    for (const view of [
      'purchases?show=all',
      'purchases?enter=receipt',
      'purchases?enter=table',
      'purchases?enter=missing',
      'purchases/p040?do=in',
      'purchases/p045?do=back',
      'purchases/p124?do=pay',
    ]) {
      await page.goto(`/builds/wagtail/${view}`);
      await page.getByRole('heading', { level: 1 }).first().waitFor();
      await page.waitForFunction(() => document.fonts.status === 'loaded');
      expect(await page.evaluate(seriousFindings), view).toEqual([]);
      expect(
        await page.evaluate(() => document.documentElement.scrollWidth - innerWidth),
        view,
      ).toBeLessThanOrEqual(0);
      expect(await page.evaluate(() => document.body.innerText), view).not.toMatch(
        /\bNaN\b|undefined|\[object /,
      );
    }
  });
});

// Helpers

async function file(): Promise<BuildFile> {
  return (await (await fetch(`${house.url}/api/builds/wagtail/file`)).json()) as BuildFile;
}

async function plan(): Promise<Plan> {
  return (await (await fetch(`${house.url}/api/builds/wagtail/plan`)).json()) as Plan;
}

async function bought(key: string): Promise<BuildFile['purchases'][number] | undefined> {
  return (await file()).purchases.find((purchase) => purchase.key === key);
}

function press(target: Locator, size: typeof DESK | typeof PHONE): Promise<void> {
  return size === PHONE ? target.tap() : target.click();
}

/** By its button, or from the list of the others. */
async function choosePhase(page: Page, phase: string, size: typeof DESK | typeof PHONE): Promise<void> {
  const chip = page.getByRole('radio', { name: phase });
  if ((await chip.count()) === 0) await page.getByLabel('Another phase').selectOption({ label: phase });
  else if ((await chip.getAttribute('aria-checked')) !== 'true') await press(chip, size);
}

interface Finding {
  readonly id: string;
  readonly impact: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

/** Runs in the page. */
async function seriousFindings(): Promise<string[]> {
  const { axe } = globalThis as unknown as {
    axe: { run: (root: unknown, options: object) => Promise<{ violations: Finding[] }> };
  };
  const { violations } = await axe.run(document, { resultTypes: ['violations'] });
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 200)).join(' | ')}`);
}
