import { describe, expect, it } from 'vitest';
import {
  addDays,
  daysBetween,
  dayWords,
  duration,
  hours,
  inDays,
  list,
  money,
  roughDay,
  waitWords,
} from '../../../web/src/drawing/words.ts';

const THIN = '\u2009';

describe('days in words', () => {
  it('should name the weekday, and the year only where it is another one', () => {
    expect(dayWords('2027-03-13', '2027-03-09')).toBe('Sat 13 Mar');
    expect(dayWords('2028-06-03T09:00', '2027-03-09')).toBe('Sat 3 Jun 2028');
  });

  it('should grow rougher with distance: the day within a quarter, then the month, then its year', () => {
    expect(roughDay('2027-06-09', '2027-03-09')).toBe('9 Jun');
    expect(roughDay('2027-06-10', '2027-03-09')).toBe('Jun');
    expect(roughDay('2028-04-01', '2027-03-09')).toBe('Apr 2028');
  });

  it('should count days over a leap day and the turn of a year', () => {
    expect(daysBetween('2028-02-28', '2028-03-01')).toBe(2);
    expect(addDays('2027-12-31', 1)).toBe('2028-01-01');
    expect([0, 1, -1, 12, -3].map(inDays)).toEqual([
      'today',
      'tomorrow',
      'yesterday',
      'in 12 days',
      '3 days ago',
    ]);
  });
});

describe('hours in words', () => {
  it('should say minutes below an hour and no empty minutes', () => {
    expect([0, 45, 60, 195, 60 * 1981].map(duration)).toEqual([
      '0 min',
      '45 min',
      '1 h',
      '3 h 15',
      `1${THIN}981 h`,
    ]);
  });

  it('should round to a tenth of an hour in tables', () => {
    expect([2160, 930, 118_860, 7].map(hours)).toEqual(['36', '15.5', `1${THIN}981`, '0.1']);
  });

  it('should say a wait in days only where it is whole days', () => {
    expect([720, 1440, 2880, 3000].map(waitWords)).toEqual(['12 h', '24 h', '2 days', '50 h']);
  });
});

describe('money in words', () => {
  it('should put the sign before the figure and thin spaces between thousands', () => {
    expect(money(2_361_000, 'EUR')).toBe(`€${THIN}23${THIN}610`);
    expect(money(-5_050, 'EUR', { exact: true })).toBe(`−€${THIN}50.50`);
  });

  it('should follow the decimals of the currency (ISO 4217)', () => {
    expect(money(1500, 'JPY')).toBe(`¥${THIN}1${THIN}500`);
    expect(money(1_234_500, 'KWD', { exact: true })).toBe(`KWD${THIN}1${THIN}234.500`);
  });
});

describe('lists in words', () => {
  it('should join with commas and one "and"', () => {
    expect([[], ['a'], ['a', 'b'], ['a', 'b', 'c']].map(list)).toEqual(['', 'a', 'a and b', 'a, b and c']);
  });
});
