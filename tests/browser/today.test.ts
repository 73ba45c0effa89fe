/** Today with a thumb on the screen: an evening planned, worked, finished and signed, a part ordered, a week skipped. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { DESK, openHouse, PHONE, type House } from './support/house.ts';
import { fileOf, labelsOf } from './support/elsewhere.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const LONG = `${'Rib and cavity fill with a name nobody would ever give it '.repeat(4)}`.slice(0, 199);

let house: House;
beforeEach(async () => {
  house = await openHouse(withDueThings(wagtail()));
});
afterEach(() => house.close());

describe('an evening on the phone', () => {
  it('should be planned for three hours, swapped about, and stand in the address', async () => {
    const { page, complaints } = await house.device(PHONE);
    await page.goto('/builds/wagtail/today');
    const hours = page.getByRole('slider', { name: 'Hours I have' });
    await hours.fill('180');
    await page.waitForURL('**/today?hours=3');
    await page.getByRole('button', { name: 'Ines', exact: true }).click();
    await page.waitForURL('**who=tor**');
    expect(await page.getByRole('button', { name: 'Ines', exact: true }).getAttribute('aria-pressed')).toBe(
      'false',
    );
    const first = page.getByRole('row').filter({ has: page.getByRole('button', { name: /^Start / }) });
    await expect.poll(() => first.count()).toBe(1);
    expect(await first.innerText()).toContain('12 V left circuits');
    expect(await first.innerText()).toContain('3 h of 4 h');

    await page.getByRole('button', { name: /^Swap in Feed from starter battery/ }).click();
    await page.getByRole('button', { name: /^Start Feed from starter battery/ }).waitFor();
    await page.reload();
    await page.getByRole('button', { name: /^Start Feed from starter battery/ }).waitFor();
    await page.getByRole('button', { name: /^Leave out Feed from starter battery/ }).click();
    await page.getByRole('button', { name: /^Start 12 V left circuits/ }).waitFor();
    expect(complaints).toEqual([]);
  });

  it('should be worked: started, stopped with its hours, finished', async () => {
    const { page, context, complaints } = await house.device(PHONE);
    await page.goto('/builds/wagtail/today?who=tor');
    await page.getByRole('button', { name: /^Start 12 V left circuits/ }).click();
    const stop = page.getByRole('button', { name: /^Stop 12 V left circuits/ });
    await stop.waitFor();
    await expect
      .poll(async () => (await fileOf(house)).timers.map(({ task }) => task))
      .toEqual(['pull-left']);

    await context.clock.setFixedTime(new Date(2027, 2, 9, 19, 50));
    await page.reload();
    await page
      .getByText(/running, 0:46 of/i)
      .first()
      .waitFor();
    await stop.click();
    const dialog = page.getByRole('dialog', { name: 'Stop' });
    await dialog.getByRole('button', { name: '+ 15 min' }).click();
    await dialog.getByRole('button', { name: 'Stop and log 1 h', exact: true }).click();
    await dialog.waitFor({ state: 'detached' });
    await expect
      .poll(async () => (await fileOf(house)).hours.filter(({ on }) => on === '2027-03-09'))
      .toMatchObject([{ task: 'pull-left', person: 'tor', minutes: 60 }]);
    expect((await fileOf(house)).timers).toEqual([]);

    await page.getByRole('button', { name: /^Finish 12 V left circuits/ }).click();
    const finish = page.getByRole('dialog', { name: 'Finish' });
    await finish.getByRole('button', { name: 'Finish' }).click();
    await finish.waitFor({ state: 'detached' });
    await expect.poll(async () => stateOf('pull-left')).toBe('finished');
    expect(complaints).toEqual([]);
  });

  it('should let a check be signed from its row, with name, time and reading', async () => {
    const { page, complaints } = await house.device(PHONE);
    await page.goto('/builds/wagtail/today');
    await page.getByRole('button', { name: 'Sign pull of the spare conduit' }).click();
    const dialog = page.getByRole('dialog', { name: 'Sign' });
    await dialog.getByLabel('Reading, expected runs free').fill('runs free');
    await dialog.getByLabel('Name').selectOption('tor');
    await dialog.getByRole('button', { name: /^Sign/ }).click();
    await dialog.waitFor({ state: 'detached' });
    const signed = async () =>
      (await fileOf(house)).tasks.find(({ key }) => key === 'camera-lamp')!.holdPoints.at(-1)!.attempts;
    await expect
      .poll(signed)
      .toMatchObject([{ by: 'tor', pass: true, reading: 'runs free', at: '2027-03-09T19:00' }]);
    await expect.poll(() => page.getByRole('button', { name: /^Sign pull of/ }).count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('should let a question be put off and settled', async () => {
    const { page } = await house.device(PHONE);
    await page.goto('/builds/wagtail/today');
    await page.getByRole('button', { name: /^Put off Which side/ }).click();
    await page.getByText('put off once').waitFor();
    await page.getByRole('button', { name: 'left', exact: true }).click();
    await expect
      .poll(async () => (await fileOf(house)).decisions.find(({ key }) => key === 'side')?.chosen)
      .toBe('left');
    await page.getByRole('region', { name: 'To settle' }).waitFor({ state: 'detached' });
  });
});

it('should stop the timer of a task that is finished from its row, with its hours', async () => {
  const { page, context } = await house.device(PHONE);
  await page.goto('/builds/wagtail/today?who=tor');
  await page.getByRole('button', { name: /^Start 12 V left circuits/ }).click();
  await page.getByRole('button', { name: /^Stop 12 V left circuits/ }).waitFor();
  await context.clock.setFixedTime(new Date(2027, 2, 9, 19, 34));
  await page.reload();
  await page.getByRole('button', { name: /^Finish 12 V left circuits/ }).click();
  const dialog = page.getByRole('dialog', { name: 'Stop' });
  expect(await dialog.getByRole('checkbox', { name: 'It is finished with that' }).isChecked()).toBe(true);
  await dialog.getByRole('button', { name: 'Stop and log 30 min', exact: true }).click();
  await expect.poll(async () => stateOf('pull-left')).toBe('finished');
  expect((await fileOf(house)).timers).toEqual([]);
});

describe.each([
  ['on the phone', PHONE],
  ['at the desk', DESK],
])('%s', (_name, size) => {
  it('should mark a part ordered and see the closing it holds up change', async () => {
    const { page, complaints } = await house.device(size);
    await page.goto('/builds/wagtail/today');
    const closes = page.getByRole('region', { name: 'What closes next?' });
    const before = (await plan()).closings.find(({ zone, on }) => zone === 'C1' && on !== null)!;
    if (size === DESK)
      await closes
        .getByText(/order now, was by/)
        .first()
        .waitFor();
    await page.getByRole('button', { name: /^Mark ordered ?: sheet adhesive/ }).click();
    await page.getByText(/^Mark .* as ordered\./).waitFor();
    await expect
      .poll(() => page.getByRole('button', { name: /^Mark ordered ?: sheet adhesive/ }).count())
      .toBe(0);
    if (size === DESK)
      await closes
        .getByText(/comes /)
        .first()
        .waitFor();
    const after = (await plan()).closings.find(({ by, zone }) => zone === 'C1' && by === before.by)!;
    expect(after.undelivered[0]?.arrives).not.toBeNull();
    expect(complaints).toEqual([]);
  });

  it('should skip the week, after showing what that does, and take it back', async () => {
    const { page, complaints } = await house.device(size);
    await page.goto('/builds/wagtail/today');
    await page.getByRole('button', { name: 'We skipped this week' }).click();
    const dialog = page.getByRole('dialog', { name: 'We skipped this week' });
    await dialog.getByText(/No windows from Tue 9 Mar to Sun 14 Mar/).waitFor();
    await dialog.getByText(/^Finish |The finish stays|Moves neither/).waitFor();
    const finish = (await plan()).finish.dates;
    await dialog.getByRole('button', { name: 'Skip the week' }).click();
    await dialog.waitFor({ state: 'detached' });
    await expect.poll(skippedBy).toEqual(['ines', 'tor']);
    expect((await plan()).finish.dates! >= finish!).toBe(true);
    await page.getByRole('status').getByRole('button', { name: 'Undo' }).first().click();
    await expect.poll(skippedBy).toEqual([]);
    expect((await labelsOf(house))[0]).toMatch(/^undo: Ines and Tor skipped/);
    expect(complaints).toEqual([]);
  });

  it('should hold names of two hundred letters, and have nothing serious for a screen reader', async () => {
    await house.close();
    const file = wagtail();
    house = await openHouse({
      ...withDueThings(file),
      tasks: withDueThings(file).tasks.map((task) => ({ ...task, name: `${LONG}` })),
      people: file.people.map((person) => ({ ...person, name: `${person.name} ${'x'.repeat(180)}` })),
      conditions: file.conditions.map((one) => ({ ...one, name: LONG })),
    });
    const { page, context } = await house.device(size);
    await context.addInitScript(AXE);
    for (const query of ['', '?hours=6&instead=all&held=all', '?do=skip']) {
      await page.goto(`/builds/wagtail/today${query}`);
      await page.getByRole('heading', { level: 1 }).first().waitFor();
      await page.waitForFunction(() => document.fonts.status === 'loaded');
      expect(
        await page.evaluate(() => document.documentElement.scrollWidth - innerWidth),
        query,
      ).toBeLessThanOrEqual(0);
      expect(await page.evaluate(serious), query).toEqual([]);
    }
  });
});

describe('with the keyboard alone', () => {
  it('should set the hours, swap a task in, start it and stop it', async () => {
    const { page } = await house.device(DESK);
    await page.goto('/builds/wagtail/today?who=tor&hours=3');
    const hours = page.getByRole('slider', { name: 'Hours I have' });
    await hours.focus();
    await page.keyboard.press('ArrowLeft');
    await page.waitForURL('**hours=2.75**');
    await press(page, /^Swap in Feed from starter battery/);
    await press(page, /^Start Feed from starter battery/);
    await press(page, /^Stop Feed from starter battery/);
    await page.getByRole('dialog', { name: 'Stop' }).waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
  });

  it('should say on the Task page why it starts then and what waits for it, to the finish', async () => {
    const { page } = await house.device(DESK);
    const { tasks } = await plan();
    const driving = Object.keys(tasks).find(
      (key) => tasks[key]!.chain === true && tasks[key]!.because?.task != null,
    )!;
    await page.goto(`/builds/wagtail/task/${driving}`);
    await page.getByRole('heading', { name: 'Why then?' }).waitFor();
    await page.getByText(tasks[driving]!.because!.words).first().waitFor();
    const all = page.getByRole('button', { name: /^Show all \d+ steps to the finish/ });
    if ((await all.count()) > 0) await all.press('Enter');
    await page.getByText(/^(The finish, |Nothing more on the driving chain)/).waitFor();
  });
});

// Helpers

/** The demo with a check to sign tonight and a question to settle this week. */
function withDueThings(file: BuildFile): BuildFile {
  const check = {
    key: 'spare',
    kind: 'function',
    when: 'exit',
    name: 'pull of the spare conduit',
    expect: 'runs free',
    attempts: [],
  } as const;
  return {
    ...file,
    tasks: file.tasks.map((task) =>
      task.key === 'camera-lamp'
        ? { ...task, holdPoints: [...task.holdPoints, { ...check, attempts: [] }] }
        : task,
    ),
    decisions: [
      ...file.decisions,
      {
        key: 'side',
        question: 'Which side does the lamp go to?',
        options: ['left', 'right'],
        chosen: null,
        by: null,
        leadDays: 0,
        locksTasks: ['skin-ceiling'],
        locksPurchases: [],
        putOff: 0,
      },
    ],
  };
}

async function plan(): Promise<Plan> {
  return (await (await fetch(`${house.url}/api/builds/wagtail/plan`)).json()) as Plan;
}

async function stateOf(key: string): Promise<string | undefined> {
  return (await fileOf(house)).tasks.find((task) => task.key === key)?.state;
}

async function skippedBy(): Promise<string[]> {
  const { people } = await fileOf(house);
  return people
    .filter(({ exceptions }) => exceptions.some(({ why }) => why === 'skipped'))
    .map(({ key }) => key);
}

async function press(page: Page, name: RegExp): Promise<void> {
  const button = page.getByRole('button', { name });
  await button.focus();
  await page.keyboard.press('Enter');
}

/** Runs in the page. */
async function serious(): Promise<string[]> {
  const { axe } = globalThis as unknown as {
    axe: {
      run: (
        root: unknown,
        options: object,
      ) => Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }>;
    };
  };
  const { violations } = await axe.run(document, { resultTypes: ['violations'] });
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(' | ')}`);
}
