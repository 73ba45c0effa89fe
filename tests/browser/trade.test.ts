/** The trade check with hands on the screen: find, apply, dismiss, take back, and answer what kind of work a task is. */
import type { Page } from 'playwright-core';
import { afterEach, describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { DESK, openHouse, PHONE, type House, type Size } from './support/house.ts';

let house: House;
afterEach(() => house?.close());

describe.each([
  ['at the desk', DESK],
  ['on the phone', PHONE],
])('the trade check %s', (_name, size) => {
  it('should be found under More and say what is there, why, and what goes wrong otherwise', async () => {
    const { page, complaints } = await opened(wagtail(), size);
    await page.goto('/builds/wagtail/more');
    await page
      .getByRole('main')
      .getByRole('link', { name: /^Trade check/ })
      .first()
      .click();
    await page.getByRole('heading', { level: 1, name: 'Trade check' }).waitFor();
    await page.getByText('4 findings').waitFor();
    const rule = page.getByRole('article', { name: 'Swarf hunted after each cut, before the insulation' });
    await rule.getByText('Steel filings rust at once wherever they land.').waitFor();
    await rule.getByText('Else it is hidden for good.').waitFor();
    expect(await widest(page)).toBeLessThanOrEqual(size.width);
    expect(complaints).toEqual([]);
  });

  it('should show what a repair does before it is made, and make it', async () => {
    const { page, complaints } = await opened(wagtail(), size);
    await page.getByRole('button', { name: /gets no swarf hunt/ }).click();
    await page.getByRole('link', { name: /^Awning brackets right/ }).waitFor();
    await page.getByText(/^Add the task “Same-day swarf hunt/).waitFor();
    const proposal = page.getByRole('group', { name: 'Add the task' });
    await proposal
      .getByText(/Finish|finish/)
      .first()
      .waitFor();
    await proposal.getByText('The trade check then has 2 findings instead of 4.').waitFor();
    expect((await file()).tasks).toHaveLength(149);
    await proposal.getByRole('button', { name: 'Add the task' }).click();
    // The hunt holds the awning before the sheet as well.
    await page.getByText('2 findings').waitFor();
    await expect.poll(async () => (await file()).tasks.length).toBe(150);
    const added = (await file()).links.filter(({ from, to }) => from === 'swarf-2' || to === 'swarf-2');
    expect(added.map(({ from, to, why }) => [from, to, why])).toEqual([
      ['awning', 'swarf-2', 'hidden-by'],
      ['swarf-2', 'skin-arch', 'hidden-by'],
    ]);
    expect(complaints).toEqual([]);
  });

  it('should fold what is dismissed with its reason, and take it back', async () => {
    const { page, complaints } = await opened(wagtail(), size);
    await page.getByRole('button', { name: /^not held/ }).click();
    const dismiss = page.getByRole('button', { name: 'Dismiss', exact: true });
    expect(await dismiss.isDisabled()).toBe(true);
    await page.getByRole('textbox', { name: 'Why it does not matter here' }).fill('the bolts are outside');
    await dismiss.click();
    await page.getByText('3 findings').waitFor();
    await expect
      .poll(async () => (await file()).dismissals.map(({ reason, on }) => [reason, on]))
      .toEqual([['the bolts are outside', '2027-03-09']]);
    expect((await plan()).trade.findings.filter(({ dismissed }) => dismissed !== null)).toHaveLength(1);
    await page.getByText('1 dismissed finding').click();
    await page.getByText('Dismissed, Tue 9 Mar: the bolts are outside').waitFor();
    await page.getByRole('button', { name: /^Take back/ }).click();
    await page.getByText('4 findings').waitFor();
    await expect.poll(async () => (await file()).dismissals).toEqual([]);
    expect(complaints).toEqual([]);
  });

  it('should ask the kind of a task that has none, and go by the answer', async () => {
    const { page, complaints } = await opened(handMade(), size);
    await page.getByRole('heading', { name: 'What kind of work is it?' }).waitFor();
    const vinyl = page.getByRole('group', { name: 'The kind of Lay the vinyl' });
    await vinyl.getByRole('button', { name: 'Yes' }).click();
    await expect.poll(kindsOf('vinyl')).toEqual(['floor-covering']);
    await page
      .getByRole('group', { name: 'The kind of Line the chest' })
      .getByRole('button', { name: 'No' })
      .click();
    await expect.poll(kindsOf('fronts')).toEqual(['other']);
    await page.getByRole('combobox', { name: 'Another kind for Gas pipes' }).selectOption('gas');
    await expect.poll(kindsOf('hoses')).toEqual(['gas']);
    expect((await file()).tasks.find(({ key }) => key === 'hoses')!.cautions).toContain('gas');
    await page
      .getByText(/gets no gas test/)
      .first()
      .waitFor();
    await page.getByRole('button', { name: 'Yes to the 2 that are sure' }).click();
    await expect.poll(kindsOf('rails')).toEqual(['rail']);
    await expect.poll(kindsOf('furring-walls')).toEqual(['batten']);
    expect(await page.getByRole('heading', { name: 'What kind of work is it?' }).count()).toBe(0);
    expect(complaints).toEqual([]);
  });
});

// Helpers

async function opened(build: unknown, size: Size) {
  house = await openHouse(build);
  const device = await house.device(size);
  await device.page.goto('/builds/wagtail/trade');
  await device.page.getByRole('heading', { level: 1, name: 'Trade check' }).waitFor();
  return device;
}

/** The demo with five tasks named and left without a kind, as by hand. */
function handMade(): BuildFile {
  const names: Readonly<Record<string, string>> = {
    vinyl: 'Lay the vinyl',
    fronts: 'Line the chest',
    hoses: 'Gas pipes',
    rails: 'Rails',
    'furring-walls': 'Battens',
  };
  const demo = wagtail();
  return {
    ...demo,
    tasks: demo.tasks.map((task) => ({
      ...task,
      ...(names[task.key] === undefined ? {} : { name: names[task.key]!, kinds: [], cautions: [] }),
    })),
  };
}

async function widest(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth);
}

async function file(): Promise<BuildFile> {
  const answer = await fetch(`${house.url}/api/builds/wagtail/snapshot`);
  return ((await answer.json()) as { file: BuildFile }).file;
}

async function plan(): Promise<Plan> {
  return (await (await fetch(`${house.url}/api/builds/wagtail/plan`)).json()) as Plan;
}

const kindsOf = (key: string) => async () => (await file()).tasks.find((task) => task.key === key)!.kinds;
