import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CalendarException, Person } from '#shared/contract/calendar.ts';
import { personAvailability } from '#shared/time/availability.ts';
import { dayNumber, dayText } from '#shared/time/days.ts';
import { Patterns } from '#shared/time/patterns.ts';
import { exceptionOn, kindOn, monthOf, painted, windowsOn } from '../../../web/src/controls/exceptions.ts';

const AWAY = { windows: [], why: 'away' };
const FREE = { windows: ['09:00-17:00'], why: 'a free week' };

describe('days painted on a calendar', () => {
  it('should paint a stretch of days, also when drawn backwards', () => {
    const one = painted([], '2027-08-15', '2027-08-02', AWAY);
    expect(one).toEqual([{ from: '2027-08-02', to: '2027-08-15', ...AWAY }]);
  });

  it('should cut what was there and keep what stands outside', () => {
    const away = painted([], '2027-08-02', '2027-08-15', AWAY);
    expect(painted(away, '2027-08-05', '2027-08-06', FREE)).toEqual([
      { from: '2027-08-02', to: '2027-08-04', ...AWAY },
      { from: '2027-08-05', to: '2027-08-06', ...FREE },
      { from: '2027-08-07', to: '2027-08-15', ...AWAY },
    ]);
  });

  it('should rub out, and join days painted alike', () => {
    const away = painted([], '2027-08-02', '2027-08-10', AWAY);
    expect(painted(away, '2027-08-01', '2027-08-12', null)).toEqual([]);
    expect(
      painted(painted(away, '2027-08-05', '2027-08-05', null), '2027-08-05', '2027-08-05', AWAY),
    ).toEqual(away);
  });

  it('should tell a day of work, a day off, a day away and a free day apart', () => {
    const person = worker(
      painted(painted([], '2027-03-02', '2027-03-02', AWAY), '2027-03-05', '2027-03-05', FREE),
    );
    const days = ['2027-03-01', '2027-03-02', '2027-03-03', '2027-03-05', '2027-03-09'];
    expect(days.map((day) => kindOn(person, day))).toEqual(['off', 'away', 'off', 'free', 'works']);
  });

  it('should know the days of a month and where its week begins', () => {
    expect(monthOf(2028, 2).days).toHaveLength(29);
    expect(monthOf(2026, 12).days.at(-1)).toBe('2026-12-31');
    expect(monthOf(2026, 6).before).toBe(0);
  });

  const day = fc.integer({ min: 0, max: 40 }).map((n) => dayText(dayNumber('2027-03-01') + n));
  const exception = fc
    .tuple(
      day,
      day,
      fc.constantFrom<string[]>([], ['09:00-10:00'], ['12:00-13:00', '14:00-15:00']),
      fc.constantFrom('a', 'b'),
    )
    .map(([a, b, windows, why]): CalendarException => ({
      from: a < b ? a : b,
      to: a < b ? b : a,
      windows,
      why,
    }));

  it('should take overlapping exceptions as the plan does', () => {
    fc.assert(
      fc.property(fc.array(exception, { maxLength: 6 }), (exceptions) => {
        const patterns = new Patterns();
        const person = worker(exceptions);
        const from = dayNumber('2027-03-01');
        const days = personAvailability(person, { from, to: from + 41 }, patterns);
        days.forEach((pattern, i) => {
          const minutes = windowsOn(person, dayText(from + i)).map(
            (text) =>
              text.split('-').map((clock) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3))) as [
                number,
                number,
              ],
          );
          expect(patterns.of(minutes)).toBe(pattern);
        });
      }),
    );
  });

  it('should paint the days it was told and leave every other day as it was', () => {
    fc.assert(
      fc.property(fc.array(exception, { maxLength: 5 }), day, day, (exceptions, a, b) => {
        const after = painted(exceptions, a, b, AWAY);
        for (let n = 0; n <= 40; n++) {
          const one = dayText(dayNumber('2027-03-01') + n);
          const inside = (a <= one && one <= b) || (b <= one && one <= a);
          const holds = exceptionOn(after, one);
          if (inside) expect(holds?.why).toBe('away');
          else expect([holds?.windows, holds?.why]).toEqual(whatHolds(exceptions, one));
        }
      }),
    );
  });
});

// Helpers

function whatHolds(exceptions: readonly CalendarException[], day: string) {
  const one = exceptionOn(exceptions, day);
  return [one?.windows, one?.why];
}

function worker(exceptions: readonly CalendarException[]): Person {
  const none: string[] = [];
  const week = { mon: none, tue: ['18:30-21:00'], wed: none, thu: none, fri: none, sat: none, sun: none };
  return {
    key: 'a',
    name: 'A',
    sharedAs: null,
    byNameOnly: false,
    rate: 0,
    week,
    exceptions: [...exceptions],
  };
}
