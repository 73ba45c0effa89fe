/**
 * Masses and lengths in the units of a build. Stored are whole grams and millimetres; here, and nowhere else, they become
 * kilograms and millimetres or pounds and inches, and back. What is shown to be typed over is the shortest decimal that
 * means the same grams or millimetres, so that a form that is only opened and saved changes nothing.
 */
import type { BuildHead } from '#shared/contract/build.ts';
import { grouped } from './words.ts';

export type Units = BuildHead['units'];

export interface Scale {
  readonly symbol: string;
  /** Grams or millimetres in one. A pound is 453.59237 g, an inch 25.4 mm, both exactly (agreed in 1959; from memory). */
  readonly size: number;
  /** How fine it is written, coarsest first, in parts of one; the last tells every gram or millimetre apart. */
  readonly parts: readonly number[];
}

const DECIMALS = [1, 10, 100, 1000];
const MASS: Readonly<Record<Units, Scale>> = {
  metric: { symbol: 'kg', size: 1000, parts: DECIMALS },
  imperial: { symbol: 'lb', size: 453.59237, parts: DECIMALS },
};
const LENGTH: Readonly<Record<Units, Scale>> = {
  metric: { symbol: 'mm', size: 1, parts: [1] },
  // Quarters and eighths, as on a tape, before hundredths.
  imperial: { symbol: 'in', size: 25.4, parts: [1, 4, 10, 8, 100] },
};

const THIN = '\u2009';
const NOT_KNOWN = 'not known';
/** From so many on a mass is shown without decimals. */
const HEAVY = 99.95;

export function massScale(units: Units): Scale {
  return MASS[units];
}

export function lengthScale(units: Units): Scale {
  return LENGTH[units];
}

/** Whole grams or millimetres, rounded half away from zero. */
export function toStored(shown: number, { size }: Scale): number {
  const stored = Math.round(Math.abs(shown) * size);
  return shown < 0 && stored !== 0 ? -stored : stored;
}

/** The shortest decimal that means just so many grams or millimetres: 318 mm are 12.5 in. No unit. */
export function exactly(stored: number, scale: Scale): string {
  const shown = stored / scale.size;
  for (const parts of scale.parts) {
    const near = Math.round(shown * parts) / parts;
    if (toStored(near, scale) === stored) return String(near);
  }
  return String(shown);
}

/** "1 493", "8.1", "−52": whole from a hundred on, else with one decimal; no unit. Null is "not known". */
export function massFigure(grams: number | null, units: Units): string {
  if (grams === null || Number.isNaN(grams)) return NOT_KNOWN;
  const shown = Math.abs(grams) / MASS[units].size;
  return signedText(grams, shown.toFixed(shown < HEAVY ? 1 : 0).replace(/\.0$/, ''));
}

/** "1 493 kg", or "not known". */
export function massWords(grams: number | null, units: Units): string {
  return grams === null ? NOT_KNOWN : `${massFigure(grams, units)}${THIN}${MASS[units].symbol}`;
}

/** "3 640", "−143.3"; no unit. */
export function lengthFigure(millimetres: number, units: Units): string {
  return signedText(millimetres, exactly(Math.abs(millimetres), LENGTH[units]));
}

/** "3 640 mm", "143.3 in". */
export function lengthWords(millimetres: number, units: Units): string {
  return `${lengthFigure(millimetres, units)} ${LENGTH[units].symbol}`;
}

function signedText(of: number, size: string): string {
  const [whole = '0', part] = size.split('.');
  const text = grouped(Number(whole)) + (part === undefined ? '' : `.${part}`);
  return of < 0 && size !== '0' ? `−${text}` : text;
}
