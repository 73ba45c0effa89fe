/** The main job with hands on the screen: find the wrong order, put it right, add a task, fix it, change a week. */
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { DESK, openHouse, PHONE, type House } from './support/house.ts';

let house: House;
beforeEach(async () => {
  house = await openHouse();
});
afterEach(() => house.close());

describe.each([
  ['at the desk', DESK],
  ['on the phone', PHONE],
])('the main job %s', (_name, size) => {
  it('should find the wrong order, drop its link, see the dates become firm, and take that back', async () => {
    const { page, complaints } = await house.device(size);
    await page.goto('/builds/wagtail/today');
    await page.getByRole('link', { name: 'See what puts it right' }).click();
    await page.getByText('Dates are provisional').waitFor();
    const wrong = page.getByRole('link', { name: /^Battens on walls, linked before Filler hose/ });
    await wrong.click();
    await page.getByText('The dates are no longer provisional').waitFor();
    expect((await plan()).provisional).toBe(true);

    await page.getByRole('button', { name: 'Drop the link' }).click();
    await page.getByText('Dates are provisional').waitFor({ state: 'detached' });
    await wrong.waitFor({ state: 'detached' });
    await expect.poll(async () => (await plan()).provisional).toBe(false);
    if (size === DESK) await page.getByText('Finish as planned').waitFor();

    await undo(page);
    await page.getByText('Dates are provisional').waitFor();
    await expect.poll(async () => (await plan()).errors.map(({ rule }) => rule)).toContain('wrong-order');
    expect(complaints).toEqual([]);
  });

  it('should take covers off that were closed too early, and see their closings come back', async () => {
    const { page, complaints } = await house.device(size);
    await page.goto('/builds/wagtail/sequence');
    await page.getByRole('link', { name: /^Awning brackets right, behind Closed-cell sheet/ }).click();
    const sheet = page.getByRole('region', { name: 'What closes next' });
    expect(await closes(sheet.page(), 'R2')).not.toContain('Closed-cell sheet');
    await page
      .getByRole('button', { name: /^Take (it|them|the)/ })
      .first()
      .click();
    await expect.poll(() => closes(page, 'R2')).toContain('Closed-cell sheet');
    const { closings } = await plan();
    expect(closings.some(({ zone, by }) => zone === 'R2' && by === 'skin-right')).toBe(true);
    await undo(page);
    await expect.poll(() => closes(page, 'R2')).not.toContain('Closed-cell sheet');
    expect(complaints).toEqual([]);
  });

  it('should add a task behind a cover, link it, fix its date and change a week; all of it outlives a reload', async () => {
    const { page, context, complaints } = await house.device(size);
    const other = await context.newPage();
    await other.goto('/builds/wagtail/schedule?show=all');
    await page.goto('/builds/wagtail/today');
    await newTask(page);
    await page.waitForURL('**/task/cord-for-a-spare-lamp');
    const added = (await file()).tasks.find(({ key }) => key === 'cord-for-a-spare-lamp');
    expect(added?.places).toEqual([{ zone: 'R2', depth: 'services', hides: null }]);
    await other.getByText('Cord for a spare lamp').first().waitFor();

    await page.getByRole('button', { name: 'Add what comes first' }).click();
    await page.getByRole('combobox', { name: 'It comes after' }).fill('conduits right');
    await page.getByRole('option').first().click();
    await saveDraft(page);
    await expect
      .poll(async () =>
        (await file()).links.some(
          ({ from, to }) => from === 'conduit-right-ceiling' && to === 'cord-for-a-spare-lamp',
        ),
      )
      .toBe(true);

    await page.getByRole('button', { name: /^Fix the date/ }).click();
    await page.getByRole('textbox', { name: 'Fixed to' }).fill('2027-06-05T10:00');
    await saveDraft(page);
    await expect
      .poll(async () => (await file()).tasks.find(({ key }) => key === 'cord-for-a-spare-lamp')?.fixedStart)
      .toBe('2027-06-05T10:00');
    expect((await plan()).tasks['cord-for-a-spare-lamp']?.dates?.start).toBe('2027-06-05T10:00');

    await page.goto('/builds/wagtail/settings/people/ines');
    await page.getByRole('button', { name: /^Add a window on Wednesday/ }).click();
    await page
      .getByText(/^Finish|Moves neither|The finish stays/)
      .filter({ visible: true })
      .last()
      .waitFor();
    await saveDraft(page);
    await expect.poll(async () => (await file()).people[0]!.week.wed.length).toBe(1);

    await page.reload();
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect((await file()).people[0]!.week.wed.length).toBe(1);
    await page.goto('/builds/wagtail/task/cord-for-a-spare-lamp');
    await page.getByRole('heading', { level: 1, name: 'Cord for a spare lamp' }).waitFor();
    await page.getByText('Sat 5 Jun').first().waitFor();
    expect(complaints).toEqual([]);
  });
});

// Helpers

async function plan(): Promise<Plan> {
  return (await (await fetch(`${house.url}/api/builds/wagtail/plan`)).json()) as Plan;
}

async function file(): Promise<BuildFile> {
  return (await (await fetch(`${house.url}/api/builds/wagtail/file`)).json()) as BuildFile;
}

/** The message line offers to take back what was just done. */
async function undo(page: Page): Promise<void> {
  await page.getByRole('status').getByRole('button', { name: 'Undo' }).first().click();
  await page.getByText(/^Undone:/).waitFor();
}

/** The text of the rows of a zone in the list of closings. */
async function closes(page: Page, zone: string): Promise<string> {
  const rows = await page.getByRole('region', { name: 'What closes next' }).getByRole('row').allInnerTexts();
  return rows.filter((row) => row.includes(zone)).join('\n');
}

async function newTask(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'New task' }).filter({ visible: true }).click();
  const dialog = page.getByRole('dialog', { name: 'New task' });
  await dialog.getByLabel('What is it called?').fill('Cord for a spare lamp');
  await dialog.getByRole('button', { name: /^R2/ }).click();
  await dialog.getByRole('radio', { name: /^Rib and cavity fill/ }).check();
  await dialog.getByRole('button', { name: 'Add the task' }).click();
}

async function saveDraft(page: Page): Promise<void> {
  await page
    .getByRole('button', { name: /^(Save|Fix it|Add the link|Fix the date there)/ })
    .last()
    .click();
}
