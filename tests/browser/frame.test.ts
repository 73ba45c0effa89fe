/** The frame around every sheet: addresses, find, keys, themes, undo, and two devices on one build. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { DESK, openHouse, PHONE, type House } from './support/house.ts';

let house: House;
beforeEach(async () => {
  house = await openHouse();
});
afterEach(() => house.close());

describe('addresses', () => {
  it('should lead from the front door to the demo, and back again from any sheet', async () => {
    const { page, complaints } = await house.device();
    await page.goto('/');
    await page.waitForURL('**/builds/wagtail/today');
    await page.getByRole('navigation', { name: 'Sheets' }).getByText('Schedule').click();
    await page.waitForURL('**/builds/wagtail/schedule');
    expect(await page.title()).toBe('Schedule, Wagtail – Coverlast');
    await page.goBack();
    await page.waitForURL('**/builds/wagtail/today');
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(complaints).toEqual([]);
  });

  it('should say what is not there instead of showing nothing', async () => {
    const { page } = await house.device();
    await page.goto('/builds/wagtail/kitchenette');
    await page.getByText('There is no sheet of that name').waitFor();
    await page.goto('/builds/heron/today');
    await page.getByText('There is no build "heron"').waitFor();
    await page.getByRole('link', { name: 'See all builds' }).click();
    await page.getByRole('heading', { level: 1, name: 'Builds' }).waitFor();
    await page.getByText('Wagtail').filter({ visible: true }).first().waitFor();
  });
});

describe('find', () => {
  it('should go to a task by a few letters of its name, by keys alone', async () => {
    const { page, complaints } = await house.device();
    await page.goto('/builds/wagtail/today');
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.keyboard.press('/');
    await page.getByRole('combobox', { name: 'Find' }).fill('vapour wal');
    await page.getByRole('option').first().waitFor();
    await page.keyboard.press('Enter');
    await page.waitForURL('**/builds/wagtail/task/vapour-walls');
    expect(complaints).toEqual([]);
  });

  it('should say so when nothing has these words', async () => {
    const { page } = await house.device(PHONE);
    await page.goto('/builds/wagtail/today');
    await page.getByRole('button', { name: 'Find' }).click();
    await page.getByRole('combobox', { name: 'Find' }).fill('zeppelin');
    await page.getByText('Nothing has these words').waitFor();
  });
});

describe('themes', () => {
  it('should follow the device, and keep what the reader chose over a reload', async () => {
    const { page } = await house.device(DESK, { dark: true });
    await page.goto('/builds/wagtail/today');
    const theme = () => page.evaluate(() => document.documentElement.dataset['theme']);
    expect(await theme()).toBe('blueprint');
    await page.getByRole('button', { name: 'Paper' }).click();
    expect(await theme()).toBe('paper');
    await page.reload();
    await page.getByRole('button', { name: 'Blueprint' }).waitFor();
    expect(await theme()).toBe('paper');
  });
});

