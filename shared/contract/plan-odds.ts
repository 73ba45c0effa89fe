/**
 * The odds of a build: where its finish and its cost end up over many trials of the same plan. Minutes count from 00:00
 * of the build's first day, money is in minor units of the build's currency, shares run from 0 to 1. Null means "not
 * known": a plan without a finish has no odds of one, and a quantile that lies beyond the calendar has no date.
 */
import { Type, type Static, type TSchema } from 'typebox';
import { Day, Instant, Key, Strict } from './common.ts';

const Whole = Type.Integer();
const Share = Type.Number({ minimum: 0, maximum: 1 });
const OrNull = <T extends TSchema>(type: T) => Type.Union([type, Type.Null()]);

export const ODDS_DISTRIBUTIONS = ['pert', 'triangular'] as const;

const spreadOf = <T extends TSchema, M extends TSchema>(Value: T, Mean: M) => ({
  /** One in ten ends by then, even chance, four in five, nine in ten. */
  p10: OrNull(Value),
  p50: OrNull(Value),
  p80: OrNull(Value),
  p90: OrNull(Value),
  mean: OrNull(Mean),
  sd: OrNull(Type.Number()),
  /** Standard errors of the mean and of the standard deviation: what another seed would change. */
  meanError: OrNull(Type.Number()),
  sdError: OrNull(Type.Number()),
});

/** Instants as written; the last three in minutes. */
export const OddsFinish = Type.Object(spreadOf(Instant, Instant), Strict);
/** Minutes from the build's start, or minor units. */
export const OddsFigures = Type.Object(spreadOf(Whole, Type.Number()), Strict);

export const ODDS_HOLDS = ['link', 'people', 'room', 'part', 'date'] as const;
export const ODDS_HELPS = ['estimate', 'part', 'people', 'room', 'season', 'hours'] as const;

/** A task that is often on the driving chain, and what would help there. */
export const OddsDriver = Type.Object(
  {
    task: Key,
    /** Share of the trials in which it was on the driving chain. */
    share: Share,
    /** How much of the finish's variance goes with this task's own minutes (r²). */
    varies: Share,
    /** What its start waited for while it drove the finish: shares that sum to 1. */
    waitsFor: Type.Object(
      { link: Share, people: Share, room: Share, part: Share, date: Share } satisfies Record<
        (typeof ODDS_HOLDS)[number],
        TSchema
      >,
      Strict,
    ),
    help: Type.Enum([...ODDS_HELPS]),
    /** The purchase to order earlier, where that would help. */
    purchase: OrNull(Key),
    /** One plain sentence. */
    words: Type.String(),
  },
  Strict,
);

/** Something uncertain, with the share of the finish's variance that goes with it (r²). */
export const OddsSource = Type.Object(
  {
    kind: Type.Enum(['pace', 'task', 'purchase']),
    /** Null for the pace, which all tasks have in common. */
    key: OrNull(Key),
    share: Share,
  },
  Strict,
);

export const Odds = Type.Object(
  {
    /** The trials made: fewer than asked for when they were stopped. */
    trials: Whole,
    seed: Whole,
    distribution: Type.Enum([...ODDS_DISTRIBUTIONS]),
    /** Standard deviation of the logarithm of the pace all tasks have in common. */
    paceSigma: Type.Number({ minimum: 0 }),
    /** The plan's own finish and forecast: one point among the trials, no promise. */
    plan: Type.Object({ finish: OrNull(Instant), minutesFromStart: OrNull(Whole), cost: Whole }, Strict),
    finish: OddsFinish,
    minutesFromStart: OddsFigures,
    cost: OddsFigures,
    target: OrNull(Day),
    /** Share of the trials that end by the target day; null without one. */
    meetsTarget: OrNull(Share),
    /** Share of the trials that end by the plan's finish. */
    meetsPlan: OrNull(Share),
    /** By the key of each unfinished task: share of the trials in which it was on the driving chain. */
    chain: Type.Record(Key, Share),
    /** Those most often on it, the most frequent first. */
    drivers: Type.Array(OddsDriver),
    /** What makes the finish uncertain, the largest first. */
    sources: Type.Array(OddsSource),
    /** Point i: the finish that i % of the trials do not pass, minutes from the build's start. 101 points, or none. */
    finishCurve: Type.Array(OrNull(Whole)),
    /** The same of the cost. */
    costCurve: Type.Array(Whole),
    /** Trials in which some task ran out of the calendar's ten years: they have no finish. */
    beyond: Whole,
    /** Lines without any price or range: they count as nothing. */
    unpricedLines: Whole,
  },
  Strict,
);

export type Odds = Static<typeof Odds>;
export type OddsFigures = Static<typeof OddsFigures>;
export type OddsDriver = Static<typeof OddsDriver>;
export type OddsSource = Static<typeof OddsSource>;
export type OddsDistribution = (typeof ODDS_DISTRIBUTIONS)[number];
