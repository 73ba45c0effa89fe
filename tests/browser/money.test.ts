/** The Money sheet at both sizes: its figures are the plan's, they follow an edit at once, and one page can be shared. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { computePlan } from '#shared/plan.ts';
import { DESK, openHouse, PHONE, type House } from './support/house.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
let house: House;
beforeAll(async () => {
  house = await openHouse(frozenWagtail());
});
afterAll(() => house.close());

const SIZES = [
  ['at the desk', DESK],
  ['on the phone', PHONE],
] as const;

describe.each(SIZES)('the money sheet %s', (_name, size) => {
  it('should show the figures of the plan, by phase and by kind', async () => {
    const { page, complaints } = await house.device(size);
    const { money } = await plan();
    await page.goto('/builds/wagtail/money');
    await page.getByText(euro(money.total.forecast)).first().waitFor();
    const all = page.getByRole('row', { name: /^All phases/ });
    const text = (await all.innerText()).replaceAll(/\s/g, ' ');
    for (const figure of [money.total.paid, money.total.ordered, money.total.toBuy, money.total.forecast])
      expect(text).toContain(plain(figure));
    expect(await page.getByRole('row').count()).toBeGreaterThan(14);
    await page.getByText(`${money.total.unconfirmedLines} unconfirmed prices`).waitFor();

    await page.getByRole('button', { name: 'By kind of thing' }).click();
    const tools = page.getByRole('row', { name: /^Tool/ });
    expect((await tools.innerText()).replaceAll(/\s/g, ' ')).toContain(
      plain(money.categories['tool']!.forecast),
    );
    expect(complaints).toEqual([]);
  });

  it('should say what is kept back, what is left of it, and when the purse runs empty, with a table behind', async () => {
    const { page, complaints } = await house.device(size);
    const { money } = await plan();
    expect(money.cash.empty).not.toBeNull();
    await page.goto('/builds/wagtail/money');
    await page.getByText(`${euro(money.contingency.left)} of it is left`).waitFor();
    await page.getByText(/^Empty in [A-Z][a-z]{2} 20\d\d/).waitFor();
    await page.getByText('As a table').click();
    const months = page.getByRole('table').filter({ hasText: 'End of' }).getByRole('row');
    expect(await months.count()).toBe(money.cash.months.length + 1);
    expect((await months.last().innerText()).replaceAll(/\s/g, ' ')).toContain(plain(money.total.forecast));
    expect(complaints).toEqual([]);
  });

  it('should fold earned value away, and say in a sentence what each figure means', async () => {
    const { page, complaints } = await house.device(size);
    const { money } = await plan();
    await page.goto('/builds/wagtail/money');
    const row = page.getByRole('row', { name: /^CPI/ });
    expect(await row.isVisible()).toBe(false);
    await page.getByText('For the curious').click();
    await row.waitFor();
    expect(await row.innerText()).toContain(money.earned!.hours.cpi!.toFixed(2));
    expect(await row.innerText()).toContain('below 1 is dearer than planned');
    await page.reload();
    await row.waitFor();
    expect(complaints).toEqual([]);
  });

  it('should say who owes whom, by the week', async () => {
    const { page, complaints } = await house.device(size);
    const { from, amount } = (await plan()).money.partners.settle[0]!;
    await page.goto('/builds/wagtail/money');
    const partners = page.getByRole('region', { name: 'Who paid what' });
    const name = from === 'tor' ? 'Tor owes Ines' : 'Ines owes Tor';
    expect((await partners.innerText()).replaceAll(/\s/g, ' ')).toContain(
      `${name} € ${(amount / 100).toFixed(2)}`,
    );
    await partners.getByRole('button', { name: /^All \d+ weeks$/ }).click();
    expect(await partners.getByRole('row').count()).toBeGreaterThan(20);
    expect(complaints).toEqual([]);
  });

  it('should say in plain words what a delay costs, or that nothing written down costs by the day', async () => {
    const { page, complaints } = await house.device(size);
    expect((await plan()).money.standing.perWeek).toBe(0);
    await page.goto('/builds/wagtail/money');
    await page
      .getByRole('region', { name: 'What a delay costs' })
      .getByText(/^(Nothing that is written down costs by the day|Nothing that costs by the day is here yet)/)
      .waitFor();
    expect(complaints).toEqual([]);
  });

  it('should follow a press at once, and be taken back', async () => {
    const { page, complaints } = await house.device(size);
    await page.goto('/builds/wagtail/money');
    const look = page.getByRole('region', { name: 'Purchases to look at' });
    const before = (await plan()).money.total;
    await look.getByRole('button', { name: 'Mark ordered' }).first().click();
    await expect.poll(async () => (await plan()).money.total.toBuy).toBeLessThan(before.toBuy);
    const after = (await plan()).money.total;
    expect(after.forecast).toBe(before.forecast);
    const row = page.getByRole('row', { name: /^All phases/ });
    await expect
      .poll(async () => (await row.innerText()).replaceAll(/\s/g, ' '))
      .toContain(plain(after.ordered));
    await page.getByRole('status').getByRole('button', { name: 'Undo' }).first().click();
    await expect.poll(async () => (await plan()).money.total.toBuy).toBe(before.toBuy);
    expect(complaints).toEqual([]);
  });

  it('should have nothing serious for a screen reader, and nothing wider than the screen', async () => {
    const { page, context } = await house.device(size);
    await context.addInitScript(AXE);
    for (const view of ['money', 'money?by=category', 'money?curious=yes']) {
      await page.goto(`/builds/wagtail/${view}`);
      await page.getByRole('heading', { level: 1 }).first().waitFor();
      await page.waitForFunction(() => document.fonts.status === 'loaded');
      expect(await page.evaluate(seriousFindings), view).toEqual([]);
      expect(
        await page.evaluate(() => document.documentElement.scrollWidth - innerWidth),
        view,
      ).toBeLessThanOrEqual(0);
      expect(await page.evaluate(() => document.body.innerText), view).not.toMatch(
        /\bNaN\b|undefined|Infinity/,
      );
    }
  });
});

describe('a delay while something hired is here', () => {
  it('should cost a week of it, and its part of each hour worked', async () => {
    const hired = await openHouse(hiredWagtail());
    const { page, complaints } = await hired.device(DESK);
    await page.goto('/builds/wagtail/money');
    const region = page.getByRole('region', { name: 'What a delay costs' });
    await region
      .getByText(/^Another week costs €\s140 of hire: €\s\d+\.\d\d for every hour of work/)
      .waitFor();
    await region.getByText(/a\s+week, until[^]*\sis\s+done$/).waitFor();
    await hired.close();
    expect(complaints).toEqual([]);
  });
});

describe('the money sheet, printed', () => {
  it('should be one page to share', async () => {
    const { page } = await house.device(DESK);
    await page.goto('/builds/wagtail/money');
    await page.getByRole('heading', { level: 1, name: 'Money' }).waitFor();
    const pdf = await page.pdf({ format: 'A4' });
    const pages = pdf.toString('latin1').match(/\/Type\s*\/Page(?!s)/g) ?? [];
    expect(pages).toHaveLength(1);
  });
});

// Helpers

/** The demo with scaffold in hand at 20 a day, until the first task that is still to be done is done. */
function hiredWagtail(): BuildFile {
  const file = wagtail();
  const task = file.tasks.find(({ state }) => state === 'not-started')!.key;
  const purchase = file.purchases.find(({ state, lines }) => state === 'received' && lines.length === 1);
  const [line] = purchase!.lines;
  const hire = { ...line!, category: 'hire' as const, unit: 'day', unitPrice: 2000, neededBy: [task] };
  const lines = [{ ...hire, taxIncluded: true }];
  return {
    ...file,
    purchases: file.purchases.map((one) => (one === purchase ? { ...one, currency: null, lines } : one)),
  };
}

