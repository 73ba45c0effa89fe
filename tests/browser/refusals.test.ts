/** What is refused: it says so in the words of the form, and what was typed stays. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openHouse, type House } from './support/house.ts';
import { fileOf } from './support/elsewhere.ts';

let house: House;
beforeAll(async () => {
  house = await openHouse();
});
afterAll(() => house.close());

describe('a refusal', () => {
  it('should keep a new build that cannot be one on its form, and say why at the field', async () => {
    const { page } = await house.device();
    await page.goto('/builds/?door=empty');
    await page.getByLabel('Name', { exact: true }).fill('Kestrel');
    await page.getByLabel('Currency').fill('euros');
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.getByRole('alert').waitFor();
    expect(await page.getByLabel('Currency').getAttribute('aria-invalid')).toBe('true');
    await page.getByText('it must be a currency code of ISO 4217').waitFor();
    expect(await page.getByLabel('Name', { exact: true }).inputValue()).toBe('Kestrel');
    expect(await page.getByLabel('Currency').inputValue()).toBe('euros');
    expect(await page.locator('body').innerText()).not.toMatch(/\/build\//);
  });

  it('should keep an estimate that cannot be read, and let nothing be saved meanwhile', async () => {
    const { page, complaints } = await house.device();
    await page.goto('/builds/wagtail/task/pull-left?edit=work');
    await page.getByLabel('Hours, low').fill('about two');
    await page.getByText('Hours, low cannot be read as it is typed').waitFor();
    expect(await page.getByRole('button', { name: 'Save', exact: true }).isDisabled()).toBe(true);
    await page.getByLabel('Hours, low').fill('400');
    const says = page.getByRole('group', { name: 'Changes not saved yet' });
    await expect
      .poll(() => says.innerText())
      .toMatch(/Hours, low is more than the likely: it must be .* h.* or less/);
    await elsewhereAndBack(page);
    expect(await page.getByLabel('Hours, low').inputValue()).toMatch(/^400/);
    expect(complaints).toEqual([]);
  });

  it('should leave a person with hours in the build, and say what points there', async () => {
    const { page, complaints } = await house.device();
    const before = await fileOf(house);
    const { key, name } = before.people.find(({ key: one }) =>
      before.hours.some(({ person }) => person === one),
    )!;
    await page.goto(`/builds/wagtail/settings/people/${key}`);
    await page.getByRole('button', { name: `Take out ${name}` }).click();
    await page.getByText(`${name} cannot be taken out`).waitFor();
    await page
      .getByText(/entr(y|ies) of hours/)
      .first()
      .waitFor();
    expect(await fileOf(house)).toEqual(before);
    expect(complaints).toEqual([]);
  });
});

/** A look at another sheet loses nothing that was typed. */
async function elsewhereAndBack(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Hours', exact: true }).first().click();
  await page.getByRole('heading', { level: 1, name: 'Hours' }).waitFor();
  await page.goBack();
  await page.getByLabel('Hours, low').waitFor();
}
