/**
 * The plan: everything computed from one build. `early`, `late` and slack are whole minutes, instants among them
 * counted from 00:00 of the build's first day; `dates` are written instants. Null means "not known", never zero;
 * sections that no capability fills yet are null.
 */
import { Type, type Static, type TSchema } from 'typebox';
import { Day, Instant, Key, Strict } from './common.ts';
import { PlanMass } from './plan-mass.ts';
import { PlanMoney } from './plan-money.ts';
import { PlanTrade } from './plan-trade.ts';
import { LINK_KINDS, TASK_STATES } from './task.ts';

const Whole = Type.Integer();
const Sentence = Type.String();
const OrNull = <T extends TSchema>(type: T) => Type.Union([type, Type.Null()]);
const Words = <W extends string[]>(words: readonly [...W]) => Type.Enum(words);

const LinkName = Type.Object({ from: Key, to: Key, kind: Words(LINK_KINDS) }, Strict);

/** What can be done about an error; each can be applied to the build as it stands. */
export const Repair = Type.Union([
  /** Drop stated links. `exact`: no smaller set would do. */
  Type.Object(
    { kind: Type.Literal('drop-links'), links: Type.Array(LinkName), exact: Type.Boolean() },
    Strict,
  ),
  /** Make the task's places in one zone a task of their own. */
  Type.Object({ kind: Type.Literal('split'), task: Key, zone: Key }, Strict),
  /** Free a pair from the cover rule; the builder gives the reason. */
  Type.Object({ kind: Type.Literal('exception'), inner: Key, cover: Key }, Strict),
  Type.Object({ kind: Type.Literal('drop-place'), task: Key, zone: Key, depth: Key }, Strict),
  /** Sign a check that was made but not written down. */
  Type.Object({ kind: Type.Literal('sign'), task: Key, holdPoint: Key }, Strict),
  /** Take finished covers off and put them back: they become work again. */
  Type.Object({ kind: Type.Literal('reopen'), tasks: Type.Array(Key), personMinutes: Whole }, Strict),
  Type.Object({ kind: Type.Literal('drop-fixed-start'), task: Key }, Strict),
]);

/** One step of a chain: `from` comes before `to`, because a link says so or because `to` hides it. */
export const ChainStep = Type.Object(
  {
    from: Key,
    to: Key,
    by: Words(['link', 'cover']),
    /** The kind of the link; null for a cover. */
    kind: OrNull(Words(LINK_KINDS)),
    zone: OrNull(Key),
    depth: OrNull(Key),
    reason: Sentence,
  },
  Strict,
);

export const ERROR_RULES = [
  'wrong-order',
  'covers-in-a-circle',
  'closed-too-early',
  'covered-unchecked',
  'part-too-late',
  'never-runs',
  'fixed-start-missed',
] as const;

export const OrderError = Type.Object(
  {
    rule: Words(ERROR_RULES),
    tasks: Type.Array(Key),
    zone: OrNull(Key),
    depth: OrNull(Key),
    sentence: Sentence,
    chain: Type.Array(ChainStep),
    repair: OrNull(Repair),
    otherRepairs: Type.Array(Repair),
  },
  Strict,
);

export const HINT_RULES = [
  'nothing-hides-it',
  'hides-nothing',
  'implied-link',
  'empty-zone',
  'undecided-coats',
  'out-of-sequence',
  'started-unchecked',
] as const;

export const Hint = Type.Object(
  {
    rule: Words(HINT_RULES),
    tasks: Type.Array(Key),
    zone: OrNull(Key),
    depth: OrNull(Key),
    sentence: Sentence,
  },
  Strict,
);

const Stretch = Type.Object({ start: Whole, finish: Whole }, Strict);

export const BECAUSE_KINDS = [
  'as-of',
  'link',
  'cover',
  'wait',
  'part',
  'person',
  'tool',
  'zone',
  'window',
  'condition',
  'fixed-start',
  'resumed',
] as const;

/** Why a task starts when it does: the one thing that holds it, in words. */
export const Because = Type.Object(
  {
    kind: Words(BECAUSE_KINDS),
    /** The task it waits for, or that has the person, tool or zone. */
    task: OrNull(Key),
    /** The person, tool, zone, condition or purchase concerned. */
    key: OrNull(Key),
    words: Sentence,
  },
  Strict,
);

export const PlannedDates = Type.Object(
  {
    start: Instant,
    finish: Instant,
    /** When its wait is over; the finish where it has none. */
    waitUntil: Instant,
    people: Type.Array(Key),
    /** Stretches of work, minutes from the build's start. */
    sittings: Type.Array(Type.Tuple([Whole, Whole])),
  },
  Strict,
);

export const PlannedTask = Type.Object(
  {
    state: Words(TASK_STATES),
    /** Planned clock minutes still to work. */
    minutes: Whole,
    /** Share done, 0..1. */
    complete: Type.Number(),
    early: OrNull(Stretch),
    late: OrNull(Stretch),
    totalFloat: OrNull(Whole),
    freeFloat: OrNull(Whole),
    /** Total slack by the links alone, in days of the calendar; what is left after the planned date: `slackLeft`. */
    slackDays: OrNull(Whole),
    critical: Type.Boolean(),
    dates: OrNull(PlannedDates),
    /** On the driving chain: begun a sitting later, it moves the finish. Null where the finish is not known. */
    chain: OrNull(Type.Boolean()),
    because: OrNull(Because),
    /** Why it has no dates. */
    unplaced: OrNull(Sentence),
  },
  Strict,
);

