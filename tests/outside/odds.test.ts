/**
 * The odds against what is known of them from elsewhere: published three-point networks, the moments of beta-PERT, and
 * numerical convolution. Networks run in continuous time, one day of a book = 1,440 minutes. Seeds are fixed, so a test
 * that holds once always holds; bounds are four standard errors of the sample, not a guess.
 */
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Odds } from '#shared/contract/plan-odds.ts';
import { oddsOf, type OddsOptions } from '#shared/odds/odds.ts';
import { ALL_WEEK, link, makeBuild, NOW } from '../support/builds.ts';
import {
  chanceUpTo,
  inTurn,
  laterOf,
  meanOf,
  normalUpTo,
  pertCells,
  quantileOf,
  varianceOf,
  type Cells,
} from '../support/densities.ts';
import data from './data/worked-examples.json' with { type: 'json' };

const DAY = 1440;
/** Standard errors. */
const SURE = 4;

type Amb = readonly [low: number, likely: number, high: number];

describe('one estimate', () => {
  for (const points of [
    [4, 5, 12],
    [2, 3, 4],
    [1, 1, 6],
    [2, 9, 9],
    [0, 0.1, 8],
  ] as const)
    it(`should have the mean and variance of beta-PERT for ${points.join(', ')} days`, () => {
      const { minutesFromStart } = tried({ a: { amb: points } }, { trials: 20_000 });
      const { mean, variance } = pertMoments(points);
      expect(off(minutesFromStart.mean!, mean * DAY + 0.5)).toBeLessThan(SURE * minutesFromStart.meanError!);
      expect(off(minutesFromStart.sd!, Math.sqrt(variance) * DAY)).toBeLessThan(
        SURE * minutesFromStart.sdError!,
      );
    });

  it('should be spread as its density says, at every tenth', () => {
    const odds = tried({ a: { amb: [1, 2, 7] } }, { trials: 20_000 });
    const cells = pertCells(1, 2, 7, 0.005);
    for (let tenth = 1; tenth < 10; tenth++) {
      const at = quantileOf(cells, tenth / 10);
      const below = chanceUpTo(cells, odds.finishCurve[10 * tenth]! / DAY);
      expect(off(below, tenth / 10), `at ${at}`).toBeLessThan(SURE * Math.sqrt(0.25 / 20_000) + 0.002);
    }
  });
});

describe('tasks one after the other', () => {
  const six = data.pert.find(({ id }) => id === 'asw-6')!;

  it(`should add up their means and variances (${six.source}, path B-D-F)`, () => {
    const activities = six.activities as unknown as Record<string, { amb: Amb }>;
    const chain = ['B', 'D', 'F'].map((key) => activities[key]!.amb);
    const { minutesFromStart } = tried(serial(chain), { trials: 20_000 });
    const path = six.paths as Record<string, { mean: number; var: number }>;
    // The mean is published. The book's variance is ((h − l) / 6)²; that of the distribution itself is larger.
    expect(off(minutesFromStart.mean! / DAY, path['BDF']!.mean)).toBeLessThan(
      SURE * (minutesFromStart.meanError! / DAY) + 0.005,
    );
    const book = chain.reduce((sum, [low, , high]) => sum + ((high - low) / 6) ** 2, 0);
    expect(off(book, path['BDF']!.var)).toBeLessThan(0.005);
    const ours = chain.reduce((sum, points) => sum + pertMoments(points).variance, 0);
    expect(ours).toBeGreaterThan(book);
    expect(off(minutesFromStart.sd! / DAY, Math.sqrt(ours))).toBeLessThan(
      SURE * (minutesFromStart.sdError! / DAY),
    );
  });

  it('should follow the convolution of their densities', () => {
    const chain: Amb[] = [
      [4, 5, 12],
      [1, 1, 6],
      [3, 8, 9],
    ];
    const odds = tried(serial(chain), { trials: 20_000 });
    const sum = chain.map((points) => pertCells(...points, 0.02)).reduce(inTurn);
    for (let tenth = 1; tenth < 10; tenth++)
      expect(off(chanceUpTo(sum, odds.finishCurve[10 * tenth]! / DAY), tenth / 10)).toBeLessThan(
        SURE * Math.sqrt(0.25 / 20_000) + 0.003,
      );
  });
});

