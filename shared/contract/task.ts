/** The work: phases, tasks with their places and checks, links between them, exceptions from the cover rule. */
import { Type, type Static } from 'typebox';
import {
  Flag,
  Instant,
  Key,
  Keys,
  LONGEST_MINUTES,
  Maybe,
  Minutes,
  MinutesOrNone,
  MoneyOrNone,
  Name,
  OneOf,
  Strict,
  Text,
  Words,
} from './common.ts';

/** A named part of the build with its own budget (minor units). */
export const Phase = Type.Object({ key: Key, name: Name, budget: MoneyOrNone }, Strict);

/** Clock minutes at the bench: three points of one estimate. */
export const Estimate = Type.Object(
  { low: Minutes, likely: Minutes, high: Minutes },
  { ...Strict, description: 'an object with low, likely and high in minutes' },
);

/** Where a task works, and which depth (with all before it in the zone's list) it puts out of reach once done. */
export const Place = Type.Object({ zone: Key, depth: Key, hides: Maybe(Key) }, Strict);

export const CHECK_KINDS = [
  'leak',
  'continuity',
  'insulation-resistance',
  'pull',
  'pressure',
  'photo',
  'function',
  'visual',
  'weighing',
] as const;

/** One try at a check. */
export const Attempt = Type.Object(
  {
    at: Instant,
    by: Key,
    pass: Type.Boolean({ description: 'true or false' }),
    reading: Maybe(Words(500, 'a reading')),
    photo: Maybe(Words(200, 'the name of a stored photo')),
  },
  Strict,
);

/** A check that must be signed: `entry` before its task starts, `exit` before anything that follows it. */
export const HoldPoint = Type.Object(
  {
    key: Key,
    kind: OneOf(CHECK_KINDS, 'visual'),
    when: OneOf(['entry', 'exit'], 'exit'),
    name: Name,
    expect: Maybe(Words(500, 'what the reading should be')),
    attempts: Type.Array(Attempt, { default: [], maxItems: 200, description: 'a list of attempts' }),
  },
  Strict,
);

export const Step = Type.Object({ text: Name, done: Flag(false) }, Strict);

export const TASK_STATES = ['not-started', 'started', 'finished'] as const;

/** The dangers a task can carry; the words for each stand in `shared/trade`. */
export const CAUTIONS = [
  'electricity',
  'mains',
  'battery',
  'gas',
  'fuel',
  'exhaust',
  'hot-work',
  'drilling',
  'airbag',
  'brake-lines',
  'seat-belt',
  'lifting',
  'under-vehicle',
  'height',
  'dust',
  'solvents',
  'sharp-edges',
  'pressure',
  'road',
] as const;

const People = Type.Integer({
  minimum: 1,
  maximum: 50,
  default: 1,
  description: 'how many people work at once, a whole number from 1 to 50',
});

const PersonMinutes = Type.Integer({
  minimum: 0,
  maximum: LONGEST_MINUTES * 10,
  description: 'a whole number of person-minutes, 0 or more',
});

export const Task = Type.Object(
  {
    key: Key,
    name: Name,
    phase: Maybe(Key),
    /** Trade kinds (cut opening, leak test, lining…) for the trade check. */
    kinds: Keys,
    minutes: Estimate,
    people: People,
    /** The people who may do it; empty: anyone who is not "by name only". */
    who: Keys,
    tools: Keys,
    /** Worked minutes below which it is not worth unpacking. */
    shortestSitting: MinutesOrNone,
    /** Hardening, drying, off-gassing after it: the clock runs, nobody works. */
    waitMinutes: MinutesOrNone,
    waitConditions: Keys,
    /** The wait keeps its zones shut as well (a wet floor). */
    waitHoldsZones: Flag(false),
    conditions: Keys,
    places: Type.Array(Place, { default: [], maxItems: 500, description: 'a list of places' }),
    /** Person-minutes to take it off and put it back, without what stands in front; null: from the estimate. */
    reopenMinutes: Maybe(PersonMinutes),
    steps: Type.Array(Step, { default: [], maxItems: 500, description: 'a list of steps' }),
    holdPoints: Type.Array(HoldPoint, { default: [], maxItems: 50, description: 'a list of checks' }),
    state: OneOf(TASK_STATES, 'not-started'),
    startedAt: Maybe(Instant),
    finishedAt: Maybe(Instant),
    /** False: finished, but nobody knows what it took; left out of the pace. */
    hoursKnown: Flag(true),
    /** The builder's own word on what is left of a started task, clock minutes. */
    remainingMinutes: Maybe(Minutes),
    fixedStart: Maybe(Instant),
    fixedWhy: Maybe(Words(1000, 'a reason')),
    cautions: Type.Array(OneOf(CAUTIONS), { default: [], maxItems: 20, description: 'a list of cautions' }),
    /** What could be left out and takes this task with it (the roof rack); null: the build is not one without it. */
    option: Maybe(Words(100, 'the name of an option')),
    note: Text,
  },
  Strict,
);

export const LINK_KINDS = ['FS', 'SS', 'FF', 'SF'] as const;

/** Why the trade asks for an order. */
export const LINK_WHYS = [
  'hidden-by',
  'needs-surface',
  'needs-dry',
  'needs-access',
  'needs-power-for-test',
  'heavy-first',
  'legal',
  'needs-decision',
  'keeps-clean',
] as const;

/** A stated order between two tasks. `lagOn` working: the lag counts the worked minutes of the second task's people. */
export const Link = Type.Object(
  {
    from: Key,
    to: Key,
    kind: OneOf(LINK_KINDS, 'FS'),
    lagMinutes: MinutesOrNone,
    lagOn: OneOf(['clock', 'working'], 'clock'),
    reason: Text,
    why: Maybe(OneOf(LINK_WHYS)),
  },
  Strict,
);

/** A pair freed from the cover rule: `inner` can still be reached behind `cover`. */
export const Exception = Type.Object(
  {
    inner: Key,
    cover: Key,
    reason: Type.String({
      minLength: 1,
      maxLength: 10_000,
      format: 'plain-text',
      pattern: '\\S',
      description: 'the reason why it can still be reached, not blank',
    }),
  },
  Strict,
);

export type Phase = Static<typeof Phase>;
export type Estimate = Static<typeof Estimate>;
export type Place = Static<typeof Place>;
export type Attempt = Static<typeof Attempt>;
export type HoldPoint = Static<typeof HoldPoint>;
export type Task = Static<typeof Task>;
export type TaskState = (typeof TASK_STATES)[number];
export type Link = Static<typeof Link>;
export type LinkKind = (typeof LINK_KINDS)[number];
export type LinkWhy = (typeof LINK_WHYS)[number];
export type Exception = Static<typeof Exception>;
export type Caution = (typeof CAUTIONS)[number];