describe('the words on top', () => {
  it('should never be wider than the screen, with a timer running or without, connected or not', async () => {
    const { page } = await house.device();
    await page.goto('/builds/wagtail/records');
    await page.getByRole('heading', { level: 1 }).waitFor();
    const tooWide = async (state: string): Promise<string[]> => {
      const found: string[] = [];
      for (const width of WIDTHS) {
        await page.setViewportSize({ width, height: 900 });
        await page.evaluate(
          () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
        );
        const over = await page.evaluate(() => {
          const strip = document.querySelector('.strip')!;
          return Math.max(
            document.documentElement.scrollWidth - innerWidth,
            ...[...strip.querySelectorAll('*')].map(
              (part) => part.getBoundingClientRect().right - strip.getBoundingClientRect().right,
            ),
          );
        });
        if (over > 0.5) found.push(`${state}: ${over} too wide at ${width}`);
      }
      return found;
    };
    const found = await tooWide('plain');
    await page.setViewportSize(DESK);
    await startTimer();
    await page.getByRole('link', { name: /^Ines on/ }).waitFor();
    found.push(...(await tooWide('with a timer')));
    await house.away();
    await page.setViewportSize(DESK);
    await page.getByText('not connected').filter({ visible: true }).waitFor();
    found.push(...(await tooWide('not connected')));
    await house.back();
    expect(found).toEqual([]);
  });

  it('should let tools go where there is no room, and have each of them under More', async () => {
    const { page } = await house.device();
    await page.goto('/builds/wagtail/more');
    await page.getByRole('heading', { level: 1 }).waitFor();
    const strip = page.locator('.strip');
    const TOOLS = ['Undo', 'Redo', 'New task', 'Find', 'Print', 'Blueprint', 'Keys'];
    for (const tool of TOOLS) await strip.getByRole('button', { name: tool, exact: true }).waitFor();
    await page.setViewportSize({ width: 780, height: 900 });
    await strip.getByRole('button', { name: 'Keys', exact: true }).waitFor({ state: 'hidden' });
    for (const sheet of ['Today', 'Shell', 'Sequence', 'Schedule', 'Purchases', 'Money', 'Hours', 'More'])
      expect(await strip.getByRole('link', { name: sheet, exact: true }).isVisible()).toBe(true);
    await strip.getByRole('button', { name: 'New task', exact: true }).waitFor();
    for (const tool of TOOLS.filter((name) => name !== 'New task'))
      await page
        .getByRole('main')
        .getByRole('button', { name: new RegExp(`^${tool}`) })
        .first()
        .waitFor();
  });
});

describe('two devices', () => {
  it('should show a change of one on the other within a second, and undo it by key on either', async () => {
    const [desk, phone] = [await house.device(), await house.device(PHONE)];
    for (const { page } of [desk, phone]) {
      await page.goto('/builds/wagtail/today');
      await page.getByRole('heading', { level: 1 }).waitFor();
    }
    await rename('Wagtail the second');
    await desk.page
      .getByText('Wagtail the second')
      .filter({ visible: true })
      .first()
      .waitFor({ timeout: 1000 });
    await phone.page
      .getByText('Wagtail the second')
      .filter({ visible: true })
      .first()
      .waitFor({ timeout: 1000 });
    await desk.page.keyboard.press('Control+z');
    await desk.page.getByText('Undone: Name the build').waitFor();
    await phone.page.getByText('Wagtail, Tue 9 Mar').waitFor({ timeout: 1000 });
    await desk.page.keyboard.press('Control+Shift+z');
    await phone.page
      .getByText('Wagtail the second')
      .filter({ visible: true })
      .first()
      .waitFor({ timeout: 1000 });
    expect([...desk.complaints, ...phone.complaints]).toEqual([]);
  });
});

// Helpers

/** From the narrowest phone to a wide screen, and the widths right after those at which the styles change. */
const WIDTHS = [
  ...Array.from({ length: 33 }, (_, i) => 320 + 40 * i),
  390,
  761,
  781,
  901,
  1001,
  1181,
  1300,
  1321,
  1440,
];

async function startTimer(): Promise<void> {
  const value = {
    key: 'ines',
    person: 'ines',
    task: 'skin-right',
    phase: null,
    startedAt: '2027-03-09T18:30',
    note: '',
  };
  const edits = [{ noun: 'timers', id: 'ines', version: null, value }];
  const response = await fetch(`${house.url}/api/builds/wagtail/changes`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ label: 'Start the timer', edits }),
  });
  expect(response.status, await response.text()).toBe(200);
}

/** As a program would do it: through the interface. */
async function rename(name: string): Promise<void> {
  const snapshot = (await (await fetch(`${house.url}/api/builds/wagtail/snapshot`)).json()) as {
    file: { build: object; order: string[] };
    versions: { build: { build: number } };
  };
  const value = { ...snapshot.file.build, order: snapshot.file.order, name };
  const edits = [{ noun: 'build', id: 'build', version: snapshot.versions.build.build, value }];
  const response = await fetch(`${house.url}/api/builds/wagtail/changes`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ label: 'Name the build', edits }),
  });
  expect(response.status, await response.text()).toBe(200);
}
