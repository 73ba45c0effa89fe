import { describe, expect, it } from 'vitest';
import { byDay, lately, workedWeeks } from '../../../web/src/views/hours/hours-rows.ts';
import { makeBuild } from '../../support/builds.ts';

const BUILD = makeBuild({
  people: [
    { key: 'a', name: 'A' },
    { key: 'b', name: 'B' },
  ],
  hours: [
    { key: 'h1', person: 'a', on: '2026-06-01', minutes: 60 },
    { key: 'h2', person: 'b', on: '2026-06-07', minutes: 90 },
    { key: 'h3', person: 'a', on: '2026-06-16', minutes: 120 },
    { key: 'h4', person: 'a', on: '2026-06-16', minutes: 30 },
  ],
});

describe('hours on their sheet', () => {
  it('should sum each week from Monday to Sunday by person, empty weeks too', () => {
    const weeks = workedWeeks(BUILD, '2026-06-24');
    expect(weeks.map(({ from, total }) => [from, total])).toEqual([
      ['2026-06-01', 150],
      ['2026-06-08', 0],
      ['2026-06-15', 150],
      ['2026-06-22', 0],
    ]);
    expect([...weeks[0]!.by]).toEqual([
      ['a', 60],
      ['b', 90],
    ]);
  });

  it('should take the mean of the full weeks, without the running one', () => {
    expect(lately(workedWeeks(BUILD, '2026-06-24'))).toBe(100);
    expect(lately(workedWeeks(BUILD, '2026-06-24'), 2)).toBe(75);
    expect(lately([])).toBe(0);
  });

  it('should list the latest day first with its sum', () => {
    expect(byDay(BUILD.hours).map(({ day, minutes, entries }) => [day, minutes, entries.length])).toEqual([
      ['2026-06-16', 150, 2],
      ['2026-06-07', 90, 1],
      ['2026-06-01', 60, 1],
    ]);
  });
});
