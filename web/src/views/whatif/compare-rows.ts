/** The figures of a comparison as rows of its table: on both sides, and what lies between them. */
import type { Comparison, Pair } from '#shared/whatif/compare.ts';
import { count, dayWords, hours, money, MONTHS } from '../../drawing/words.ts';

export interface CompareRow {
  readonly what: string;
  readonly from: string;
  readonly to: string;
  /** '' where both sides are the same. */
  readonly by: string;
}

export function compareRows(found: Comparison, now: string, currency: string): CompareRow[] {
  const day = (text: string | null, none: string) => (text === null ? none : dayWords(text, now));
  const kg = (grams: number | null) =>
    grams === null ? 'not known' : `${sign(Math.round(grams / 1000))} kg`;
  const { finish, fourInFive, forecast, empty, massLeft, toWork, tasksLeft } = found;
  const rows: (CompareRow | null)[] = [
    {
      what: 'Finish',
      from: day(finish.from, 'no finish'),
      to: day(finish.to, 'no finish'),
      by: gap(finish, (days) => later(days, 'd')),
    },
    fourInFive.from === null && fourInFive.to === null
      ? null
      : {
          what: 'Four in five by',
          from: day(fourInFive.from, 'not known'),
          to: day(fourInFive.to, 'not known'),
          by: gap(fourInFive, (days) => later(days, 'd')),
        },
    {
      what: 'Forecast',
      from: money(forecast.from ?? 0, currency),
      to: money(forecast.to ?? 0, currency),
      by: gap(forecast, (minor) => `${money(Math.abs(minor), currency)} ${minor > 0 ? 'more' : 'less'}`),
    },
    {
      what: 'The purse is empty',
      from: empty.from === null ? 'never' : month(empty.from),
      to: empty.to === null ? 'never' : month(empty.to),
      by:
        empty.from === empty.to
          ? ''
          : empty.by === null
            ? empty.to === null
              ? 'no longer'
              : 'new'
            : `${count(Math.abs(empty.by), 'month')} ${empty.by > 0 ? 'later' : 'earlier'}`,
    },
    {
      what: 'Payload left',
      from: kg(massLeft.from),
      to: kg(massLeft.to),
      by: gap(massLeft, (grams) =>
        Math.round(grams / 1000) === 0
          ? ''
          : `${Math.abs(Math.round(grams / 1000))} kg ${grams > 0 ? 'more' : 'less'}`,
      ),
    },
    {
      what: 'Hours still to work',
      from: hours(toWork.from ?? 0),
      to: hours(toWork.to ?? 0),
      by: gap(toWork, (minutes) => `${hours(Math.abs(minutes))} h ${minutes > 0 ? 'more' : 'less'}`),
    },
    {
      what: 'Tasks left',
      from: String(tasksLeft.from),
      to: String(tasksLeft.to),
      by: gap(tasksLeft, (tasks) => `${Math.abs(tasks)} ${tasks > 0 ? 'more' : 'fewer'}`),
    },
  ];
  return rows.filter((row) => row !== null);
}

function gap<T>({ by }: Pair<T>, words: (by: number) => string): string {
  return by === null || by === 0 ? '' : words(by);
}

/** "12 d later". */
export function later(days: number, unit = 'd'): string {
  return `${Math.abs(days)} ${unit} ${days > 0 ? 'later' : 'earlier'}`;
}

function month(text: string): string {
  return `${MONTHS[Number(text.slice(5, 7)) - 1]} ${text.slice(0, 4)}`;
}

function sign(value: number): string {
  return value < 0 ? `−${-value}` : String(value);
}