describe('paths side by side', () => {
  it('should end as the later of two, by convolution', () => {
    const left: Amb = [2, 4, 10];
    const right: Amb = [3, 5, 7];
    const odds = tried({ l: { amb: left }, r: { amb: right } }, { trials: 20_000 });
    const later = laterOf(pertCells(...left, 0.01), pertCells(...right, 0.01));
    const { minutesFromStart } = odds;
    expect(off(minutesFromStart.mean! / DAY, meanOf(later))).toBeLessThan(
      SURE * (minutesFromStart.meanError! / DAY) + 0.005,
    );
    expect(off(minutesFromStart.sd! / DAY, Math.sqrt(varianceOf(later)))).toBeLessThan(
      SURE * (minutesFromStart.sdError! / DAY) + 0.005,
    );
    // One drives the end unless it could begin a sitting later, which in continuous time is a day.
    const cells = [pertCells(...right, 0.01), pertCells(...left, 0.01)] as const;
    expect(off(odds.chain['r']!, chanceOfLater(cells[0], cells[1], 1))).toBeLessThan(
      SURE * Math.sqrt(0.25 / 20_000) + 0.005,
    );
    expect(off(odds.chain['l']!, chanceOfLater(cells[1], cells[0], 1))).toBeLessThan(
      SURE * Math.sqrt(0.25 / 20_000) + 0.005,
    );
  });

  const advertising = data.pert.find(({ id }) => id === 'stevenson-advertising')!;
  const activities = advertising.activities as unknown as Record<string, Activity>;
  const paths = advertising.paths as Record<string, { mean: number; sd: number }>;
  const deadline = advertising.deadline!;

  it(`should meet a date less often together than the longest path alone (${advertising.source})`, () => {
    // The book's normal approximation: 0.9686 for the longest path alone, 0.9677 for all three together.
    const alone = normalUpTo((deadline - paths['DFG']!.mean) / paths['DFG']!.sd);
    const all = Object.values(paths).reduce((p, { mean, sd }) => p * normalUpTo((deadline - mean) / sd), 1);
    expect(alone).toBeCloseTo(0.9686, 3);
    expect(all).toBeCloseTo(0.9677, 3);

    const trials = 40_000;
    const meets = (kept: string) => tried(only(activities, kept), { trials, target: deadline }).meetsTarget!;
    const [single, joint] = [meets('DFG'), meets('ABCDEFGHI')];
    const cells = (keys: string) =>
      [...keys].map((key) => pertCells(...activities[key]!.amb, 0.02)).reduce(inTurn);
    const exactSingle = chanceUpTo(cells('DFG'), deadline);
    const exactJoint = ['DFG', 'ACE', 'BHI'].reduce((p, keys) => p * chanceUpTo(cells(keys), deadline), 1);
    const error = Math.sqrt((exactJoint * (1 - exactJoint)) / trials);
    expect(off(single, exactSingle)).toBeLessThan(SURE * error + 0.001);
    expect(off(joint, exactJoint)).toBeLessThan(SURE * error + 0.001);
    // Same seed, same draws of the tasks both have: the merge can only cost.
    expect(joint).toBeLessThan(single);
    // It costs about what it costs in the book; the level is lower, because the variance is the distribution's own.
    expect(off(single - joint, alone - all)).toBeLessThan(
      SURE * Math.sqrt((single - joint) / trials) + 0.001,
    );
    expect(single).toBeLessThan(alone);
  });

  it('should have the published means, path by path', () => {
    for (const [keys, { mean }] of Object.entries(paths)) {
      const { minutesFromStart } = tried(only(activities, keys), { trials: 10_000 });
      expect(off(minutesFromStart.mean! / DAY, mean), keys).toBeLessThan(
        SURE * (minutesFromStart.meanError! / DAY) + 0.005,
      );
    }
  });
});

describe('a published network with its published means', () => {
  for (const example of data.cpm) {
    if (!('activities' in example)) continue;
    const activities = example.activities as unknown as Record<string, Partial<Activity>>;
    if (!Object.values(activities).every(({ amb }) => amb !== undefined)) continue;
    it(`should end later on average than its critical path alone: ${example.id} (${example.source})`, () => {
      const all = activities as Record<string, Activity>;
      const network = tried(all, { trials: 10_000 });
      const path = tried(only(all, example.critical!.join('')), { trials: 10_000 });
      expect(off(path.minutesFromStart.mean! / DAY, example.T)).toBeLessThan(
        SURE * (path.minutesFromStart.meanError! / DAY) + 0.02,
      );
      expect(network.minutesFromStart.mean!).toBeGreaterThan(path.minutesFromStart.mean!);
    });
  }
});