/** The demo with its plan frozen, and a purse that does not last. */
function frozenWagtail(): BuildFile {
  const file = wagtail();
  const planned = computePlan(file, { now: '2027-03-09T19:00' });
  const tasks = Object.fromEntries(
    file.tasks.flatMap(({ key, minutes, people }) => {
      const dates = planned.tasks[key]?.dates;
      if (dates === null || dates === undefined) return [];
      return [
        [key, { start: dates.start, finish: dates.finish, minutes: minutes.likely * people, money: 15_000 }],
      ];
    }),
  );
  return {
    ...file,
    build: {
      ...file.build,
      moneyIn: [
        { on: '2026-06-06', amount: 1_300_000 },
        { from: '2027-04', monthly: 60_000 },
      ],
    },
    baselines: [{ key: 'first', name: 'First plan', on: '2027-03-09', tasks }],
  };
}

async function plan(): Promise<Plan> {
  return (await (await fetch(`${house.url}/api/builds/wagtail/plan`)).json()) as Plan;
}

/** Whole units with the thin spaces of the sheet. */
function euro(minor: number): string {
  return `€\u2009${whole(minor, '\u2009')}`;
}

function plain(minor: number): string {
  return whole(minor, ' ');
}

function whole(minor: number, space: string): string {
  return String(Math.round(minor / 100)).replace(/\B(?=(\d{3})+$)/g, space);
}

interface Finding {
  readonly id: string;
  readonly impact: string;
  readonly nodes: readonly { readonly html: string }[];
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
