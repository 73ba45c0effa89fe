/**
 * "What would bring it forward most?" Single changes of the build ranked by the days they win on the four-in-five date.
 * Each is planned and tried with the same random numbers as the build as it is (common random numbers: A. M. Law,
 * Simulation Modeling and Analysis), so that a difference comes from the change and not from luck.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Elsewhere } from '../contract/elsewhere.ts';
import type { Odds } from '../contract/plan-odds.ts';
import { oddsOf } from '../odds/odds.ts';
import { computePlan } from '../plan.ts';
import { withElsewhere } from '../time/elsewhere.ts';
import { candidates } from './candidates.ts';
import type { Change } from './change.ts';
import { daysBetween } from './first-levers.ts';

/** The planned finish and the four-in-five one, instants; null where there is none. */
export interface Finish {
  readonly plan: string | null;
  readonly p80: string | null;
}

/** What it costs until the finish it leads to. Below zero: it saves that much. */
export interface Costs {
  /** Person-minutes. */
  readonly minutes: number;
  /** Minor units, on the forecast. */
  readonly money: number;
}

/** A change without the build it leads to, so that it can be sent. */
export type Lever = Omit<Change, 'file'> & {
  readonly finish: Finish;
  /** Whole days the planned and the four-in-five finish come earlier; of an order: what a week of waiting would lose. */
  readonly daysWon: { readonly plan: number | null; readonly p80: number | null };
  readonly costs: Costs;
};

export interface Levers {
  readonly before: Finish;
  readonly trials: number;
  readonly seed: number;
  /** The most won first. */
  readonly rows: readonly Lever[];
  /** Changes tried, and how many there were to try; fewer once it was stopped. */
  readonly done: number;
  readonly of: number;
}

export interface LeversOptions {
  /** The caller's now. */
  readonly now: string;
  /** Where its people are planned at builds that come first; left out: nowhere. */
  readonly elsewhere?: Elsewhere;
  /** Trials for each change. */
  readonly trials: number;
  readonly seed: number;
  /** Asked now and then; what has been found so far stands. */
  readonly stop?: () => boolean;
  readonly onProgress?: (done: number, of: number) => void;
  readonly onRow?: (row: Lever, before: Finish) => void;
}

/** What a screen asks for. */
export const USUAL_LEVER_TRIALS = 250;
const WEEK_DAYS = 7;

/** @param file a build that `readBuild` has vouched for. Costs a plan and its trials for each change */
export function leversOf(file: BuildFile, options: LeversOptions): Levers {
  const { now, trials, seed, elsewhere = {}, stop, onProgress, onRow } = options;
  const odds = tried(file, options);
  const before = finishOf(odds);
  const rows: Lever[] = [];
  if (odds.trials < trials || before.plan === null) return { before, trials, seed, rows, done: 0, of: 0 };
  const plan = computePlan(withElsewhere(file, elsewhere), { now });
  const changes = candidates(file, { plan, odds });
  onProgress?.(0, changes.length);
  let done = 0;
  for (const change of changes) {
    const compared = change.kind === 'order' ? aWeekLater(file, change) : change.file;
    const other = tried(compared, options);
    // Fewer trials are not the same luck.
    if (other.trials < trials || stop?.() === true) break;
    const row = rowOf(change, odds, other, plan.asOf);
    rows.push(row);
    done++;
    onRow?.(row, before);
    onProgress?.(done, changes.length);
  }
  return { before, trials, seed, rows: rows.toSorted(byDaysWon), done, of: changes.length };
}

/** The most days on the four-in-five finish first, then on the plan, then by key. */
export function byDaysWon(a: Lever, b: Lever): number {
  const won = ({ daysWon }: Lever, which: keyof Finish) => daysWon[which] ?? -Infinity;
  return (
    compare(won(b, 'p80'), won(a, 'p80')) ||
    compare(won(b, 'plan'), won(a, 'plan')) ||
    (a.key < b.key ? -1 : 1)
  );
}

function compare(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The one seam to the odds. */
function tried(file: BuildFile, { now, trials, seed, elsewhere = {}, stop }: LeversOptions): Odds {
  return oddsOf(withElsewhere(file, elsewhere), {
    now,
    trials,
    seed,
    ...(stop === undefined ? {} : { stop: () => stop() }),
  });
}

function finishOf({ plan, finish }: Odds): Finish {
  return { plan: plan.finish, p80: finish.p80 };
}

function rowOf({ key, kind, label, edits, asks }: Change, odds: Odds, other: Odds, asOf: string): Lever {
  const [before, after] = [finishOf(odds), finishOf(other)];
  const isOrder = kind === 'order';
  // Ordered today is what the plan goes by anyway; what it wins is what waiting would lose.
  const [from, to] = isOrder ? [before, after] : [after, before];
  const weeks = Math.max(0, daysBetween(asOf, after.plan ?? before.plan) ?? 0) / WEEK_DAYS;
  return {
    key,
    kind,
    label,
    edits,
    asks,
    finish: isOrder ? before : after,
    daysWon: { plan: daysBetween(from.plan, to.plan), p80: daysBetween(from.p80, to.p80) },
    costs: {
      minutes: Math.round(asks.weekly * weeks) + asks.once,
      money: isOrder ? 0 : other.plan.cost - odds.plan.cost,
    },
  };
}

/** The build if the purchase were ordered a week from now. */
function aWeekLater(file: BuildFile, { key }: Change): BuildFile {
  const ordered = key.slice(key.indexOf('~') + 1);
  return {
    ...file,
    purchases: file.purchases.map((one) =>
      one.key === ordered
        ? {
            ...one,
            leadDays: one.leadDays + WEEK_DAYS,
            leadDaysBad: one.leadDaysBad === null ? null : one.leadDaysBad + WEEK_DAYS,
          }
        : one,
    ),
  };
}
