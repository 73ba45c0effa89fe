/**
 * The kinds of cells a table has: how each is read, how it is written, and the words that complete "it must be …". What is
 * written is read back as the same value; what people type is read in the ways they type it.
 */
import type { BuildFile } from '../contract/build-file.ts';
import { CURRENCY, KEY_PATTERN, KEY_WORDS } from '../contract/common.ts';
import { readDuration } from '../time/read-duration.ts';
import { readDay, readMoment } from './moments.ts';
import { asNumber, readDecimal, scaledBy, writeNumber, writeScaled } from './numbers.ts';

/** What a cell is read within: the build it goes into, and how many decimals the money of its row has. */
export interface Context {
  readonly file: BuildFile;
  readonly digits: number;
}

/** What is wrong with a cell, in words that go on from its name. */
export class CellFault {
  readonly detail: string;

  constructor(detail: string) {
    this.detail = detail;
  }
}

export interface Cell {
  /** @param text not blank */
  readonly read: (text: string, context: Context) => unknown;
  readonly write: (value: never, context: Context) => string;
  readonly words: string;
}

/** A cell whose reader gives null for what is not right. */
function cell<T>(
  words: string,
  read: (text: string, context: Context) => T | CellFault | null,
  write: (value: T, context: Context) => string,
): Cell {
  return {
    words,
    read: (text, context) => read(text, context) ?? notRight(text, words),
    write,
  };
}

function notRight(text: string, words: string): CellFault {
  return new CellFault(`is ${shown(text)}: it must be ${words}`);
}

function shown(text: string): string {
  const letters = Array.from(text);
  return JSON.stringify(letters.length > 60 ? `${letters.slice(0, 57).join('')}…` : text);
}

/** As it stands, blanks and all. */
export const TEXT: Cell = cell(
  'text',
  (text) => text,
  (value: string) => value,
);

export const KEY: Cell = cell(
  KEY_WORDS,
  (text) => (new RegExp(KEY_PATTERN).test(text.trim()) ? text.trim() : null),
  (value: string) => value,
);

export const DAY: Cell = cell('a day, written 2027-03-13', readDay, (value: string) => value);

export const MOMENT: Cell = cell('a day and a time, written 2027-03-13 18:30', readMoment, (value: string) =>
  value.replace('T', ' '),
);

/** Always hours and minutes: exact, and beyond a day too. */
export const TIME: Cell = cell(
  'hours and minutes, such as 7:45 or 7.75',
  (text) => readDuration(text.trim().replace(/^(\d+:\d{2}):00$/, '$1')),
  (minutes: number) => `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`,
);

export const FLAG: Cell = cell(
  'yes or no',
  (text) => {
    const word = text.trim().toLowerCase();
    if (['yes', 'y', 'true', '1', 'x'].includes(word)) return true;
    return ['no', 'n', 'false', '0'].includes(word) ? false : null;
  },
  (value: boolean) => (value ? 'yes' : 'no'),
);

export const MONEY: Cell = scaled(({ digits }) => digits, 'an amount, such as 120.50 or 1 200');
/** Kilograms, kept as grams. */
export const KILOGRAMS: Cell = scaled(() => 3, 'kilograms, such as 12.5');
export const WHOLE: Cell = scaled(() => 0, 'a whole number');

/** A decimal number of units, kept as a whole number of their parts. */
function scaled(digitsIn: (context: Context) => number, words: string): Cell {
  return cell(
    words,
    (text, context) => {
      const decimal = readDecimal(text);
      if (decimal === 'ambiguous') return ambiguous(text);
      const digits = digitsIn(context);
      const value = decimal === null ? null : scaledBy(digits, decimal);
      if (decimal !== null && value === null)
        return new CellFault(
          `is ${shown(text)}: it must have ${digits === 0 ? 'no decimals' : `${digits} decimals at most`}`,
        );
      return value;
    },
    (value: number, context) => writeScaled(value, digitsIn(context)),
  );
}

export const NUMBER: Cell = cell(
  'a number, such as 2.5',
  (text) => {
    if (/^\s*\d+(?:\.\d+)?e[+-]?\d+\s*$/.test(text)) return Number(text);
    const decimal = readDecimal(text.replace('%', ''));
    return decimal === 'ambiguous' ? ambiguous(text) : decimal === null ? null : asNumber(decimal);
  },
  writeNumber,
);

function ambiguous(text: string): CellFault {
  const digits = text.replaceAll(/[^\d]/g, '');
  const parts = `${digits.slice(0, -3)}.${digits.slice(-3)}0`;
  return new CellFault(`is ${shown(text)}, which can be read in two ways: write ${digits} or ${parts}`);
}

