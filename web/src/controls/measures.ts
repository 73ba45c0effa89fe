/** How whole numbers are typed and shown: minutes as hours, minor units as money, grams as kilograms. */
import { readDuration } from '#shared/time/read-duration.ts';
import { currencyForm, duration, waitWords } from '../drawing/words.ts';

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
export const KILOGRAMS: Measure = scaled(1000, 3, 'kilograms, such as 12.5', 'kg');
export const MILLIMETRES: Measure = scaled(1, 0, 'whole millimetres', 'mm');

export function moneyIn(currency: string): Measure {
  const { digits, symbol } = currencyForm(currency);
  return scaled(
    10 ** digits,
    digits,
    `an amount in ${symbol}, such as ${digits === 0 ? '120' : '120.50'}`,
    symbol,
  );
}

/** A decimal number of units, kept as a whole number of their parts; more decimals than the parts allow are refused. */
function scaled(parts: number, digits: number, words: string, hint: string): Measure {
  const form = new RegExp(digits === 0 ? '^-?\\d+$' : `^-?\\d+(\\.\\d{1,${digits}})?$`);
  return {
    read: (text) => {
      const plain = text.replaceAll(/[\s\u2009']/g, '').replace(',', '.');
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
