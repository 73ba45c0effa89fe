/**
 * The small types every noun is built from. A `description` is the noun phrase that completes "must be …":
 * it is both the documentation of the field and the sentence a user reads when the value is refused.
 */
import './formats.ts';
import { Type, type TSchema } from 'typebox';

/** An object that refuses fields it does not list. */
export const Strict = { additionalProperties: false } as const;

export const KEY_PATTERN = '^[A-Za-z0-9][A-Za-z0-9._-]{0,79}$';

export const KEY_WORDS =
  'a key: letters, digits, dots, dashes or underscores, 80 at most, starting with a letter or digit';

/** A short stable name, unique within its list; other records point at it. */
export const Key = Type.String({ pattern: KEY_PATTERN, description: KEY_WORDS });

/** A list of keys, empty where left out. */
export const Keys = Type.Array(Key, { default: [], maxItems: 10_000, description: 'a list of keys' });

/** The address of a stored file (photo, receipt): what it holds decides what it is called. */
export const StoredFile = Type.String({
  pattern: '^sha256:[0-9a-f]{64}$',
  description: 'a stored file, written sha256: and 64 hex digits',
});

/** One line a person reads, in any script. */
export const Name = Type.String({
  minLength: 1,
  maxLength: 200,
  format: 'one-line',
  description: 'one line of text, 1 to 200 characters, not blank',
});

/** Free text of several lines; empty where left out. */
export const Text = Type.String({
  format: 'plain-text',
  maxLength: 10_000,
  default: '',
  description: 'text, 10 000 characters at most',
});

/** A few words of free text, without control characters; `description` without the length, which is added. */
export const Words = (maxLength: number, what: string) =>
  Type.String({ format: 'plain-text', maxLength, description: `${what}, ${maxLength} characters at most` });

export const Day = Type.String({
  format: 'local-day',
  description: 'a day of the calendar, written 2027-03-13',
});

export const Instant = Type.String({
  format: 'local-instant',
  description: 'a day and a time, written 2027-03-13T18:30, without a zone',
});

export const Month = Type.String({ format: 'local-month', description: 'a month, written 2026-06' });

const WINDOW = {
  format: 'day-window',
  description:
    'a window of one day, written 18:30-21:00, the end after the start (a night is two windows: 22:00-24:00 and 00:00-02:00)',
};

export const Window = Type.String(WINDOW);

export const WindowOrAllDay = Type.String({ ...WINDOW, default: '00:00-24:00' });

export const YearlyRange = Type.String({
  format: 'yearly-range',
  description: 'days of every year, written 11-15..03-15, both included',
});

/** Days from one to another, both included. */
export const DayRange = Type.Object(
  { from: Day, to: Day, why: Text },
  { ...Strict, description: 'a range of days: from and to, both included' },
);

/** The longest a single task, wait or lag may be: one year on the wall clock. */
export const LONGEST_MINUTES = 527_040;

const MINUTES = {
  minimum: 0,
  maximum: LONGEST_MINUTES,
  description: 'a whole number of minutes from 0 to 527 040 (a year)',
};

/** Whole minutes, 0 to a year. */
export const Minutes = Type.Integer(MINUTES);

/** Whole minutes, 0 where left out. */
export const MinutesOrNone = Type.Integer({ ...MINUTES, default: 0 });

const MONEY = {
  minimum: 0,
  maximum: 1_000_000_000_000,
  description: 'a whole number of minor units (cents), 0 or more',
};

/** Money in minor units of the currency (cents), never a float. */
export const Money = Type.Integer(MONEY);

export const MoneyOrNone = Type.Integer({ ...MONEY, default: 0 });

/** A percentage, with the one that holds where it is left out. */
export const PercentOr = (fallback: number) =>
  Type.Number({ minimum: 0, maximum: 100, default: fallback, description: 'a percentage from 0 to 100' });

export const CURRENCY = { pattern: '^[A-Z]{3}$', description: 'a currency code of ISO 4217, such as EUR' };

/** Grams; negative only for a load that is taken out. */
export const Mass = Type.Integer({
  minimum: 0,
  maximum: 100_000_000,
  description: 'a whole number of grams from 0 to 100 000 000',
});

/** Millimetres from the front axle, the middle line or the floor; negative on the other side of it. */
export const Position = Type.Integer({
  minimum: -30_000,
  maximum: 30_000,
  description: 'a whole number of millimetres from -30 000 to 30 000',
});

export const Length = Type.Integer({
  minimum: 1,
  maximum: 30_000,
  description: 'a whole number of millimetres from 1 to 30 000',
});

const DAYS = { minimum: 0, maximum: 3650, description: 'a whole number of days from 0 to 3650' };

export const Days = Type.Integer(DAYS);

export const DaysOrNone = Type.Integer({ ...DAYS, default: 0 });

export const Quantity = Type.Number({
  exclusiveMinimum: 0,
  maximum: 1_000_000,
  description: 'a quantity above 0, at most 1 000 000',
});

export const Flag = (value: boolean) => Type.Boolean({ default: value, description: 'true or false' });

/** A value or null, null where left out. */
export const Maybe = <T extends TSchema>(type: T) => Type.Union([type, Type.Null()], { default: null });

/** One of some fixed words. */
export const OneOf = <W extends string[]>(words: readonly [...W], fallback?: W[number]) =>
  Type.Enum(words, {
    description: `one of: ${words.join(', ')}`,
    ...(fallback === undefined ? {} : { default: fallback }),
  });
