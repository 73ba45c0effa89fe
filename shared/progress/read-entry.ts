/**
 * Hours in one typed line: "ines 1.5 label cables half", "tor sat 6h battens". Who, how long, which day and how far are
 * read wherever they stand; what is left are words of the task. Nothing is guessed: what cannot be read stays a word.
 */
import { dayNumber, dayText, isDay, weekdayOf } from '../time/days.ts';
import { readDuration } from '../time/read-duration.ts';
import type { HowFar } from './worked-on.ts';

export interface ReadEntry {
  /** A person's key. */
  readonly person: string | null;
  readonly minutes: number | null;
  readonly on: string | null;
  readonly howFar: HowFar;
  /** What is left, for finding the task. */
  readonly words: string;
}

/** The longest duration in words: "1 h 30 min". */
const MOST_WORDS = 4;
const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];
const LONG = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'];
const FAR: Readonly<Record<string, HowFar>> = {
  quarter: 0.25,
  '¼': 0.25,
  half: 0.5,
  '½': 0.5,
  '¾': 0.75,
  done: 'done',
  finished: 'done',
};

/** @param today the last day that can be meant: weekdays are those up to it */
export function readEntry(
  text: string,
  people: readonly { readonly key: string; readonly name: string }[],
  today: string,
): ReadEntry {
  // A comma separates, but not within 1,5.
  const tokens = text
    .trim()
    .toLowerCase()
    .split(/(?:,(?!\d)|\s)+/)
    .filter(Boolean);
  let person: string | null = null;
  let minutes: number | null = null;
  let on: string | null = null;
  let howFar: HowFar = null;
  const words: string[] = [];
  let i = 0;
  while (i < tokens.length) {
    const token: string = tokens[i]!;
    const who: string | null = person === null ? personOf(token, people) : null;
    const run: Run | null = minutes === null ? durationAt(tokens, i) : null;
    const day: string | null = on === null ? dayOfWord(token, today) : null;
    const far: Far | null = howFar === null ? farAt(tokens, i) : null;
    i += 1;
    if (who !== null) person = who;
    else if (run !== null) {
      minutes = run.minutes;
      i += run.tokens - 1;
    } else if (day !== null) on = day;
    else if (far !== null) {
      howFar = far.howFar;
      i += far.tokens - 1;
    } else words.push(token);
  }
  return { person, minutes, on, howFar, words: words.join(' ') };
}

interface Run {
  readonly minutes: number;
  readonly tokens: number;
}

interface Far {
  readonly howFar: HowFar;
  readonly tokens: number;
}

function personOf(
  token: string,
  people: readonly { readonly key: string; readonly name: string }[],
): string | null {
  const isCalled = (name: string) => name === token || name.split(/\s+/)[0] === token;
  return people.find(({ name, key }) => isCalled(name.toLowerCase()) || key === token)?.key ?? null;
}

function farAt(tokens: readonly string[], from: number): Far | null {
  const [first = '', second = ''] = tokens.slice(from, from + 2);
  if (first === 'three' && /^quarters?$/.test(second)) return { howFar: 0.75, tokens: 2 };
  const howFar = FAR[first] ?? null;
  return howFar === null ? null : { howFar, tokens: 1 };
}

/** The longest run of tokens from there that is a duration; only what begins with a figure can be one. */
function durationAt(tokens: readonly string[], from: number): Run | null {
  if (!/^\d/.test(tokens[from]!)) return null;
  for (let count = Math.min(MOST_WORDS, tokens.length - from); count > 0; count--) {
    const run = tokens.slice(from, from + count);
    // "2 12 V circuits" are two hours on 12 V circuits, not 2:12.
    if (run.slice(1).some((token, i) => /^\d/.test(token) && !run[i]!.endsWith('h'))) continue;
    const minutes = readDuration(run.join(' '));
    if (minutes !== null && minutes > 0 && minutes <= 1440) return { minutes, tokens: count };
  }
  return null;
}

function dayOfWord(token: string, today: string): string | null {
  const day = dayNumber(today);
  if (token === 'today') return today;
  if (token === 'yesterday') return dayText(day - 1);
  if (isDay(token)) return token;
  const at = WEEKDAYS.includes(token) ? WEEKDAYS.indexOf(token) : LONG.indexOf(token);
  return at < 0 ? null : dayText(day - ((weekdayOf(day) - at + 7) % 7));
}
