/** `npm run pictures`: the pictures of the README, taken of the demo at its own moment. */
import { join } from 'node:path';
import { DESK, openHouse, PAGES } from './house.ts';

const FOLDER = join(PAGES, '../pictures');
const SHOTS = [
  ['shell', 'shell/L2', false],
  ['schedule', 'schedule', false],
  ['sequence', 'sequence', true],
] as const;

const house = await openHouse();
for (const [name, view, dark] of SHOTS) {
  const { page, context } = await house.device(DESK, { dark });
  await page.goto(`/builds/wagtail/${view}`);
  await page.getByRole('heading', { level: 1 }).waitFor();
  await page.waitForFunction(() => document.fonts.status === 'loaded');
  await page.waitForTimeout(500);
  await page.screenshot({ path: join(FOLDER, `${name}.png`) });
  await context.close();
}
await house.close();
