import { describe, expect, it } from 'vitest';
import {
  monthStarts,
  onYearLine,
  readYearly,
  writeYearly,
  yearlyWords,
} from '../../../web/src/controls/month-days.ts';
import { readClock } from '../../../web/src/controls/windows.ts';

describe('days of every year', () => {
  it('should lie on the line of a year as one piece, or as two over New Year', () => {
    expect(onYearLine(readYearly('01-01..12-31'))).toEqual([{ start: 0, end: 1 }]);
    const winter = onYearLine(readYearly('11-15..03-15'));
    expect(winter).toHaveLength(2);
    expect(winter[0]!.start).toBe(0);
    expect(winter[1]!.end).toBe(1);
    expect(winter[0]!.end).toBeCloseTo(75 / 366);
  });

  it('should be read, written and said', () => {
    expect(writeYearly(readYearly('11-15..03-15'))).toBe('11-15..03-15');
    expect(yearlyWords('11-15..03-15')).toBe('15 Nov to 15 Mar');
    expect(monthStarts()).toHaveLength(12);
    expect(monthStarts()[2]).toBeCloseTo(60 / 366);
  });
});

describe('a time of the day as it is typed', () => {
  it('should be read with or without its colon, up to midnight', () => {
    expect(['18:30', '1830', '9', '24:00', '00:15'].map(readClock)).toEqual([1110, 1110, 540, 1440, 15]);
    expect(['25', '9:75', '24:15', 'noon', ''].map(readClock)).toEqual([null, null, null, null, null]);
  });
});