export const Closing = Type.Object(
  {
    zone: Key,
    /** The depth furthest in front that is put out of reach, with all behind it. */
    depth: Key,
    by: Key,
    /** The day the covering task starts; null if it has no dates. */
    on: OrNull(Day),
    at: OrNull(Instant),
    /** Tasks behind it that are not finished. */
    missing: Type.Array(Key),
    /** Tasks behind it, finished or not: what must be in. */
    behind: Whole,
    unsigned: Type.Array(Type.Object({ task: Key, holdPoint: Key, name: Sentence }, Strict)),
    undelivered: Type.Array(
      Type.Object({ purchase: Key, line: Key, name: Sentence, arrives: OrNull(Day) }, Strict),
    ),
    undecided: Type.Array(Key),
    /** What its start waits for. */
    heldBy: OrNull(Because),
  },
  Strict,
);

/** The latest moment at which a depth of a zone can be reached, and what it would cost to reach it again. */
export const LastChance = Type.Object(
  {
    zone: Key,
    depth: Key,
    /** Null: nothing hides it, or the task that does has no dates. */
    at: OrNull(Instant),
    by: OrNull(Key),
    closed: Type.Boolean(),
    /** Who closed it, where hours or checks say so. */
    people: Type.Array(Key),
    /** Person-minutes to take off and put back what is in front, now. */
    reopenMinutes: Whole,
    /** What would have to come off, from the outside in, with the person-minutes of each. */
    reopens: Type.Array(Type.Object({ task: Key, personMinutes: Whole }, Strict)),
  },
  Strict,
);

/** A line in hand that nobody has used up: until when it can go back, and when it goes off. */
export const Keeping = Type.Object(
  {
    line: Key,
    /** The last day to send it back; null: no window, or it is over or begun with. */
    returnBy: OrNull(Day),
    /** The last day of its shelf life. */
    goesOff: OrNull(Day),
    /** The planned start of the first task that uses it and the end of the last. */
    usedFrom: OrNull(Day),
    usedUp: OrNull(Day),
    /** The window closes before anybody tries it. */
    untried: Type.Boolean(),
    /** It goes off before it is used up. */
    spoils: Type.Boolean(),
  },
  Strict,
);

export const PlannedPurchase = Type.Object(
  {
    /** The last day to order with the bad lead time, after the plan's dates. */
    orderBy: OrNull(Day),
    /** The last day at all, after the latest dates that keep the finish. */
    orderByLatest: OrNull(Day),
    /** Not before this day, or shelf life or the return window runs out first. */
    orderEarliest: OrNull(Day),
    arrives: OrNull(Day),
    /** Its arrival is what holds a task back. */
    late: Type.Boolean(),
    /** The tasks it holds back. */
    holds: Type.Array(Key),
    /** Tasks that would wait for it if the bad lead time came true; none that it holds back already. */
    risks: Type.Array(Key),
    /** Closings that wait for it, by their zone and covering task. */
    closings: Type.Array(Type.Object({ zone: Key, by: Key }, Strict)),
    /** Lines in hand that can go back, or that go off. */
    keeping: Type.Array(Keeping),
  },
  Strict,
);

export const PhaseProgress = Type.Object(
  {
    /** Person-minutes. */
    estimated: Whole,
    logged: Whole,
    remaining: Whole,
    forecast: Whole,
    /** Hours taken per hour estimated. */
    pace: Type.Number(),
    /** True while nothing of the phase is finished: the pace is the build's. */
    assumed: Type.Boolean(),
    tasks: Whole,
    finished: Whole,
  },
  Strict,
);

export const Progress = Type.Object(
  {
    ...PhaseProgress.properties,
    /** Share of the estimated hours that is done, 0..1; null when nothing is estimated. */
    complete: OrNull(Type.Number()),
    /** Where the pace comes from: the prior alone, or hours as well. */
    prior: Type.Number(),
    /** Logged to a phase or to nothing yet, person-minutes. */
    unsorted: Whole,
    phases: Type.Record(Key, PhaseProgress),
  },
  Strict,
);

export const Plan = Type.Object(
  {
    /** True when suggested repairs had to be assumed to get dates at all. */
    provisional: Type.Boolean(),
    /** The links left out for that. */
    leftOut: Type.Array(LinkName),
    asOf: Instant,
    tasks: Type.Record(Key, PlannedTask),
    finish: Type.Object({ early: OrNull(Whole), dates: OrNull(Instant) }, Strict),
    /** Every critical task lies on one of these, from a source to the end. */
    criticalChains: Type.Array(Type.Array(Key)),
    /** The priority list the dates follow. */
    order: Type.Array(Key),
    errors: Type.Array(OrderError),
    hints: Type.Array(Hint),
    closings: Type.Array(Closing),
    lastChances: Type.Array(LastChance),
    purchases: Type.Record(Key, PlannedPurchase),
    progress: Progress,
    money: PlanMoney,
    mass: PlanMass,
    trade: PlanTrade,
  },
  Strict,
);

export type Plan = Static<typeof Plan>;
export type PlannedTask = Static<typeof PlannedTask>;
export type PlannedDates = Static<typeof PlannedDates>;
export type PlannedPurchase = Static<typeof PlannedPurchase>;
export type Keeping = Static<typeof Keeping>;
export type Because = Static<typeof Because>;
export type Repair = Static<typeof Repair>;
export type ChainStep = Static<typeof ChainStep>;
export type OrderError = Static<typeof OrderError>;
export type Hint = Static<typeof Hint>;
export type Closing = Static<typeof Closing>;
export type LastChance = Static<typeof LastChance>;
export type Progress = Static<typeof Progress>;
export type PhaseProgress = Static<typeof PhaseProgress>;
