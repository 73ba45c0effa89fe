/**
 * The odds against the clock: ten thousand trials of the demo, and how one trial grows with the number of tasks. Seconds
 * are those of this process on one core, so that a busy neighbour does not count; the exponent is a ratio within one run.
 */
import { wagtail } from '#shared/demo/wagtail.ts';
import { oddsOf } from '#shared/odds/odds.ts';
import { Trials } from '#shared/odds/trials.ts';
import { draftOf } from '#shared/schedule/draft.ts';
import { NOW } from '../support/builds.ts';
import { median } from './measure.ts';
import { seeded } from './networks.ts';
import { atMost, digits, printTable } from './table.ts';
import { manyZones } from './zones.ts';

const TRIALS = 10_000;
const AIM_SECONDS = 4;
const STRETCH_SECONDS = 2;
const AIM_EXPONENT = 1.4;
const SIZES = [500, 1000, 2000, 4000, 8000] as const;
/** Trials of one sample, and samples of each size. */
const SAMPLE = 40;
const SAMPLES = 7;

let used = 0;

export function run(): void {
  benchDemo();
  benchGrowth();
  process.stdout.write(`\nEverything was used: ${Math.round(used) % 1_000_003}\n`);
}

function benchDemo(): void {
  const file = wagtail();
  const live = file.tasks.filter(({ state }) => state !== 'finished').length;
  const seconds = [1, 2, 3].map((seed) => {
    const from = cpuSeconds();
    const { minutesFromStart } = oddsOf(file, { now: NOW, trials: TRIALS, seed });
    used += minutesFromStart.mean!;
    return cpuSeconds() - from;
  });
  const one = median(seconds);
  printTable(
    `The demo, ${live} unfinished tasks, ${TRIALS.toLocaleString('en-GB')} trials with the plan and the cost (median of three seeds)`,
    ['', 'seconds', 'aim', 'stretch'],
    [
      ['odds', digits(one), atMost(AIM_SECONDS, one, ' s'), atMost(STRETCH_SECONDS, one, ' s')],
      ['one trial, µs', digits((one / TRIALS) * 1e6)],
    ],
  );
}

/** The same kind of build, its evenings filled to the brim; the plan it starts from is not counted. */
function benchGrowth(): void {
  const taken = SIZES.map((size) => {
    const trials = new Trials(draftOf(manyZones(size, 15, seeded(15)), NOW), 1, 'pert', 0.1);
    const samples: number[] = [];
    for (let sample = -1; sample < SAMPLES; sample++) {
      const from = cpuSeconds();
      for (let i = 0; i < SAMPLE; i++) used += trials.next() === Infinity ? 1 : 2;
      // The first warms up.
      if (sample >= 0) samples.push((cpuSeconds() - from) / SAMPLE);
    }
    return median(samples);
  });
  const [first, last] = [taken[0]!, taken.at(-1)!];
  const exponent = Math.log(last / first) / Math.log(SIZES.at(-1)! / SIZES[0]);
  printTable(
    'One trial by the number of tasks',
    ['tasks', 'ms', 'µs a task', 'exponent', 'aim'],
    [
      ...SIZES.map((size, i) => [
        size.toLocaleString('en-GB'),
        digits(taken[i]! * 1000),
        digits((taken[i]! / size) * 1e6),
      ]),
      ['from first to last', '', '', digits(exponent), atMost(AIM_EXPONENT, exponent, '')],
    ],
  );
}

function cpuSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}
