/** In and out on the screen: a table looked at before it is taken in, a calendar made and revoked, a week on paper. */
import { writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { extractText, getDocumentProxy } from 'unpdf';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { MOST_BYTES } from '#shared/exchange/csv.ts';
import { PNG } from '../support/pictures.ts';
import { fileOf, labelsOf } from './support/elsewhere.ts';
import { openHouse, PHONE, type House } from './support/house.ts';

let house: House;
beforeAll(async () => {
  house = await openHouse();
});
afterAll(() => house.close());

const TABLE = [
  'day;person;time;task;weather',
  '2027-03-08;Ines;1,5;fill;fair',
  '2027-03-08;nobody;2;;',
  '08.03.2027;tor;0:45;;',
  '2027-03-08;tor;soon;;',
].join('\n');

describe('a table that is pasted', () => {
  it('should be shown row by row, wrong rows first and in words, and stored only when asked', async () => {
    const { page, complaints } = await house.device();
    await page.goto('/builds/wagtail/exchange?table=hours');
    const before = (await fileOf(house)).hours.length;
    await page.getByLabel('Or paste cells copied').fill(TABLE);
    const status = page.getByRole('main').getByRole('status');
    await status.getByText('4 rows').waitFor();
    expect(await status.textContent()).toMatch(/2 new ones.*2 not right.*left aside: “weather”/s);
    const rows = page.getByRole('region', { name: 'Rows of the table' }).getByRole('row');
    expect(await rows.nth(1).textContent()).toMatch(/3\s*not right\s*Person is "nobody": there is no person/);
    expect(await rows.nth(2).textContent()).toMatch(
      /5\s*not right\s*Time is "soon": it must be hours and minutes/,
    );
    const take = page.getByRole('button', { name: 'Take in 2 rows' });
    expect(await take.isDisabled()).toBe(true);
    expect((await fileOf(house)).hours).toHaveLength(before);

    await page.getByLabel('Leave out 2 rows that are not right').check();
    await take.click();
    await page.getByText('Take in 2 entries of hours from a table.').waitFor();
    const after = (await fileOf(house)).hours;
    expect(after).toHaveLength(before + 2);
    expect(after.slice(-2).map(({ person, minutes, on }) => [person, minutes, on])).toEqual([
      ['ines', 90, '2027-03-08'],
      ['tor', 45, '2027-03-08'],
    ]);

    await page.getByRole('button', { name: 'Undo' }).first().click();
    await expect.poll(async () => (await fileOf(house)).hours.length).toBe(before);
    expect((await labelsOf(house))[0]).toBe('undo: Take in 2 entries of hours from a table');
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('should be taken as a file, and refused in words when it is too large or no text', async () => {
    const { page } = await house.device();
    await page.goto('/builds/wagtail/exchange?table=links');
    const choose = page.locator('input[type=file]');
    await choose.setInputFiles({
      name: 'links.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from('\uFEFFfirst,then,reason\nfill,film,"=1+1, said"\n'),
    });
    await page.getByText('links.csv is shown below').waitFor();
    await page.getByRole('region', { name: 'Rows of the table' }).getByText('=1+1, said').waitFor();
    await choose.setInputFiles({
      name: 'latin.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from('name\nTür', 'latin1'),
    });
    await page.getByRole('alert').getByText('The file is not written in UTF-8').waitFor();
    const large = join(tmpdir(), 'coverlast-large.csv');
    writeFileSync(large, 'x'.repeat(MOST_BYTES + 1));
    await choose.setInputFiles(large);
    await page.getByRole('alert').getByText('at most 8 MB are taken at once').waitFor();
    await page.context().close();
  });
});

describe('a calendar address', () => {
  it('should be made, read, and be dead once revoked', async () => {
    const { page, complaints } = await house.device();
    await page.goto('/builds/wagtail/exchange');
    await page.getByLabel('For which device or person').fill('the phone in the van');
    await page.getByRole('button', { name: 'Make an address' }).click();
    const address = (await page.locator('code').textContent())!;
    expect(address).toMatch(/^http:\/\/localhost:\d+\/feeds\/[\w-]{43}\.ics$/);
    const calendar = await fetch(address);
    expect([calendar.status, (await calendar.text()).slice(0, 15)]).toEqual([200, 'BEGIN:VCALENDAR']);
    await page.reload();
    await page.getByText('the phone in the van').first().waitFor();
    await page.getByRole('button', { name: 'Revoke the address for the phone in the van' }).click();
    await page.locator('code').waitFor({ state: 'detached' });
    expect((await fetch(address)).status).toBe(404);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe('a sheet on paper', () => {
  it.each([
    ['week', ['The week from Tue 9 Mar', 'Nothing', 'Time', 'Who', 'Mind'], ['Print', 'Undo', 'Find']],
    ['shopping', ['Shopping list', 'Order by', 'Quantity'], ['Print', 'Undo']],
    ['money', ['Money', 'By phase', 'Forecast', 'Kept back', 'Furniture'], ['Print', 'Undo']],
  ])('should say in its text what it shows, without the tools: %s', async (name, words, tools) => {
    const { page } = await house.device();
    await page.goto(`/builds/wagtail/print/${name}`);
    await page.getByRole('heading', { level: 1 }).waitFor();
    const pdf = await page.pdf({ format: 'A4' });
    const { text, totalPages } = await extractText(await getDocumentProxy(new Uint8Array(pdf)), {
      mergePages: true,
    });
    const plain = text.replaceAll(/\s+/g, ' ');
    for (const word of words) expect(plain.toLowerCase()).toContain(word.toLowerCase());
    for (const tool of tools) expect(plain).not.toMatch(new RegExp(`\\b${tool}\\b`));
    expect(totalPages).toBeLessThan(name === 'shopping' ? 8 : 5);
    if (name === 'week') {
      const start = (await page.locator('.time').first().textContent())!;
      expect(plain).toContain(start);
    }
    await page.context().close();
  });
});

describe('a photo', () => {
  it('should be sent from a phone, kept with its record, and be there after a reload', async () => {
    const { page, complaints } = await house.device(PHONE);
    await page.goto('/builds/wagtail/records?zone=L2');
    await page
      .locator('input[capture]')
      .setInputFiles({ name: 'rib.png', mimeType: 'image/png', buffer: PNG });
    await page.getByText('rib.png, 1 kB: stored').waitFor();
    await page.getByLabel('Depth').first().selectOption({ index: 1 });
    await page.getByRole('button', { name: 'Write it down' }).click();
    await expect
      .poll(async () => (await fileOf(house)).records.at(-1)?.file)
      .toMatch(/^sha256:[0-9a-f]{64}$/);
    await page.reload();
    const image = page.getByRole('img', { name: /photo/i }).first();
    await image.waitFor();
    await expect.poll(() => image.evaluate((one) => (one as HTMLImageElement).naturalWidth)).toBe(1);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('should be refused in words when it is no photo', async () => {
    const { page } = await house.device();
    await page.goto('/builds/wagtail/records?zone=L2');
    await page
      .getByLabel('Choose a photo')
      .first()
      .setInputFiles({ name: 'page.png', mimeType: 'image/png', buffer: Buffer.from('<html>') });
    await page.getByText('send a JPEG, PNG, WebP or PDF').waitFor();
    await page.context().close();
  });
});
