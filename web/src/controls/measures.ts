/** How whole numbers are typed and shown: minutes as hours, minor units as money, grams and millimetres as the build has them. */
import { readDuration } from '#shared/time/read-duration.ts';
import { exactly, lengthScale, massScale, toStored, type Scale, type Units } from '../drawing/units.ts';
import { currencyForm, duration, waitWords } from '../drawing/words.ts';

/** Between thousands. */
const SPACES = /[\s\u2009']/g;

export interface Measure {
  /** The number a text means, or null. */
  readonly read: (text: string) => number | null;
  readonly write: (value: number) => string;
  /** Completes "must be …". */
  readonly words: string;
  readonly hint: string;
  readonly inputmode: 'text' | 'decimal' | 'numeric';
}

export const HOURS: Measure = {
  read: readDuration,
  write: duration,
  words: 'hours and minutes, such as 3 h 15 or 2.5',
  hint: '',
  inputmode: 'text',
};

export const WAIT: Measure = {
  read: readDuration,
  write: waitWords,
  words: 'a time, such as 12 h or 2 days',
  hint: '',
  inputmode: 'text',
};

export const WHOLE: Measure = scaled(1, 0, 'a whole number', '');

export function massIn(units: Units): Measure {
  const words = units === 'metric' ? 'kilograms, such as 12.5' : 'pounds, such as 12.5';
  return converted(massScale(units), /^-?\d+(\.\d{1,3})?$/, words);
}

export function lengthIn(units: Units): Measure {
  return units === 'metric'
    ? converted(lengthScale(units), /^-?\d+$/, 'whole millimetres')
    : converted(lengthScale(units), /^-?\d+(\.\d{1,3})?$/, 'inches, such as 12.5 or 12 1/2');
}

export function moneyIn(currency: string): Measure {
  const { digits, symbol } = currencyForm(currency);
  return scaled(
    10 ** digits,
    digits,
    `an amount in ${symbol}, such as ${digits === 0 ? '120' : '120.50'}`,
    symbol,
  );
}

/** Kept as whole grams or millimetres: what is finer than that, or than its form, is not what the scale can hold. */
function converted(scale: Scale, form: RegExp, words: string): Measure {
  return {
    read: (text) => {
      const plain = withoutFraction(text.trim(), scale)
        .replaceAll(SPACES, '')
        .replace(',', '.')
        .replace('−', '-');
      return form.test(plain) ? toStored(Number(plain), scale) : null;
    },
    write: (value) => exactly(value, scale),
    words,
    hint: scale.symbol,
    inputmode: scale.parts.length === 1 ? 'numeric' : 'decimal',
  };
}

const FRACTION = /^(-?)(?:(\d+)[\s-]+)?(\d+)\/(2|4|8|16)$/;

/** `12 5/8` → `12.625`, where the scale is read in such parts. */
function withoutFraction(text: string, { parts }: Scale): string {
  const [, sign, whole, over, under] = FRACTION.exec(text) ?? [];
  if (under === undefined || !parts.includes(8)) return text;
  return `${sign}${Number(whole ?? 0) + Math.round((1000 * Number(over)) / Number(under)) / 1000}`;
}

/** A decimal number of units, kept as a whole number of their parts; more decimals than the parts allow are refused. */
function scaled(parts: number, digits: number, words: string, hint: string): Measure {
  const form = new RegExp(digits === 0 ? '^-?\\d+$' : `^-?\\d+(\\.\\d{1,${digits}})?$`);
  return {
    read: (text) => {
      const plain = text.replaceAll(SPACES, '').replace(',', '.');
      return form.test(plain) ? Math.round(Number(plain) * parts) : null;
    },
    write: (value) => {
      const text = (value / parts).toFixed(digits);
      return digits === 0
        ? text
        : text.replace(/\.?0+$/, (zeros) => (digits === 2 && zeros !== '.00' ? zeros : ''));
    },
    words,
    hint,
    inputmode: digits === 0 ? 'numeric' : 'decimal',
  };
}
