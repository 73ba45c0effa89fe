import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HOURS, lengthIn, massIn, moneyIn, WAIT, WHOLE } from '../../../web/src/controls/measures.ts';

describe('measures of form fields', () => {
  it('should read hours as people write them', () => {
    const read = ['3 h 15', '3:15', '3h15', '2.5', '2,5 h', '45 min', '2 d', '1 d 4 h', '0'].map(HOURS.read);
    expect(read).toEqual([195, 195, 195, 150, 150, 45, 2880, 1680, 0]);
  });

  it('should refuse what is no time instead of guessing', () => {
    expect(['', 'soon', '3:75', '-1', '1e3', '3 h 15 h', 'NaN'].map(HOURS.read)).toEqual(Array(7).fill(null));
  });

  it('should refuse more decimals than the currency has', () => {
    expect(['120', '120.5', '120,50', '1 200.00', '120.505', '12.3.4', ''].map(moneyIn('EUR').read)).toEqual([
      12_000,
      12_050,
      12_050,
      120_000,
      null,
      null,
      null,
    ]);
    expect(moneyIn('JPY').read('120.5')).toBeNull();
    expect(moneyIn('KWD').read('1.234')).toBe(1234);
  });

  it.each([
    ['hours', HOURS, 527_040],
    ['a wait', WAIT, 527_040],
    ['kilograms', massIn('metric'), 100_000_000],
    ['pounds', massIn('imperial'), 100_000_000],
    ['millimetres', lengthIn('metric'), 100_000],
    ['inches', lengthIn('imperial'), 100_000],
    ['a whole number', WHOLE, 1_000_000],
    ['euros', moneyIn('EUR'), 1_000_000_000_000],
    ['yen', moneyIn('JPY'), 1_000_000_000_000],
    ['dinars', moneyIn('KWD'), 1_000_000_000_000],
  ] as const)('should read %s back as the number it wrote', (_name, measure, most) => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: most }), (value) => {
        expect(measure.read(measure.write(value))).toBe(value);
      }),
    );
  });
});
