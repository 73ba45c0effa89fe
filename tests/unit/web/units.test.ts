/** Masses and lengths at the edges: what is typed in pounds and inches is stored in whole grams and millimetres, and comes back. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lengthIn, massIn } from '../../../web/src/controls/measures.ts';
import { lengthWords, massFigure, massWords } from '../../../web/src/drawing/units.ts';

const INCHES = lengthIn('imperial');
const POUNDS = massIn('imperial');
const shownAgain = ({ read, write }: typeof INCHES, text: string) => write(read(text)!);

describe('the units of a build', () => {
  it('should store whole millimetres and grams, and show what was typed', () => {
    expect(INCHES.read('12.5')).toBe(318); // 317.5
    expect(shownAgain(INCHES, '12.5')).toBe('12.5');
    expect(POUNDS.read('12.5')).toBe(5670); // 5,669.9
    expect(shownAgain(POUNDS, '12.5')).toBe('12.5');
    expect(massIn('metric').read('12.5')).toBe(12_500);
    expect(lengthIn('metric').read('318')).toBe(318);
  });

  it('should read inches as they stand on a tape', () => {
    expect(['12 1/2', '12-1/2', '1/2', '-3 1/4', '12,5', '5/8'].map(INCHES.read)).toEqual([
      318, 318, 13, -83, 318, 16,
    ]);
    expect(['12 1/3', '1/0', '12 1/2 1/2', '12.5.1', 'long', '', '12"'].map(INCHES.read)).toEqual(
      Array(7).fill(null),
    );
    // A fraction is nothing for the other units: 12 1/2 must not become 121/2 of anything.
    for (const measure of [POUNDS, massIn('metric'), lengthIn('metric')])
      expect(measure.read('12 1/2')).toBeNull();
  });

  it('should show any tenth and quarter of an inch, and any hundredth of a pound, as it was typed', () => {
    const parts = fc.tuple(fc.integer({ min: 0, max: 400_000 }), fc.constantFrom(4, 10));
    fc.assert(
      fc.property(parts, ([many, of]) => {
        expect(shownAgain(INCHES, String(many / of))).toBe(String(many / of));
      }),
    );
    fc.assert(
      fc.property(fc.integer({ min: -1_000_000, max: 10_000_000 }), (hundredths) => {
        expect(shownAgain(POUNDS, String(hundredths / 100))).toBe(String(hundredths / 100));
      }),
    );
  });

  it('should keep what is stored when a form is opened and what it shows is typed again', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1_000_000, max: 100_000_000 }), (stored) => {
        for (const measure of [INCHES, POUNDS, massIn('metric'), lengthIn('metric')])
          expect(measure.read(measure.write(stored))).toBe(stored);
      }),
    );
  });

  it('should be said in words, whole from a hundred on', () => {
    expect([
      massWords(1_493_400, 'metric'),
      massWords(8100, 'metric'),
      massFigure(-52_000, 'metric'),
    ]).toEqual(['1\u2009493\u2009kg', '8.1\u2009kg', '−52']);
    expect([
      massWords(1_493_400, 'imperial'),
      massWords(8100, 'imperial'),
      massWords(null, 'imperial'),
    ]).toEqual(['3\u2009292\u2009lb', '17.9\u2009lb', 'not known']);
    expect([
      lengthWords(3640, 'metric'),
      lengthWords(3640, 'imperial'),
      lengthWords(-318, 'imperial'),
    ]).toEqual(['3\u2009640 mm', '143.3 in', '−12.5 in']);
  });
});
