/** What is kept of the work as it happens: hours, records, weighings, decisions, frozen plans. */
import { Type, type Static } from 'typebox';
import {
  Day,
  DaysOrNone,
  Instant,
  Key,
  Keys,
  Mass,
  Maybe,
  Minutes,
  MoneyOrNone,
  Name,
  OneOf,
  Position,
  StoredFile,
  Strict,
  Text,
} from './common.ts';

/** Person-minutes of one person on one day; `task` null when only the phase is known yet. */
export const Hours = Type.Object(
  {
    /** Null in a file: the store gives one. */
    key: Maybe(Key),
    task: Maybe(Key),
    phase: Maybe(Key),
    person: Key,
    on: Day,
    minutes: Type.Integer({
      minimum: 1,
      maximum: 1440,
      description: 'a whole number of minutes from 1 to 1440 (a day)',
    }),
    note: Text,
  },
  Strict,
);

export const Mark = Type.Object({ x: Position, y: Position, what: Name }, Strict);

/** A photo of a depth of a zone, with measured marks: what lies behind this panel. */
export const PhotoRecord = Type.Object(
  {
    key: Maybe(Key),
    zone: Key,
    depth: Key,
    task: Maybe(Key),
    takenAt: Instant,
    file: Maybe(StoredFile),
    note: Text,
    marks: Type.Array(Mark, { default: [], maxItems: 500, description: 'a list of marks' }),
  },
  Strict,
);

export const ABOARD = ['as-delivered', 'empty', 'loaded'] as const;

export const Weighing = Type.Object(
  {
    key: Maybe(Key),
    on: Day,
    front: Mass,
    rear: Mass,
    /** What was aboard beside the parts fitted by then; null: not said, and read from the figures. */
    aboard: Maybe(OneOf(ABOARD)),
    note: Text,
  },
  Strict,
);

/** A finding of the trade check that the builder has answered: it is not shown again. */
export const Dismissal = Type.Object(
  {
    /** The key of the finding. */
    key: Key,
    reason: Type.String({
      minLength: 1,
      maxLength: 10_000,
      format: 'plain-text',
      pattern: '\\S',
      description: 'the reason why the finding does not matter here, not blank',
    }),
    on: Maybe(Day),
  },
  Strict,
);

/** A question to settle, and what waits for it. */
export const Decision = Type.Object(
  {
    key: Key,
    question: Name,
    options: Type.Array(Name, { default: [], maxItems: 50, description: 'a list of options' }),
    chosen: Maybe(Name),
    /** The person who settles it. */
    by: Maybe(Key),
    leadDays: DaysOrNone,
    locksTasks: Keys,
    locksPurchases: Keys,
    putOff: Type.Integer({
      minimum: 0,
      maximum: 1000,
      default: 0,
      description: 'how often it was put off, 0 to 1000',
    }),
  },
  Strict,
);

const Frozen = Type.Object({ start: Instant, finish: Instant, minutes: Minutes, money: MoneyOrNone }, Strict);

/** A plan as it was on a day: per task its start, finish, person-minutes and money. */
export const Baseline = Type.Object(
  {
    key: Key,
    name: Name,
    on: Day,
    tasks: Type.Record(Key, Frozen, {
      ...Strict,
      description: 'an object of frozen tasks by key',
    }),
  },
  Strict,
);

export type Hours = Static<typeof Hours>;
export type PhotoRecord = Static<typeof PhotoRecord>;
export type Decision = Static<typeof Decision>;
export type Weighing = Static<typeof Weighing>;
export type Dismissal = Static<typeof Dismissal>;
export type Baseline = Static<typeof Baseline>;
