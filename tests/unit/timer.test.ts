/** Timers: quarter hours, midnight, clocks that are set, and those somebody forgot. */
import { describe, expect, it } from 'vitest';
import type { Person } from '#shared/contract/calendar.ts';
import { forgottenTimer } from '#shared/progress/forgotten.ts';
import { instantAt, civilMinute, ranFor, stopTimer } from '#shared/progress/timer.ts';
import { EVENINGS, makeBuild } from '../support/builds.ts';

const stop = (startedAt: string, at: string, elapsed: number | null = null, minutes?: number) =>
  stopTimer({ startedAt }, { at, elapsed }, minutes);

describe('a timer that is stopped', () => {
  it('should be rounded to the nearest quarter of an hour', () => {
    const rounded = (at: string) => stop('2027-03-09T18:26', `2027-03-09T${at}`).minutes;
    expect(['18:26', '18:33', '18:34', '19:54', '20:00'].map(rounded)).toEqual([0, 0, 15, 90, 90]);
  });

  it('should log nothing where it rounds to nothing, and what the builder puts right', () => {
    expect(stop('2027-03-09T18:26', '2027-03-09T18:30').days).toEqual([]);
    expect(stop('2027-03-09T18:26', '2027-03-09T18:30', null, 45)).toEqual({
      ran: 4,
      minutes: 45,
      days: [{ on: '2027-03-09', minutes: 45 }],
    });
    expect(stop('2027-03-09T18:26', '2027-03-09T19:00', null, 50).days).toEqual([
      { on: '2027-03-09', minutes: 50 },
    ]);
  });

  it('should be split at midnight, in quarters that add up to the whole', () => {
    // 22:50 to 00:20 is 1 h 30: six quarters, of which 70 of 90 minutes lie before midnight: 4.67 and 1.33.
    expect(stop('2027-03-09T22:50', '2027-03-10T00:20').days).toEqual([
      { on: '2027-03-09', minutes: 75 },
      { on: '2027-03-10', minutes: 15 },
    ]);
    expect(stop('2027-03-09T22:00', '2027-03-10T00:00').days).toEqual([{ on: '2027-03-09', minutes: 120 }]);
    expect(stop('2026-12-31T23:00', '2027-01-01T01:00').days.map(({ on }) => on)).toEqual([
      '2026-12-31',
      '2027-01-01',
    ]);
  });

  it('should count a night in which clocks are set by the minutes that went by, not by the clock on the wall', () => {
    // Clocks go from 02:00 to 03:00: from 00:00 to 04:00 only three hours went by.
    expect(stop('2027-03-28T00:00', '2027-03-28T04:00', 180)).toMatchObject({ ran: 180, minutes: 180 });
    // Clocks go back from 03:00 to 02:00: from 22:00 to 02:30 the second time, five hours and a half.
    expect(stop('2026-10-24T22:00', '2026-10-25T02:30', 330).days).toEqual([
      { on: '2026-10-24', minutes: 120 },
      { on: '2026-10-25', minutes: 210 },
    ]);
  });

  it('should not believe a clock that was plainly wrong, nor count backwards', () => {
    expect(ranFor({ startedAt: '2027-03-09T18:00' }, { at: '2027-03-09T20:00', elapsed: 100_000 })).toBe(120);
    expect(stop('2027-03-09T18:00', '2027-03-09T17:00')).toEqual({ ran: 0, minutes: 0, days: [] });
  });

  it('should give no day more than 24 hours', () => {
    expect(stop('2026-10-25T00:00', '2026-10-26T00:00', 1500).days).toEqual([
      { on: '2026-10-25', minutes: 1440 },
    ]);
  });

  it('should write and read the same instant', () => {
    for (const text of ['2027-03-09T18:26', '2026-12-31T23:59', '1999-01-01T00:00'])
      expect(instantAt(civilMinute(text))).toBe(text);
  });
});

describe('a forgotten timer', () => {
  // Tuesday and Thursday 18:30 to 21:00, Saturday 9:00 to 12:30 and 13:30 to 17:00. 2027-03-09 is a Tuesday.
  const tor = person({ week: EVENINGS });
  const ask = (startedAt: string, now: string, who = tor) => forgottenTimer({ startedAt }, who, now);

  it('should not be asked about while its window lasts, nor in the hour after', () => {
    expect(ask('2027-03-09T18:26', '2027-03-09T21:00')).toBeNull();
    expect(ask('2027-03-09T18:26', '2027-03-09T22:00')).toBeNull();
  });

  it('should be taken for stopped at the end of the window after that', () => {
    expect(ask('2027-03-09T18:26', '2027-03-09T22:01')).toEqual({
      stoppedAt: '2027-03-09T21:00',
      why: 'window',
    });
  });

  it('should be said to have run into another day', () => {
    expect(ask('2027-03-09T18:26', '2027-03-10T07:30')).toEqual({
      stoppedAt: '2027-03-09T21:00',
      why: 'night',
    });
  });

  it('should go on over lunch, which ends no sitting', () => {
    expect(ask('2027-03-13T09:00', '2027-03-13T17:30')).toBeNull();
    expect(ask('2027-03-13T09:00', '2027-03-13T18:30')?.stoppedAt).toBe('2027-03-13T17:00');
  });

  it('should be given the longest of the sittings where it was started at another time', () => {
    // The longest sitting of the week is Saturday's, eight hours with lunch.
    expect(ask('2027-03-10T08:00', '2027-03-10T16:30')).toBeNull();
    expect(ask('2027-03-10T08:00', '2027-03-10T17:01')).toEqual({
      stoppedAt: '2027-03-10T16:00',
      why: 'sitting',
    });
  });

  it('should not be taken for stopped within minutes when it was started at the end of a window', () => {
    expect(ask('2027-03-09T20:50', '2027-03-09T22:30')).toBeNull();
  });

  it('should follow a window that goes on after midnight', () => {
    const owl = person({ week: { tue: ['22:00-24:00'], wed: ['00:00-02:00'] } });
    expect(ask('2027-03-09T22:00', '2027-03-10T02:30', owl)).toBeNull();
    expect(ask('2027-03-09T22:00', '2027-03-10T03:30', owl)?.stoppedAt).toBe('2027-03-10T02:00');
  });

  it('should follow the windows of an exceptional day', () => {
    const free = person({
      week: EVENINGS,
      exceptions: [{ from: '2027-03-09', to: '2027-03-09', windows: ['08:00-19:00'] }],
    });
    expect(ask('2027-03-09T18:00', '2027-03-09T20:30', free)?.stoppedAt).toBe('2027-03-09T19:00');
  });

  it('should give four hours to somebody who has no windows at all', () => {
    const guest = person({ week: {} });
    expect(ask('2027-03-09T10:00', '2027-03-09T14:30', guest)).toBeNull();
    expect(ask('2027-03-09T10:00', '2027-03-09T15:30', guest)?.stoppedAt).toBe('2027-03-09T14:00');
  });
});

// Helpers

function person(more: object): Person {
  return makeBuild({ people: [{ key: 'tor', name: 'Tor', ...more }] }).people[0]!;
}
