/** Sentences about any hours: shared out to the minute, and never counted twice over midnight or a clock change. */
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { wagtail } from '#shared/demo/wagtail.ts';
import { computePlan } from '#shared/plan.ts';
import { rhythmOf } from '#shared/progress/rhythm.ts';
import { shareOut } from '#shared/progress/share-out.ts';
import { stopTimer, toQuarters } from '#shared/progress/timer.ts';
import { wentIn } from '#shared/progress/went-in.ts';

/** Places where clocks are set at different hours and by different amounts, and one where they never are. */
const ZONES = ['Europe/Berlin', 'Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Tokyo'];
const FIRST = Temporal.Instant.from('2026-01-01T00:00Z').epochMilliseconds / 60_000;

describe('a sum shared out', () => {
  it('should add up exactly, and give nobody more or less than a minute off their share', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 100_000 }),
        fc.array(fc.integer({ min: 0, max: 5_000_000 }), { minLength: 1, maxLength: 50 }),
        (total, weights) => {
          const parts = shareOut(total, weights);
          const sum = weights.reduce((a, b) => a + b, 0);
          expect(parts.reduce((a, b) => a + b, 0)).toBe(total);
          parts.forEach((part, i) => {
            const exact = sum === 0 ? total / weights.length : (total * weights[i]!) / sum;
            expect(Number.isInteger(part)).toBe(true);
            expect(Math.abs(part - exact)).toBeLessThan(1 + 1e-6);
          });
        },
      ),
    );
  });
});

describe('a timer over any stretch of time', () => {
  const stretch = fc.record({
    zone: fc.constantFrom(...ZONES),
    start: fc.integer({ min: 0, max: 2 * 365 * 1440 }),
    ran: fc.integer({ min: 0, max: 3 * 1440 }),
  });
  // Nights in which clocks are set are few: they are asked for as well.
  const setNight = fc.record({
    zone: fc.constantFrom('Europe/Berlin', 'Europe/London'),
    start: fc
      .tuple(
        fc.constantFrom('2026-03-28T18:00Z', '2026-10-24T18:00Z', '2027-03-27T18:00Z'),
        fc.integer({ min: 0, max: 600 }),
      )
      .map(([day, more]) => Temporal.Instant.from(day).epochMilliseconds / 60_000 - FIRST + more),
    ran: fc.integer({ min: 0, max: 900 }),
  });

  it('should log the time that went by, rounded once, however midnight and the clocks fall', () => {
    fc.assert(
      fc.property(fc.oneof(stretch, setNight), ({ zone, start, ran }) => {
        const from = wall(zone, FIRST + start);
        const to = wall(zone, FIRST + start + ran);
        const { minutes, days } = stopTimer({ startedAt: from }, { at: to, elapsed: ran });
        expect(minutes).toBe(toQuarters(ran));
        const sum = days.reduce((total, day) => total + day.minutes, 0);
        const isLongDay = days.some((day) => day.minutes === 1440);
        if (isLongDay) expect(sum).toBeLessThanOrEqual(minutes);
        else expect(sum).toBe(minutes);
        for (const { on, minutes: part } of days) {
          expect(part).toBeLessThanOrEqual(1440);
          expect(part % 15).toBe(0);
          expect(on >= from.slice(0, 10) && on <= to.slice(0, 10)).toBe(true);
        }
        expect(new Set(days.map(({ on }) => on)).size).toBe(days.length);
      }),
    );
  });

  it('should give no day more than the wall clock says was worked on it, but for its rounding', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1439 }), fc.integer({ min: 0, max: 5000 }), (start, ran) => {
        const at = (minute: number) => wall('UTC', FIRST + minute);
        const { days } = stopTimer({ startedAt: at(start) }, { at: at(start + ran), elapsed: null });
        days.forEach(({ on, minutes }) => {
          const midnight = Temporal.PlainDate.from(on).since('2026-01-01').days * 1440;
          const worked = Math.min(start + ran, midnight + 1440) - Math.max(start, midnight);
          expect(Math.abs(minutes - worked)).toBeLessThan(23);
        });
      }),
    );
  });
});

describe('hours in any order', () => {
  it('should give the same weeks, days and rhythm however the records stand', () => {
    const file = wagtail();
    const plan = computePlan(file, { now: file.build.asOf! });
    const expected = rhythmOf(file, plan);
    const march = wentIn(file, '2027-02-01', '2027-02-28');
    fc.assert(
      fc.property(
        fc.shuffledSubarray(file.hours, { minLength: file.hours.length }),
        fc.shuffledSubarray(file.people, { minLength: file.people.length }),
        (hours, people) => {
          const now = rhythmOf({ ...file, hours, people }, plan);
          expect(now.worked.map(({ from, total }) => [from, total])).toEqual(
            expected.worked.map(({ from, total }) => [from, total]),
          );
          expect([now.lately, now.asks, now.parted, now.planned]).toEqual([
            expected.lately,
            expected.asks,
            expected.parted,
            expected.planned,
          ]);
          const again = wentIn({ ...file, hours }, '2027-02-01', '2027-02-28');
          expect([again.minutes, again.finished, Object.fromEntries(again.byPerson)]).toEqual([
            march.minutes,
            march.finished,
            Object.fromEntries(march.byPerson),
          ]);
        },
      ),
      { numRuns: 20 },
    );
  });
});

// Helpers

/** The clock on the wall of a place at a minute since 1970-01-01T00:00Z. */
function wall(zone: string, minute: number): string {
  return Temporal.Instant.fromEpochMilliseconds(minute * 60_000)
    .toZonedDateTimeISO(zone)
    .toPlainDateTime()
    .toString({ smallestUnit: 'minute' });
}
