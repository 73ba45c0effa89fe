/**
 * The plan against the clock: ratios within one run, medians, the aim beside each figure. Milliseconds are those of the
 * machine it runs on; the ratios are what can be compared.
 */
import { checksum } from './measure.ts';
import { benchOthers } from './others.ts';
import { benchPasses } from './passes.ts';
import { benchCovers, benchDates, benchDemo } from './plans.ts';

export async function run(): Promise<void> {
  benchPasses();
  await benchOthers();
  benchCovers();
  benchDates();
  await benchDemo();
  process.stdout.write(`\nEverything was used: ${checksum()}\n`);
}