describe('triangular estimates, where they are chosen', () => {
  const house = data.pert.find(({ id }) => id === 'gao-house-table2')!;

  it(`should have the means of the handbook's table (${house.source})`, () => {
    const activities = house.activities as unknown as Record<string, { amb: Amb }>;
    for (const [key, { amb }] of Object.entries(activities)) {
      const { minutesFromStart } = tried({ [key]: { amb } }, { trials: 10_000, distribution: 'triangular' });
      const [low, likely, high] = amb;
      const variance = (low ** 2 + likely ** 2 + high ** 2 - low * likely - low * high - likely * high) / 18;
      expect(off(minutesFromStart.mean!, ((low + likely + high) / 3) * DAY + 0.5), key).toBeLessThan(
        SURE * minutesFromStart.meanError!,
      );
      expect(off(minutesFromStart.sd!, Math.sqrt(variance) * DAY), key).toBeLessThan(
        SURE * minutesFromStart.sdError!,
      );
    }
  });
});

describe('the pace all tasks have in common', () => {
  it('should be log-normal around 1: its median leaves the finish, its mean and spread move it', () => {
    const sigma = 0.3;
    const file = network({ a: { amb: [10, 10, 10] } });
    const odds = oddsOf(file, { now: NOW, trials: 20_000, seed: 3, paceSigma: sigma });
    const { p50, mean, sd, meanError, sdError } = odds.minutesFromStart;
    expect(off(p50! / (10 * DAY), 1)).toBeLessThan(SURE * 1.2533 * sigma * Math.sqrt(1 / 20_000));
    const factor = Math.exp(sigma ** 2 / 2);
    expect(off(mean!, 10 * DAY * factor)).toBeLessThan(SURE * meanError!);
    expect(off(sd!, 10 * DAY * factor * Math.sqrt(Math.exp(sigma ** 2) - 1))).toBeLessThan(SURE * sdError!);
  });

  it('should make tasks slip together, so that a chain of them varies as much as one of the same length', () => {
    const one = oddsOf(network({ a: { amb: [12, 12, 12] } }), { now: NOW, trials: 500, seed: 5 });
    const twelve = serial(Array.from({ length: 12 }, (): Amb => [1, 1, 1]));
    const chain = oddsOf(network(twelve), { now: NOW, trials: 500, seed: 5 });
    expect(one.paceSigma).toBe(0.3);
    expect(off(chain.minutesFromStart.sd! / one.minutesFromStart.sd!, 1)).toBeLessThan(0.001);
  });
});

// Helpers

interface Activity {
  readonly amb: Amb;
  readonly pred?: readonly string[];
}
type Activities = Readonly<Record<string, Activity>>;

/** Everybody who is needed is there all the time: one person a task. */
function network(activities: Activities, target: number | null = null): BuildFile {
  const entries = Object.entries(activities);
  return makeBuild({
    build: { targetFinishOn: target === null ? null : dayAfterStart(target - 1) },
    people: entries.map(([key]) => ({ key, name: key, week: ALL_WEEK })),
    tasks: entries.map(([key, { amb }]) => {
      const [low, likely, high] = amb.map((days) => Math.round(days * DAY)) as [number, number, number];
      return { key, name: key, who: [key], minutes: { low, likely, high } };
    }),
    links: entries.flatMap(([key, { pred = [] }]) =>
      pred.filter((from) => from in activities).map((from) => link(from, key)),
    ),
  });
}

function tried(
  activities: Activities,
  { target = null, ...options }: Partial<OddsOptions> & { trials: number; target?: number | null },
): Odds {
  return oddsOf(network(activities, target), { now: NOW, seed: 11, paceSigma: 0, ...options });
}

function serial(chain: readonly Amb[]): Activities {
  return Object.fromEntries(chain.map((amb, i) => [`t${i}`, { amb, pred: i === 0 ? [] : [`t${i - 1}`] }]));
}

function only(activities: Activities, keys: string): Activities {
  return Object.fromEntries(Object.entries(activities).filter(([key]) => keys.includes(key)));
}

/** The last day of a span of that many days from the build's first. */
function dayAfterStart(days: number): string {
  return new Date(Date.parse(`${NOW.slice(0, 10)}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
}

function pertMoments([low, likely, high]: Amb): { mean: number; variance: number } {
  const mean = (low + 4 * likely + high) / 6;
  return { mean, variance: ((mean - low) * (high - mean)) / 7 };
}

/** The chance that one ends later than the other, or less than so much before it. */
function chanceOfLater(one: Cells, other: Cells, by: number): number {
  return one.mass.reduce((sum, p, i) => sum + p * chanceUpTo(other, (one.first + i) * one.step + by), 0);
}

function off(one: number, other: number): number {
  return Math.abs(one - other);
}
