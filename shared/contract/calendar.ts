/** Who works when, with which single tools, and under which conditions: the nouns of the working calendar. */
import { Type, type Static } from 'typebox';
import {
  Day,
  DayRange,
  Flag,
  Key,
  Maybe,
  MoneyOrNone,
  Name,
  Strict,
  Text,
  Window,
  WindowOrAllDay,
  YearlyRange,
} from './common.ts';

export const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
export type Weekday = (typeof WEEKDAYS)[number];

export const Windows = Type.Array(Window, { default: [], maxItems: 48, description: 'a list of windows' });

/** The working windows of a usual week. */
export const Week = Type.Object(
  { mon: Windows, tue: Windows, wed: Windows, thu: Windows, fri: Windows, sat: Windows, sun: Windows },
  {
    ...Strict,
    default: {},
    description: 'an object with a list of windows per weekday: mon, tue, wed, thu, fri, sat, sun',
  },
);

/** Days whose windows replace the usual ones: none for a holiday, longer ones for a free week. */
export const CalendarException = Type.Object({ from: Day, to: Day, windows: Windows, why: Text }, Strict);

export const Person = Type.Object(
  {
    key: Key,
    name: Name,
    /** One name for the same person in every build of a store, so that nobody is in two vans at once. */
    sharedAs: Maybe(Key),
    /** Does only tasks that name them: a licensed trade, a helper for certain jobs. */
    byNameOnly: Flag(false),
    /** Minor units per hour; 0 for one's own hands. */
    rate: MoneyOrNone,
    week: Week,
    exceptions: Type.Array(CalendarException, {
      default: [],
      maxItems: 2000,
      description: 'a list of exceptions',
    }),
  },
  Strict,
);

const DayRanges = Type.Array(DayRange, { default: [], maxItems: 2000, description: 'a list of day ranges' });

/** A tool of which there is one. */
export const Tool = Type.Object(
  {
    key: Key,
    name: Name,
    /** The days it is there (lent, hired); empty: always. */
    only: DayRanges,
  },
  Strict,
);

/** A named state of the world that work or hardening needs: a dry day, above 10 °C, daylight. */
export const Condition = Type.Object(
  {
    key: Key,
    name: Name,
    /** Days of every year on which it does not hold. */
    notYearly: Type.Array(YearlyRange, {
      default: [],
      maxItems: 100,
      description: 'a list of yearly ranges',
    }),
    /** Single ranges of days on which it does not hold. */
    not: DayRanges,
    /** The hours of a day in which it can hold. */
    hours: WindowOrAllDay,
    /** The builder's own word for one day, over everything else: holds all day, or not at all. */
    overrides: Type.Array(
      Type.Object({ on: Day, holds: Type.Boolean({ description: 'true or false' }) }, Strict),
      {
        default: [],
        maxItems: 4000,
        description: 'a list of overridden days',
      },
    ),
  },
  Strict,
);

export type Person = Static<typeof Person>;
export type CalendarException = Static<typeof CalendarException>;
export type Tool = Static<typeof Tool>;
export type Condition = Static<typeof Condition>;
export type DayRange = Static<typeof DayRange>;
