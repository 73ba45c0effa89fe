/** When a person, a tool or a condition is there: one day pattern for each day of the calendar's span. */
import type { Condition, Person, Tool } from '../contract/calendar.ts';
import { WEEKDAYS } from '../contract/calendar.ts';
import { clockMinutes } from './clock.ts';
import { dayInYear, dayNumber, weekdayOf, yearOf } from './days.ts';
import { ALL_DAY, NEVER, type Patterns } from './patterns.ts';

/** Days since 1970-01-01: `from` included, `to` not. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** One pattern per day of the span. */
export type Availability = Int32Array;

/** `18:30-21:00` as minutes of the day. */
export function windowsOf(texts: readonly string[]): [number, number][] {
  return texts.map((text) => [clockMinutes(text.slice(0, 5)), clockMinutes(text.slice(6))]);
}

/**
 * The usual week, replaced on exception days. Where two exceptions overlap the later one wins, then the shorter; of two
 * for the same days the one whose windows, written in order, come later in the alphabet.
 */
export function personAvailability(person: Person, span: Span, patterns: Patterns): Availability {
  const week = WEEKDAYS.map((name) => patterns.of(windowsOf(person.week[name])));
  const days = new Int32Array(span.to - span.from);
  for (let i = 0; i < days.length; i++) days[i] = week[weekdayOf(span.from + i)]!;
  const exceptions = person.exceptions
    .map(({ from, to, windows }) => ({
      from: dayNumber(from),
      to: dayNumber(to),
      text: windows.toSorted().join(),
      pattern: patterns.of(windowsOf(windows)),
    }))
    .sort((a, b) => a.from - b.from || b.to - a.to || (a.text < b.text ? -1 : 1));
  for (const { from, to, pattern } of exceptions) fill(days, span, from, to, pattern);
  return days;
}

export function toolAvailability(tool: Tool, span: Span): Availability {
  const days = new Int32Array(span.to - span.from).fill(tool.only.length === 0 ? ALL_DAY : NEVER);
  for (const { from, to } of tool.only) fill(days, span, dayNumber(from), dayNumber(to), ALL_DAY);
  return days;
}

/** Its hours, except on the days it does not hold; an override speaks for the whole day. */
export function conditionAvailability(condition: Condition, span: Span, patterns: Patterns): Availability {
  const days = new Int32Array(span.to - span.from).fill(patterns.of(windowsOf([condition.hours])));
  for (const range of condition.notYearly) {
    const [first, last] = range.split('..') as [string, string];
    for (let year = yearOf(span.from) - 1; year <= yearOf(span.to); year++)
      fill(days, span, dayInYear(year, first), dayInYear(last < first ? year + 1 : year, last), NEVER);
  }
  for (const { from, to } of condition.not) fill(days, span, dayNumber(from), dayNumber(to), NEVER);
  for (const { on, holds } of condition.overrides)
    fill(days, span, dayNumber(on), dayNumber(on), holds ? ALL_DAY : NEVER);
  return days;
}

function fill(days: Availability, span: Span, from: number, to: number, pattern: number): void {
  const first = Math.max(0, from - span.from);
  const end = Math.min(days.length, to - span.from + 1);
  if (first < end) days.fill(pattern, first, end);
}

/** Open where at least `count` of the people are there: the k-of-n set, folded person by person. */
export function atLeast(
  people: readonly Availability[],
  count: number,
  length: number,
  patterns: Patterns,
): Availability {
  // reached[j] = where at least j of the people seen so far are there.
  const reached: Availability[] = [];
  for (const person of people)
    for (let j = Math.min(reached.length, count - 1); j >= 0; j--) {
      const withThem = j === 0 ? person : combine(reached[j - 1]!, person, (a, b) => patterns.both(a, b));
      const without = reached[j];
      reached[j] =
        without === undefined ? withThem : combine(without, withThem, (a, b) => patterns.either(a, b));
    }
  return reached[count - 1] ?? new Int32Array(length);
}

export function combine(
  a: Availability,
  b: Availability,
  pick: (a: number, b: number) => number,
): Availability {
  const out = new Int32Array(a.length);
  for (let i = 0; i < out.length; i++) out[i] = pick(a[i]!, b[i]!);
  return out;
}
