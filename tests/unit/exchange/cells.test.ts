/** Cells as people type them: amounts, times and days, in the ways of several countries. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as cells from '#shared/exchange/cells.ts';
import { CellFault, type Cell, type Context } from '#shared/exchange/cells.ts';
import { makeBuild, task } from '../../support/builds.ts';

const file = makeBuild({
  tasks: [
    task('pull', 60, { name: 'Pull the cables' }),
    task('a', 60, { name: 'Twin' }),
    task('b', 60, { name: 'twin' }),
  ],
});
const context: Context = { file, digits: 2 };

function read(cell: Cell, text: string, digits = 2): unknown {
  const value = cell.read(text, { file, digits });
  return value instanceof CellFault ? value.detail : value;
}

describe('an amount', () => {
  it.each([
    ['3.90', 390],
    ['3,9', 390],
    ['1 234,50', 123_450],
    ['1.234,50', 123_450],
    ['1,234.50', 123_450],
    ["1'234.50", 123_450],
    ['€ 12', 1200],
    ['12,00 EUR', 1200],
    ['1.234.567', 123_456_700],
    ['0,005', 'is "0,005": it must have 2 decimals at most'],
    ['3.900', 'is "3.900", which can be read in two ways: write 3900 or 3.9000'],
    ['1,234', 'is "1,234", which can be read in two ways: write 1234 or 1.2340'],
    ['12.34.5', 'is "12.34.5": it must be an amount, such as 120.50 or 1 200'],
    ['three', 'is "three": it must be an amount, such as 120.50 or 1 200'],
  ])('should be understood or refused: %s', (text, value) => {
    expect(read(cells.MONEY, text)).toBe(value);
  });

  it('should have the decimals of its currency', () => {
    expect(read(cells.MONEY, '1200', 0)).toBe(1200);
    expect(read(cells.MONEY, '12.50', 0)).toBe('is "12.50": it must have no decimals');
    expect(read(cells.MONEY, '1.2345', 3)).toBe('is "1.2345": it must have 3 decimals at most');
  });

  it('should never be off by a cent', () => {
    expect(read(cells.MONEY, '1.15')).toBe(115);
    expect(read(cells.MONEY, '9999999999.99')).toBe(999_999_999_999);
  });
});

describe('a time', () => {
  it.each([
    ['7:45', 465],
    ['7.75', 465],
    ['7,75 h', 465],
    ['30:00', 1800],
    ['07:45:00', 465],
    ['2 d', 2880],
    ['100:30', 6030],
    ['quarter past', 'is "quarter past": it must be hours and minutes, such as 7:45 or 7.75'],
  ])('should be understood or refused: %s', (text, value) => {
    expect(read(cells.TIME, text)).toBe(value);
  });
});

describe('a day', () => {
  it.each([
    ['2027-03-13', '2027-03-13'],
    ['13.03.2027', '2027-03-13'],
    ['13.3.2027', '2027-03-13'],
    ['13/03/2027', '2027-03-13'],
    ['03/13/2027', '2027-03-13'],
    ['2199-12-31', '2199-12-31'],
    ['2028-02-29', '2028-02-29'],
    ['03/04/2027', 'is "03/04/2027": it must be a day, written 2027-03-13'],
    ['2027-02-29', 'is "2027-02-29": it must be a day, written 2027-03-13'],
    ['9999-01-01', 'is "9999-01-01": it must be a day, written 2027-03-13'],
    ['tomorrow', 'is "tomorrow": it must be a day, written 2027-03-13'],
  ])('should be understood or refused: %s', (text, value) => {
    expect(read(cells.DAY, text)).toBe(value);
  });

  it('should have a time where a moment is asked for', () => {
    expect(read(cells.MOMENT, '2027-03-13 9:05')).toBe('2027-03-13T09:05');
    expect(read(cells.MOMENT, '13.03.2027 18:30:00')).toBe('2027-03-13T18:30');
    expect(read(cells.MOMENT, '2027-03-13')).toMatch(/it must be a day and a time/);
  });
});

describe('a record that is named', () => {
  const TASK = cells.reference('tasks');

  it('should be found by its key, or by its name where only one has it', () => {
    expect(read(TASK, 'pull')).toBe('pull');
    expect(read(TASK, ' pull the cables ')).toBe('pull');
    expect(read(cells.references('tasks'), 'pull; a')).toEqual(['pull', 'a']);
  });

  it('should be refused where none has it, or two', () => {
    expect(read(TASK, 'nobody')).toBe('is "nobody": there is no task of that key or name');
    expect(read(TASK, 'Twin')).toBe('is "Twin", the name of 2: use a key, a or b');
    expect(read(TASK, 'constructor')).toMatch(/there is no task/);
  });
});

describe('whatever is written', () => {
  const roundTrip = <T>(cell: Cell, value: fc.Arbitrary<T>, digits = 2) =>
    fc.assert(
      fc.property(value, (one) => {
        const text = cell.write(one as never, { ...context, digits });
        expect(cell.read(text, { ...context, digits })).toEqual(one);
      }),
    );

  it('should be read back as the same value', () => {
    roundTrip(cells.MONEY, fc.integer({ min: 0, max: 1_000_000_000_000 }));
    roundTrip(cells.MONEY, fc.integer({ min: 0, max: 1_000_000_000_000 }), 3);
    roundTrip(cells.MONEY, fc.integer({ min: 0, max: 1_000_000_000_000 }), 0);
    roundTrip(cells.KILOGRAMS, fc.integer({ min: 0, max: 100_000_000 }));
    roundTrip(cells.WHOLE, fc.integer({ min: -30_000, max: 30_000 }));
    roundTrip(cells.NUMBER, fc.double({ min: 1e-9, max: 1_000_000, noNaN: true }));
    roundTrip(cells.TIME, fc.integer({ min: 0, max: 527_040 }));
    roundTrip(cells.FLAG, fc.boolean());
    roundTrip(cells.SIZE, fc.tuple(...[1, 2, 3].map(() => fc.integer({ min: 1, max: 30_000 }))));
  });
});
