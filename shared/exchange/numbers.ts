/**
 * Numbers as tables write them: a decimal point or a comma, thousands parted by points, commas, spaces or apostrophes, a
 * currency beside them. Read digit by digit, so that no amount passes through a fraction that cannot hold it.
 */

/** Digits without a sign before and after the decimal point. */
interface Decimal {
  readonly sign: '' | '-';
  readonly whole: string;
  readonly part: string;
}

const CURRENCY = /^(?:\p{Sc}|[A-Z]{3}(?![A-Za-z]))|(?:\p{Sc}|[A-Z]{3})$/gu;
const SPACES = /[\s\u00A0\u2009\u202F'’]/g;

/** "1,234" may be a thousand and more or one and a bit; null for what is no number. */
export function readDecimal(text: string): Decimal | 'ambiguous' | null {
  const bare = text.trim().replaceAll(CURRENCY, '').replaceAll(SPACES, '').replace('−', '-');
  const found = /^([+-]?)([\d.,]*\d)$/.exec(bare);
  if (found === null) return null;
  const sign = found[1] === '-' ? '-' : '';
  const digits = found[2]!;
  const marks = [...digits].filter((one) => one === '.' || one === ',');
  const kinds = new Set(marks);
  if (marks.length === 0) return { sign, whole: digits, part: '' };
  const last = marks.at(-1)!;
  const other = last === '.' ? ',' : '.';
  if (kinds.size === 2) {
    const [whole = '', ...parts] = digits.split(last);
    return parts.length === 1 && isGrouped(whole, other)
      ? { sign, whole: whole.replaceAll(other, ''), part: parts[0]! }
      : null;
  }
  if (marks.length > 1)
    return isGrouped(digits, last) ? { sign, whole: digits.replaceAll(last, ''), part: '' } : null;
  const [whole = '', part = ''] = digits.split(last);
  if (part.length === 3 && /^[1-9]\d{0,2}$/.test(whole)) return 'ambiguous';
  return { sign, whole: whole || '0', part };
}

function isGrouped(digits: string, mark: string): boolean {
  const [first = '', ...rest] = digits.split(mark);
  return /^\d{1,3}$/.test(first) && rest.every((group) => /^\d{3}$/.test(group));
}

/** As whole parts of a unit: "3,9" with two digits is 390. @returns null where it is finer than that */
export function scaledBy(digits: number, { sign, whole, part }: Decimal): number | null {
  if (/[1-9]/.test(part.slice(digits))) return null;
  return Number(`${sign}${whole}${part.slice(0, digits).padEnd(digits, '0')}`);
}

export function asNumber({ sign, whole, part }: Decimal): number {
  return Number(`${sign}${whole}.${part || '0'}`);
}

/** With a point, and never so that it could be read as a thousand: 1.234 is written 1.2340. */
export function writeScaled(value: number, digits: number): string {
  const text = String(Math.abs(value)).padStart(digits + 1, '0');
  const whole = text.slice(0, text.length - digits);
  const part = text.slice(text.length - digits);
  return `${value < 0 ? '-' : ''}${joined(whole, digits === 0 ? '' : part)}`;
}

/** A number that is no amount: as short as it can be told apart. */
export function writeNumber(value: number): string {
  const text = String(value);
  const [whole = '', part = ''] = text.split('.');
  return text.includes('e') ? text : joined(whole, part);
}

function joined(whole: string, part: string): string {
  if (part === '') return whole;
  return `${whole}.${part}${part.length === 3 && /^[1-9]\d{0,2}$/.test(whole) ? '0' : ''}`;
}
