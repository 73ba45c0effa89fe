/** Decimal numbers as they are typed: with a point or a comma. */
import type { Measure } from './measures.ts';

export const DECIMAL: Measure = {
  read: (text) => {
    const plain = text.trim().replace(',', '.');
    return /^-?\d+(\.\d+)?$/.test(plain) ? Number(plain) : null;
  },
  write: (value) => String(Math.round(value * 1e6) / 1e6),
  words: 'a number, such as 2.5',
  hint: '',
  inputmode: 'decimal',
};