/** One of some words; blanks may stand for the dashes of a word. */
export function oneOf(words: readonly string[]): Cell {
  return cell(
    `one of: ${words.join(', ')}`,
    (text) => {
      const plain = text
        .trim()
        .toLowerCase()
        .replaceAll(/[\s_]+/g, '-');
      return words.find((word) => word.toLowerCase() === plain) ?? null;
    },
    (value: string) => value,
  );
}

/** Several of some words. */
export function listOf(words: readonly string[]): Cell {
  const one = oneOf(words);
  return cell(
    `some of: ${words.join(', ')}; with a semicolon between two`,
    (text, context) => {
      const found = partsOf(text).map((part) => one.read(part, context));
      const fault = found.find((part) => part instanceof CellFault);
      return fault ?? found.filter((part) => typeof part === 'string');
    },
    (chosen: readonly string[]) => chosen.join('; '),
  );
}

export const CURRENCY_CODE: Cell = cell(
  CURRENCY.description,
  (text) => {
    const code = text.trim().toUpperCase();
    return new RegExp(CURRENCY.pattern).test(code) ? code : null;
  },
  (value: string) => value,
);

export type Listed = 'people' | 'tools' | 'conditions' | 'phases' | 'tasks';

const ONE: Readonly<Record<Listed, string>> = {
  people: 'person',
  tools: 'tool',
  conditions: 'condition',
  phases: 'phase',
  tasks: 'task',
};

/** A record of the build by its key, else by its name where only one has it. Anything else is kept and judged later. */
export function reference(list: Listed): Cell {
  return cell(`the key or the name of a ${ONE[list]}`, (text, { file }) => named(text, list, file), keyed);
}

export function references(list: Listed): Cell {
  return cell(
    `keys or names, with a semicolon between two`,
    (text, { file }) => {
      const found = partsOf(text).map((part) => named(part, list, file));
      const fault = found.find((one) => one instanceof CellFault);
      return fault ?? found.filter((one) => typeof one === 'string');
    },
    (keys: readonly string[]) => keys.join('; '),
  );
}

/** Free words in a list: keys that lead nowhere in particular. */
export const KEYS: Cell = cell(
  'keys, with a semicolon between two',
  (text) => partsOf(text),
  (keys: readonly string[]) => keys.join('; '),
);

/** `L2 services hides metal; T fit`: zone, depth, and what it puts out of reach. */
export const PLACES: Cell = cell(
  'places such as "L2 services" or "L2 finish hides services", with a semicolon between two',
  (text) => {
    const places = partsOf(text).map((part) => /^(\S+)\s+(\S+)(?:\s+hides\s+(\S+))?$/.exec(part));
    if (places.includes(null)) return null;
    return places.map((found) => ({ zone: found![1]!, depth: found![2]!, hides: found![3] ?? null }));
  },
  (places: readonly { zone: string; depth: string; hides: string | null }[]) =>
    places
      .map(({ zone, depth, hides }) => `${zone} ${depth}${hides === null ? '' : ` hides ${hides}`}`)
      .join('; '),
);

/** Length, width and height in millimetres. */
export const SIZE: Cell = cell(
  'three lengths in millimetres, such as 400 x 300 x 200',
  (text) => {
    const found = /^\s*(\d+)\s*[x×*]\s*(\d+)\s*[x×*]\s*(\d+)\s*(?:mm)?\s*$/i.exec(text);
    return found === null ? null : found.slice(1).map(Number);
  },
  (size: readonly number[]) => size.join(' x '),
);

function partsOf(text: string): string[] {
  return text
    .split(/[;\n]/)
    .map((part) => part.trim())
    .filter((part) => part !== '');
}

function keyed(key: string): string {
  return key;
}

const indexes = new WeakMap<readonly object[], ReadonlyMap<string, readonly string[]>>();

function named(text: string, list: Listed, file: BuildFile): string | CellFault {
  const records: readonly { readonly key: string; readonly name: string }[] = file[list];
  const index = indexes.get(records) ?? indexed(records);
  const plain = text.trim();
  if (index.has(`key ${plain}`)) return plain;
  const keys = index.get(`name ${plain.toLowerCase()}`) ?? [];
  if (keys.length === 1) return keys[0]!;
  if (keys.length > 1)
    return new CellFault(`is ${shown(plain)}, the name of ${keys.length}: use a key, ${keys.join(' or ')}`);
  return new CellFault(`is ${shown(plain)}: there is no ${ONE[list]} of that key or name`);
}

function indexed(records: readonly { readonly key: string; readonly name: string }[]) {
  const index = new Map<string, string[]>();
  for (const { key, name } of records) {
    index.set(`key ${key}`, [key]);
    const word = `name ${name.trim().toLowerCase()}`;
    index.set(word, [...(index.get(word) ?? []), key]);
  }
  indexes.set(records, index);
  return index;
}
