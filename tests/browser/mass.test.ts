/** Mass with hands on the screen: a mass entered moves the axles, a weighing is believed, now and as planned stand apart. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { emptyBuild } from '#shared/starter/empty-build.ts';
import { DESK, openHouse, PHONE, type House } from './support/house.ts';

let house: House;
beforeEach(async () => {
  house = await openHouse();
});
afterEach(() => house?.close());

describe.each([
  ['at the desk', DESK],
  ['on the phone', PHONE],
])('mass %s', (_name, size) => {
  it('should be found under More and show the whole catalogue aboard', async () => {
    const { page, complaints } = await house.device(size);
    await page.goto('/builds/wagtail/more');
    await page.getByRole('main').getByRole('link', { name: /^Mass/ }).first().click();
    await page.getByRole('heading', { level: 1, name: 'Mass' }).waitFor();
    await page
      .getByRole('img', { name: /as planned: front axle 1\s493\skg, rear axle 1\s909\skg/ })
      .waitFor();
    await page.getByText('98.8', { exact: true }).first().waitFor();
    expect(complaints).toEqual([]);
  });

  it('should move the axles by a mass that is entered where it was missing, and say so before it is kept', async () => {
    const { page, complaints } = await opened(size);
    await page.getByRole('button', { name: 'Enter mass and place of rust converter 1 l' }).click();
    const form = page.getByRole('form', { name: /^Mass and place of rust converter/ });
    await form.getByRole('textbox', { name: 'Mass of all of it' }).fill('10');
    await form.getByRole('textbox', { name: 'Behind the front axle' }).fill('3640');
    await form.getByRole('textbox', { name: 'Left of the middle' }).fill('0');
    await form.getByText(/^As planned in all 3\s401 → 3\s411\skg.* rear 1\s909 → 1\s919\skg/).waitFor();
    expect((await plan()).mass.planned.rear.load).toBe(1_908_603);
    await form.getByRole('button', { name: 'Save' }).click();
    await page.getByRole('img', { name: /rear axle 1\s919\skg/ }).waitFor();
    await expect.poll(async () => (await plan()).mass.planned.rear.load).toBe(1_918_603);
    await page.getByText('Every one of the 130 parts that stay in the van has a mass.').waitFor();
    expect(complaints).toEqual([]);
  });

  it('should say what cannot be read, and keep it', async () => {
    const { page } = await opened(size);
    await page.getByRole('button', { name: 'Enter mass and place of rust converter 1 l' }).click();
    const form = page.getByRole('form', { name: /^Mass and place of rust converter/ });
    await form.getByRole('textbox', { name: 'Mass of all of it' }).fill('a lot');
    await form
      .getByText(/must be kilograms, such as 12\.5/)
      .first()
      .waitFor();
    expect(await form.getByRole('button', { name: 'Save' }).isDisabled()).toBe(true);
    expect(await page.evaluate(() => document.body.innerText)).not.toMatch(/\bNaN\b/);
    expect(await form.getByRole('textbox', { name: 'Mass of all of it' }).inputValue()).toBe('a lot');
  });

  it('should believe a weighing, and show what it differs by', async () => {
    const { page, complaints } = await opened(size);
    await page.getByRole('button', { name: 'Enter a weighing' }).click();
    const form = page.getByRole('form', { name: 'A weighing' });
    await form.getByRole('textbox', { name: 'Front axle' }).fill('1300');
    await form.getByRole('textbox', { name: 'Rear axle' }).fill('920');
    // Fitted by then are 129.9 kg, taken out 52: 2,217.9 of 2,220.
    await form.getByText(/^As planned in all/).waitFor();
    await form.getByRole('button', { name: /^Enter 2\s220/ }).click();
    await page.getByText('+2.1 kg').waitFor();
    await page.getByText(/Read as the van empty.*; which comes nearest\./).waitFor();
    await expect.poll(async () => (await plan()).mass.weighing?.difference?.gross).toBe(2_120);
    expect((await plan()).mass.planned.gross.load).toBe(3_401_189 + 2_120);
    await page.getByRole('button', { name: 'Take out the weighing of Tue 9 Mar' }).click();
    await expect.poll(async () => (await file()).weighings.length).toBe(1);
    expect(complaints).toEqual([]);
  });

  it('should ask what was aboard, and go by the answer', async () => {
    const { page, complaints } = await opened(size);
    await page.getByRole('button', { name: 'Enter a weighing' }).click();
    const form = page.getByRole('form', { name: 'A weighing' });
    await form.getByRole('textbox', { name: 'Front axle' }).fill('1300');
    await form.getByRole('textbox', { name: 'Rear axle' }).fill('920');
    await form.getByLabel('What was aboard').selectOption('as delivered: nothing taken out yet');
    await form.getByRole('textbox', { name: 'Note' }).fill('at the recycling yard');
    // The 52 kg that are to go were still in.
    await form.getByText(/^As planned in all/).waitFor();
    await form.getByRole('button', { name: /^Enter 2\s220/ }).click();
    await page.getByText('−49.9 kg').waitFor();
    await page.getByText(/Read as the van as delivered.*; as was said\./).waitFor();
    await page.getByText('as delivered: nothing taken out yet. at the recycling yard').waitFor();
    await expect.poll(async () => (await plan()).mass.weighing?.told).toBe(true);
    expect((await file()).weighings.at(-1)!.aboard).toBe('as-delivered');
    expect(complaints).toEqual([]);
  });

  it('should stand in the address whether it is now or as planned', async () => {
    const { page } = await opened(size, 'mass?as=now');
    await page.getByRole('img', { name: /above now: front axle 1\s363/ }).waitFor();
    await page.getByRole('button', { name: 'As planned' }).click();
    await page.getByRole('img', { name: /as planned: front axle 1\s493/ }).waitFor();
    expect(new URL(page.url()).search).toBe('');
  });

  it('should show nothing serious to axe with all entries open, in both themes', async () => {
    for (const dark of [false, true]) {
      const { page, context } = await house.device(size, { dark });
      await context.addInitScript(AXE);
      await page.goto('/builds/wagtail/mass?masses=all&weigh=new&part=p018/p018&change=p124/p124');
      await page.getByRole('form', { name: 'A weighing' }).waitFor();
      expect(await seriousFindings(page)).toEqual([]);
      expect(
        await page.evaluate(() => document.documentElement.scrollWidth - innerWidth),
      ).toBeLessThanOrEqual(0);
      expect(await page.evaluate(() => document.body.innerText)).not.toMatch(/\bNaN\b|undefined|\bnull\b/);
      await context.close();
    }
  });
});

describe('mass in pounds and inches', () => {
  it('should show and take them, and store grams and millimetres', async () => {
    await house.close();
    const demo = wagtail();
    house = await openHouse({ ...demo, build: { ...demo.build, units: 'imperial' } });
    const { page, complaints } = await opened(DESK);
    await page
      .getByRole('img', { name: /as planned: front axle 3\s291\slb, rear axle 4\s208\slb/ })
      .waitFor();
    await page.getByText('wheelbase 143.3 in').waitFor();
    await page.getByRole('button', { name: 'Enter mass and place of rust converter 1 l' }).click();
    const form = page.getByRole('form', { name: /^Mass and place of rust converter/ });
    await form.getByRole('textbox', { name: 'Mass of all of it' }).fill('12.5');
    await form.getByRole('textbox', { name: 'Behind the front axle' }).fill('12.5');
    await form.getByRole('textbox', { name: 'Above the floor' }).fill('12 1/2');
    await form.getByText(/^As planned in all .*lb/).waitFor();
    await form.getByRole('button', { name: 'Save' }).click();
    await expect
      .poll(async () => (await file()).purchases.find(({ key }) => key === 'p018')?.lines[0])
      .toMatchObject({ mass: 5670, x: 318, z: 318 });
    await page.goto('/builds/wagtail/purchases/p018');
    await page.getByText('Every field').click();
    expect(await page.getByRole('textbox', { name: /^Mass of the whole line/ }).inputValue()).toBe('12.5');
    expect(await page.getByRole('textbox', { name: 'From the front axle' }).inputValue()).toBe('12.5');
    expect(complaints).toEqual([]);
  });
});

describe('mass of a van nobody knows anything of', () => {
  it('should say "not known", never zero, and where to enter it', async () => {
    await house.close();
    house = await openHouse(
      emptyBuild({
        name: 'Kestrel',
        vehicle: '',
        startOn: '2027-03-01',
        currency: 'EUR',
        person: 'Me',
        phases: true,
      }),
    );
    const { page, complaints } = await house.device(DESK);
    await page.goto('/builds/kestrel/mass');
    await page.getByText(/^Not known yet: what it may weigh in all/).waitFor();
    await page.getByRole('img', { name: /front axle not known, rear axle not known/ }).waitFor();
    expect(await page.evaluate(() => document.body.innerText)).not.toMatch(
      /\bNaN\b|undefined|\bnull\b|Infinity/,
    );
    expect(complaints).toEqual([]);
  });

  it('should be worked by keyboard alone', async () => {
    const { page } = await opened(DESK);
    await tabTo(page, /^Enter mass and place of rust/);
    await page.keyboard.press('Enter');
    await page.getByRole('form', { name: /^Mass and place/ }).waitFor();
    await tabTo(page, /^Mass of all of it/);
    await page.keyboard.type('2');
    await page.keyboard.press('Enter');
    await expect.poll(async () => (await plan()).mass.withoutMass.length).toBe(0);
  });
});

// Helpers

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

async function opened(size: typeof DESK | typeof PHONE, view = 'mass') {
  const device = await house.device(size);
  await device.page.goto(`/builds/wagtail/${view}`);
  await device.page.getByRole('heading', { level: 1, name: 'Mass' }).waitFor();
  return device;
}

async function plan(): Promise<Plan> {
  return (await (await fetch(`${house.url}/api/builds/wagtail/plan`)).json()) as Plan;
}

async function file(): Promise<BuildFile> {
  return (await (await fetch(`${house.url}/api/builds/wagtail/file`)).json()) as BuildFile;
}

async function tabTo(page: Page, words: RegExp): Promise<void> {
  for (let i = 0; i < 200; i++) {
    const now = await page.evaluate(() => {
      const element = document.activeElement as HTMLInputElement | null;
      return (element?.labels?.[0]?.innerText ?? element?.innerText ?? '').trim().replace(/\s+/g, ' ');
    });
    if (words.test(now)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`The Tab key never reaches ${words}`);
}

async function seriousFindings(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    interface Finding {
      readonly id: string;
      readonly impact: string;
      readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
    }
    const { axe } = globalThis as unknown as {
      axe: { run: (root: unknown, options: object) => Promise<{ violations: Finding[] }> };
    };
    const { violations } = await axe.run(document, { resultTypes: ['violations'] });
    return violations
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .map(
        ({ id, nodes }) =>
          `${id}: ${nodes.map(({ html, failureSummary }) => `${html.slice(0, 200)} ${failureSummary}`).join(' | ')}`,
      );
  });
}
