/** The trade check's part of the plan: what a builder who has done it would ask. Advice: it never holds anything up. */
import { Type, type Static, type TSchema } from 'typebox';
import { Key, Strict } from './common.ts';
import { LINK_KINDS, LINK_WHYS, Place } from './task.ts';

const OrNull = <T extends TSchema>(type: T) => Type.Union([type, Type.Null()]);
const Words = <W extends string[]>(words: readonly [...W]) => Type.Enum(words);
const Sentence = Type.String();

/** How a finding stands, the worst first. */
export const STANDINGS = [
  /** Links or covers force the wrong order. */
  'wrong',
  /** What should wait has begun. */
  'begun',
  /** No task does what is needed. */
  'missing',
  /** Nothing forces it, but by the dates it comes out wrong. */
  'dates',
  /** The dates happen to be right; nothing holds the order. */
  'unheld',
] as const;

const Pair = Type.Object({ from: Key, to: Key }, Strict);

export const TradeRepair = Type.Union([
  /** State the order; `drops` are the links that say the opposite. */
  Type.Object(
    {
      kind: Type.Literal('link'),
      links: Type.Array(Pair),
      drops: Type.Array(Type.Object({ from: Key, to: Key, kind: Words(LINK_KINDS) }, Strict)),
    },
    Strict,
  ),
  /** Add a task of the catalogue (or a plain one, where it has none of that name) between these. */
  Type.Object(
    {
      kind: Type.Literal('add-task'),
      entry: Key,
      after: Type.Array(Key),
      before: Type.Array(Key),
      places: Type.Array(Place),
    },
    Strict,
  ),
]);

export const TradeFinding = Type.Object(
  {
    /** Of the rule and the tasks, so it stays the same whatever else changes. */
    key: Key,
    rule: Key,
    standing: Words(STANDINGS),
    /** What should come first, then what should wait. */
    tasks: Type.Array(Key),
    /** Where both meet; none: anywhere in the build. */
    zones: Type.Array(Key),
    sentence: Sentence,
    reason: Sentence,
    harm: Words(LINK_WHYS),
    repair: OrNull(TradeRepair),
    /** The builder's reason for dismissing it. */
    dismissed: OrNull(Sentence),
  },
  Strict,
);

export const PlanTrade = Type.Object(
  {
    findings: Type.Array(TradeFinding),
    /** Rules that have more findings than one can read at once: the others come once these are settled. */
    untold: Type.Array(Key),
  },
  Strict,
);

export type TradeRepair = Static<typeof TradeRepair>;
export type TradeFinding = Static<typeof TradeFinding>;
export type Standing = (typeof STANDINGS)[number];
export type PlanTrade = Static<typeof PlanTrade>;
