/**
 * How far a plan can be trusted: one row for each published check of a good schedule, with what was found, the most
 * that is allowed, and where that comes from. Computed when asked for, never stored.
 */
import { Type, type Static } from 'typebox';
import { Instant, Strict } from './common.ts';

const Whole = Type.Integer({ minimum: 0 });
const Sentence = Type.String();

/** In the order of the page, by group. */
export const HEALTH_CHECKS = [
  'linked',
  'circles',
  'leads',
  'waits',
  'finish-to-start',
  'merges',
  'placed',
  'fixed-dates',
  'fixed-reasons',
  'wrong-side',
  'long-tasks',
  'large-slack',
  'past-target',
  'hours',
  'spread',
  'prices',
  'confirmed-prices',
  'masses',
  'unbroken',
  'delay',
  'frozen-plan',
] as const;

export const HEALTH_GROUPS = ['order', 'dates', 'guesses', 'finish'] as const;

/** GAO-16-89G, Schedule Assessment Guide (2015); DCMA-EA PAM 200.1 (2012); our choice for a van. */
export const HEALTH_SOURCES = ['GAO-16-89G', 'DCMA-EA PAM 200.1', 'our choice'] as const;

/** Look: worth a look, no reason to doubt the plan. */
export const HEALTH_STATES = ['passed', 'look', 'failed'] as const;

/** A record that was found: `id` as its noun is addressed, and what is the matter with it. */
export const HealthRecord = Type.Object(
  {
    noun: Type.Enum(['tasks', 'links', 'purchases', 'hours', 'baselines']),
    id: Type.String(),
    name: Sentence,
    note: Sentence,
  },
  Strict,
);

export const HealthRow = Type.Object(
  {
    check: Type.Enum([...HEALTH_CHECKS]),
    group: Type.Enum([...HEALTH_GROUPS]),
    /** What is checked, in a few words. */
    name: Sentence,
    state: Type.Enum([...HEALTH_STATES]),
    /** How many were found, and of how many. */
    count: Whole,
    of: Whole,
    /** Passed up to so many, or up to that share (0..1) of all. */
    most: Type.Object(
      { count: Type.Union([Whole, Type.Null()]), share: Type.Union([Type.Number(), Type.Null()]) },
      Strict,
    ),
    sources: Type.Array(Type.Enum([...HEALTH_SOURCES])),
    /** What was found, and why it matters. */
    sentence: Sentence,
    records: Type.Array(HealthRecord),
  },
  Strict,
);

export const PlanHealth = Type.Object(
  {
    asOf: Instant,
    passed: Whole,
    look: Whole,
    failed: Whole,
    rows: Type.Array(HealthRow),
  },
  Strict,
);

export type HealthCheck = (typeof HEALTH_CHECKS)[number];
export type HealthGroup = (typeof HEALTH_GROUPS)[number];
export type HealthSource = (typeof HEALTH_SOURCES)[number];
export type HealthState = (typeof HEALTH_STATES)[number];
export type HealthRecord = Static<typeof HealthRecord>;
export type HealthRow = Static<typeof HealthRow>;
export type PlanHealth = Static<typeof PlanHealth>;
