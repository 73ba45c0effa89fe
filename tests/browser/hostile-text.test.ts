/** Text of a build is text: script in every field a person may write is shown as letters, on every view. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LINK_WHYS } from '#shared/contract/task.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { openHouse, type House } from './support/house.ts';
import { BUILD, VIEWS } from './support/views.ts';

const SCRIPT = '<img src=x onerror="window.hit=1"><script>window.hit=1</script>{{7*7}}';
/** The fields of a build that hold free text. */
const FREE = new Set([
  'name',
  'vehicle',
  'why',
  'note',
  'reason',
  'question',
  'supplier',
  'expect',
  'reading',
  'fixedWhy',
  'text',
  'what',
  'serial',
  'unit',
  'options',
  'chosen',
]);
/** `why` is free on an exception of a calendar, and one of these on a link. */
const WORDS = new Set<string>(LINK_WHYS);

let house: House;
beforeAll(async () => {
  house = await openHouse(hostile(wagtail(), ''));
});
afterAll(() => house.close());

describe('a build whose every text is a script', () => {
  it('should hold the script in names, reasons and notes (the test means what it says)', () => {
    const text = JSON.stringify(hostile(wagtail(), ''));
    expect(text.split('window.hit=1').length).toBeGreaterThan(500);
  });

  it.each(VIEWS)('should show %s and run nothing', async (view) => {
    const { page, context, complaints } = await house.device();
    await page.goto(`/builds/${BUILD}/${view}`);
    await page.getByRole('heading', { level: 1 }).first().waitFor();
    await page.waitForTimeout(200);
    const hit = await page.evaluate(() => [
      (globalThis as { hit?: number }).hit ?? null,
      document.querySelectorAll('img[src="x"]').length,
    ]);
    await context.close();
    expect(hit).toEqual([null, 0]);
    expect(complaints).toEqual([]);
  });
});

/** Words of a closed list stay what they are. */
function hostile(value: unknown, field: string): unknown {
  if (Array.isArray(value)) return value.map((item) => hostile(item, field));
  if (typeof value === 'string') {
    if (!FREE.has(field) || WORDS.has(value)) return value;
    return field === 'unit' ? '<script>' : `${SCRIPT} ${value}`.slice(0, 200);
  }
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, item]) => [
      name,
      name === 'name' && item === 'Wagtail' ? item : hostile(item, name),
    ]),
  );
}
