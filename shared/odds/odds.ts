/**
 * The odds of a build: its plan tried many times over, each time with other minutes, pace, lead times and prices, the
 * order of the work, its teams and its turns kept. A trial is one pass over the network; nothing is levelled anew.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Odds, OddsDistribution } from '../contract/plan-odds.ts';
import { asOfOf } from '../plan.ts';
import { draftOf } from '../schedule/draft.ts';
import { dayStart, DAY, instantText } from '../time/clock.ts';
import { costDrawsOf } from './cost-draws.ts';
import { curve, figuresOf, shareUpTo, type Figures } from './figures.ts';
import { Trials } from './trials.ts';
import { paceSigmaOf } from './uncertain.ts';

export interface OddsOptions {
  /** The caller's now, `2027-03-13T18:30`: the as-of instant of a build that names none. */
  readonly now: string;
  readonly trials: number;
  /** A whole number; the same build, seed and trials give the same figures everywhere. */
  readonly seed: number;
  /** Standard deviation of the logarithm of the common pace; left out: from the finished hours. 0: none. */
  readonly paceSigma?: number;
  readonly distribution?: OddsDistribution;
  /** Asked now and then with the trials made so far; true ends it, and the odds are those of the trials made. */
  readonly stop?: (done: number) => boolean;
  readonly onProgress?: (done: number) => void;
}

/** What a screen shows at once, and on request. */
export const USUAL_TRIALS = 2000;
export const MANY_TRIALS = 10_000;
/** More than this only costs time: at a hundred thousand the share that meets a target is known to 0.2 %. */
export const MOST_TRIALS = 100_000;
export const MOST_SIGMA = 2;

/** Trials between two questions whether to stop. */
const BATCH = 20;

/** @param file a build that `readBuild` has vouched for. O(trials · (tasks + links)) */
export function oddsOf(
  file: BuildFile,
  { now, trials, seed, paceSigma, distribution = 'pert', stop, onProgress }: OddsOptions,
): Odds {
  const draft = draftOf(file, asOfOf(file, now));
  const { basis, levelled } = draft;
  const sigma = paceSigma ?? paceSigmaOf(basis.paces.known);
  const asOf = instantText(basis.clock, basis.asOf);
  const money = costDrawsOf(file, asOf.slice(0, 10), seed, distribution);
  const made = levelled.end === null ? null : new Trials(draft, seed, distribution, sigma);
  const finishes = new Float64Array(trials);
  const costs = new Float64Array(trials);
  let done = 0;
  for (;;) {
    if (done >= trials || stop?.(done) === true) break;
    for (const end = Math.min(trials, done + BATCH); done < end; done++) {
      finishes[done] = made === null ? Infinity : made.next();
      let cost = money.certain;
      for (const draw of money.draws) cost += draw();
      costs[done] = Math.round(cost);
    }
    onProgress?.(done);
  }

  const ends = made === null ? new Float64Array(0) : finishes.subarray(0, done).sort();
  const prices = costs.subarray(0, done).sort();
  const figures = figuresOf(ends);
  const { targetFinishOn: target } = file.build;
  return {
    trials: done,
    seed,
    distribution,
    paceSigma: sigma,
    plan: {
      finish: levelled.end === null ? null : instantText(basis.clock, levelled.end),
      minutesFromStart: levelled.end,
      cost: money.forecast,
    },
    finish: written(figures, (minutes) => instantText(basis.clock, Math.round(minutes))),
    minutesFromStart: figures,
    cost: figuresOf(prices),
    target,
    meetsTarget: target === null ? null : shareUpTo(ends, dayStart(basis.clock, target) + DAY),
    meetsPlan: levelled.end === null ? null : shareUpTo(ends, levelled.end),
    ...(made?.told() ?? { chain: {}, drivers: [], sources: [] }),
    finishCurve: curve(ends),
    costCurve: curve(prices).map((cost) => cost!),
    beyond: ends.filter((end) => end === Infinity).length,
    unpricedLines: money.unpricedLines,
  };
}

function written(figures: Figures, text: (minutes: number) => string): Odds['finish'] {
  const { p10, p50, p80, p90, mean, ...rest } = figures;
  const orNull = (minutes: number | null) => (minutes === null ? null : text(minutes));
  return {
    p10: orNull(p10),
    p50: orNull(p50),
    p80: orNull(p80),
    p90: orNull(p90),
    mean: orNull(mean),
    ...rest,
  };
}
