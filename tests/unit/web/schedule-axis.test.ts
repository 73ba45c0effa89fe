import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayNumber } from '#shared/time/days.ts';
import { axisOf, GAP, panLimits, zoomLimits, type AxisRange } from '../../../web/src/views/schedule/axis.ts';
import { monthStarts, ticksOf } from '../../../web/src/views/schedule/ticks.ts';

describe('the axis in two scales', () => {
  it('should fit all that lies ahead at zoom 1, the near quarter by the day', () => {
    const axis = axisOf(RANGE, 900, 1);
    expect(axis.x(RANGE.to) - axis.x(RANGE.from)).toBeCloseTo(900, 6);
    expect(axis.near).toBeGreaterThan(4);
    expect(axis.far).toBeLessThan(1.2);
    expect(axis.gap).toBe(GAP);
  });

  it('should have no break where the plan ends within the quarter', () => {
    const axis = axisOf({ ...RANGE, to: RANGE.turn - 30 }, 900, 1);
    expect(axis.gap).toBe(0);
    expect(axis.near).toBe(axis.far);
  });

  it('should show the whole build when furthest out, in one scale or two', () => {
    fc.assert(
      fc.property(ranges, widths, (range, width) => {
        const { least } = zoomLimits(range, width);
        const axis = axisOf(range, width, least);
        expect(axis.x(range.to) - axis.x(range.first)).toBeLessThanOrEqual(width + 1e-6);
      }),
    );
  });

  it('should put a later day further right, at every zoom', () => {
    fc.assert(
      fc.property(ranges, widths, zooms, days, days, (range, width, zoom, a, b) => {
        const axis = axisOf(range, width, zoom);
        if (a < b) expect(axis.x(a)).toBeLessThan(axis.x(b));
      }),
    );
  });

  it('should find the day again from its place', () => {
    fc.assert(
      fc.property(ranges, widths, zooms, days, (range, width, zoom, day) => {
        const axis = axisOf(range, width, zoom);
        expect(axis.day(axis.x(day))).toBeCloseTo(day, 6);
      }),
    );
  });

  it('should be the same day anywhere within the break', () => {
    const axis = axisOf(RANGE, 900, 1);
    expect(axis.day(3)).toBe(RANGE.turn);
    expect(axis.day(GAP)).toBe(RANGE.turn);
    expect(axis.day(GAP + axis.far)).toBeCloseTo(RANGE.turn + 1, 6);
  });

  it('should never draw the far scale wider than the near one, and grow with every step closer', () => {
    fc.assert(
      fc.property(ranges, widths, zooms, zooms, (range, width, one, two) => {
        const [further, closer] = [
          axisOf(range, width, Math.min(one, two)),
          axisOf(range, width, Math.max(one, two)),
        ];
        for (const axis of [further, closer]) expect(axis.far).toBeLessThanOrEqual(axis.near + 1e-9);
        expect(closer.near).toBeGreaterThanOrEqual(further.near - 1e-9);
        expect(closer.far).toBeGreaterThanOrEqual(further.far - 1e-9);
      }),
    );
  });

  it('should let the paper move from the first day to the end and no further', () => {
    const axis = axisOf(RANGE, 900, 2);
    const { least, most } = panLimits(axis, 900);
    expect(axis.day(least)).toBeCloseTo(RANGE.first, 6);
    expect(axis.day(most + 900)).toBeCloseTo(RANGE.to, 6);
  });
});

describe('ticks', () => {
  it('should mark Mondays by the day of the month in the near scale', () => {
    const { minor } = ticksOf(axisOf(RANGE, 900, 1), dayNumber('2027-03-01'), dayNumber('2027-04-06'));
    expect(minor.map(({ label }) => label)).toEqual(['1', '8', '15', '22', '29', '5']);
  });

  it('should name each month at its first day, with the year first and in January', () => {
    const { major } = ticksOf(axisOf(RANGE, 900, 1), dayNumber('2027-02-22'), dayNumber('2027-05-20'));
    expect(major).toEqual([
      { day: dayNumber('2027-03-01'), label: 'March 2027' },
      { day: dayNumber('2027-04-01'), label: 'April' },
      { day: dayNumber('2027-05-01'), label: 'May' },
    ]);
  });

  it('should give every day its own tick close in, the 29th of February among them', () => {
    const range = {
      ...RANGE,
      turn: dayNumber('2028-06-05'),
      from: dayNumber('2028-02-21'),
      to: dayNumber('2028-12-01'),
    };
    const axis = axisOf(range, 900, 6);
    const { minor } = ticksOf(axis, dayNumber('2028-02-27'), dayNumber('2028-03-02'));
    expect(minor.map(({ label }) => label)).toEqual(['27', '28', '29', '1', '2']);
  });

  it('should set months and years in the far scale, none before the break', () => {
    const axis = axisOf(RANGE, 900, 1);
    const { minor, major } = ticksOf(axis, RANGE.from, RANGE.to);
    const far = minor.filter(({ day }) => day >= RANGE.turn);
    expect(far.map(({ day }) => day)).toEqual(monthStarts(RANGE.turn, RANGE.to));
    expect(far[0]).toEqual({ day: dayNumber('2027-07-01'), label: 'Jul' });
    expect(major.at(-1)).toEqual({ day: dayNumber('2028-01-01'), label: '2028' });
  });

  it('should know the first of every month between two days, both counted', () => {
    expect(monthStarts(dayNumber('2028-01-31'), dayNumber('2028-03-01'))).toEqual([
      dayNumber('2028-02-01'),
      dayNumber('2028-03-01'),
    ]);
    expect(monthStarts(dayNumber('2027-12-02'), dayNumber('2027-12-31'))).toEqual([]);
  });
});

// Helpers

const RANGE: AxisRange = {
  first: dayNumber('2026-06-06'),
  from: dayNumber('2027-02-22'),
  turn: dayNumber('2027-06-07'),
  to: dayNumber('2028-08-21'),
};

const widths = fc.integer({ min: 160, max: 2400 });
const zooms = fc.double({ min: 0.01, max: 60, noNaN: true });
const days = fc.double({ min: 19_000, max: 24_000, noNaN: true });
const ranges = fc
  .record({
    first: fc.integer({ min: 20_000, max: 20_500 }),
    past: fc.integer({ min: 0, max: 900 }),
    quarter: fc.integer({ min: 91, max: 105 }),
    ahead: fc.integer({ min: -60, max: 1500 }),
  })
  .map(({ first, past, quarter, ahead }): AxisRange => ({
    first,
    from: first + past,
    turn: first + past + quarter,
    to: first + past + quarter + ahead,
  }));
