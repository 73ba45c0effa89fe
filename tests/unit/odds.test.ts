/** The odds by example: what varies, what stays, and what is said where nothing is known. */
import { describe, expect, it } from 'vitest';
import { Value } from 'typebox/value';
import { Odds } from '#shared/contract/plan-odds.ts';
import { oddsOf } from '#shared/odds/odds.ts';
import { computePlan } from '#shared/plan.ts';
import { firstMeeting, lastMeeting } from '#shared/odds/overlap.ts';
import { paceSigmaOf } from '#shared/odds/uncertain.ts';
import { basisOf } from '#shared/schedule/basis.ts';
import type { WorkingSet } from '#shared/time/working-set.ts';
import { ALL_WEEK, EVENINGS, link, makeBuild, NOW, START, task } from '../support/builds.ts';

const DAY = 1440;
const still = { now: NOW, trials: 400, seed: 1, paceSigma: 0 };

describe('what is drawn', () => {
  it('should be the pace too, the less of it the more is finished', () => {
    expect(paceSigmaOf(0)).toBe(0.3);
    expect(paceSigmaOf(100 * 60)).toBeCloseTo(0.3 / Math.SQRT2, 12);
    const done = { state: 'finished', startedAt: `${START}T00:00`, finishedAt: `${START}T00:00` };
    const file = makeBuild({ tasks: [task('a', 300 * 60, done), task('b', 60)] });
    const odds = oddsOf(file, { now: NOW, trials: 10, seed: 1 });
    expect(odds.paceSigma).toBeCloseTo(0.15, 12);
  });

  it('should be what is left of a started task, not the whole of it', () => {
    const file = makeBuild({
      tasks: [
        {
          key: 'a',
          name: 'A',
          minutes: { low: 500, likely: 1000, high: 1500 },
          state: 'started',
          startedAt: `${START}T00:00`,
          remainingMinutes: 100,
        },
      ],
    });
    const { finishCurve, plan } = oddsOf(file, still);
    expect(plan.minutesFromStart).toBe(100);
    expect(finishCurve[0]!).toBeGreaterThanOrEqual(50);
    expect(finishCurve[100]!).toBeLessThanOrEqual(150);
  });

  it('should leave a task of no minutes at none, and a certain one as it is', () => {
    const file = makeBuild({
      tasks: [{ key: 'a', name: 'A', minutes: { low: 0, likely: 0, high: 600 } }, task('b', 90)],
    });
    expect(oddsOf(file, still).minutesFromStart).toMatchObject({ p10: 90, p90: 90, sd: 0 });
  });
});

describe('parts', () => {
  const waiting = (purchase: object) =>
    makeBuild({
      tasks: [task('a', 60)],
      purchases: [
        { key: 'p', lines: [{ key: 'l', name: 'Batts', quantity: 1, neededBy: ['a'] }], ...purchase },
      ],
    });

  it('should come between their lead days and the bad ones, by the day', () => {
    const { finishCurve, drivers } = oddsOf(waiting({ leadDays: 3, leadDaysBad: 9 }), still);
    const days = finishCurve.map((at) => (at! - 60) / DAY);
    expect(days.every((day) => Number.isInteger(day))).toBe(true);
    expect(Math.min(...days)).toBe(4);
    expect(Math.max(...days)).toBeLessThanOrEqual(10);
    expect(Math.max(...days)).toBeGreaterThan(7);
    expect(drivers[0]).toMatchObject({ task: 'a', help: 'part', purchase: 'p', waitsFor: { part: 1 } });
    expect(drivers[0]!.words).toContain('“Batts”');
  });

  it('should be late from the promised day on, and one that is overdue never before today', () => {
    const ordered = (promisedOn: string) =>
      oddsOf(
        waiting({ state: 'ordered', orderedOn: '2026-05-10', promisedOn, leadDays: 2, leadDaysBad: 6 }),
        still,
      ).finishCurve;
    expect(ordered('2026-06-05')[0]).toBe(5 * DAY + 60);
    expect(ordered('2026-06-05')[100]!).toBeLessThanOrEqual(9 * DAY + 60);
    // Ten days overdue: even the bad case is past, so it comes today as the plan has it.
    expect(new Set(ordered('2026-05-22'))).toEqual(new Set([DAY + 60]));
    expect(ordered('2026-05-31')[100]!).toBeLessThanOrEqual(4 * DAY + 60);
  });

  it('should be certain without a bad case', () => {
    expect(oddsOf(waiting({ leadDays: 3 }), still).minutesFromStart.sd).toBe(0);
  });
});

describe('turns', () => {
  it('should be kept: the second does not begin because the first is short', () => {
    const file = makeBuild({
      people: [{ key: 'a', name: 'A', week: EVENINGS }],
      tasks: [
        { key: 'one', name: 'One', minutes: { low: 30, likely: 120, high: 600 } },
        { key: 'two', name: 'Two', minutes: { low: 60, likely: 60, high: 60 } },
      ],
      order: ['one', 'two'],
    });
    const { chain, drivers } = oddsOf(file, still);
    expect(chain['two']).toBe(1);
    expect(drivers.find((driver) => driver.task === 'two')!.waitsFor.people).toBeGreaterThan(0.9);
  });

  it('should wait in a room for what dries there, even if it is finished', () => {
    const file = makeBuild({
      depths: ['metal'],
      zones: [{ key: 'F', name: 'Floor', depths: ['metal'], capacity: 1 }],
      tasks: [
        task('paint', 60, {
          places: [{ zone: 'F', depth: 'metal' }],
          waitMinutes: 3 * DAY,
          waitHoldsZones: true,
          state: 'finished',
          startedAt: `${START}T00:00`,
          finishedAt: `${START}T00:00`,
        }),
        {
          key: 'a',
          name: 'A',
          minutes: { low: 10, likely: 60, high: 90 },
          places: [{ zone: 'F', depth: 'metal' }],
        },
      ],
    });
    expect(oddsOf(file, still).finishCurve[0]!).toBeGreaterThanOrEqual(3 * DAY + 10);
  });

  it('should find where two runs meet, and nothing where they only alternate', () => {
    const mornings = fromWindows(['08:00-12:00']);
    const days = fromWindows(['10:00-18:00']);
    const evenings = fromWindows(['18:00-20:00']);
    expect(lastMeeting(mornings, 480, 2 * DAY, days, 600, 2 * DAY)).toBe(DAY + 720);
    expect(firstMeeting(mornings, 480, 2 * DAY, days, 600, 2 * DAY)).toBe(480);
    expect(lastMeeting(mornings, 480, 2 * DAY, evenings, 0, 2 * DAY)).toBe(-Infinity);
    expect(firstMeeting(mornings, 480, 2 * DAY, evenings, 0, 2 * DAY)).toBe(Infinity);
  });
});

describe('money', () => {
  const priced = (line: object, purchase: object = {}) =>
    oddsOf(
      makeBuild({
        tasks: [task('a', 60)],
        purchases: [{ key: 'p', lines: [{ key: 'l', name: 'L', quantity: 3, ...line }], ...purchase }],
      }),
      still,
    );

  it('should vary between the prices given, else by 15 % up and down', () => {
    const given = priced({ unitPrice: 1000, priceLow: 900, priceHigh: 1500 });
    expect(given.costCurve[0]!).toBeGreaterThanOrEqual(2700);
    expect(given.costCurve[100]!).toBeLessThanOrEqual(4500);
    expect(given.cost.p90! - given.cost.p10!).toBeGreaterThan(300);
    const around = priced({ unitPrice: 1000 });
    expect(around.costCurve[0]!).toBeGreaterThanOrEqual(2550);
    expect(around.costCurve[100]!).toBeLessThanOrEqual(3450);
    expect(Math.abs(around.cost.mean! - 3000)).toBeLessThan(4 * around.cost.meanError!);
  });

  it('should be certain once it is ordered', () => {
    const odds = priced({ unitPrice: 1000 }, { state: 'ordered', orderedOn: START });
    expect(odds.cost).toMatchObject({ p10: 3000, p90: 3000, sd: 0 });
    expect(odds.plan.cost).toBe(3000);
  });

  it('should draw a price nobody has from its range, and count what has neither', () => {
    const ranged = priced({ priceLow: 100, priceHigh: 200 });
    expect(ranged.plan.cost).toBe(0);
    expect(Math.abs(ranged.cost.mean! - 450)).toBeLessThan(4 * ranged.cost.meanError! + 1);
    expect(ranged.unpricedLines).toBe(0);
    expect(priced({})).toMatchObject({ unpricedLines: 1, cost: { p90: 0 } });
    // Three pieces at 200 at most, or at least: the one bound is the price.
    for (const bound of ['priceLow', 'priceHigh'])
      expect(priced({ [bound]: 200 })).toMatchObject({ unpricedLines: 0, cost: { p10: 600, p90: 600 } });
  });
});

describe('where nothing is known', () => {
  it('should say so in nulls: a plan without a finish has odds of its cost alone', () => {
    const file = makeBuild({
      build: { targetFinishOn: '2026-07-01' },
      tasks: [task('a', 60, { people: 2 })],
      purchases: [{ key: 'p', lines: [{ key: 'l', name: 'L', quantity: 1, unitPrice: 500 }] }],
    });
    const odds = oddsOf(file, still);
    expect(odds).toMatchObject({ meetsTarget: null, meetsPlan: null, chain: {}, finishCurve: [], beyond: 0 });
    expect(Object.values(odds.finish).every((one) => one === null)).toBe(true);
    expect(odds.cost.p50).not.toBeNull();
    expect(Value.Check(Odds, odds)).toBe(true);
  });

  it('should hand the task of a helper who has gone to whoever is still there', () => {
    const gone = { from: '2026-07-01', to: '2040-12-31', windows: [], why: 'gone' };
    const file = makeBuild({
      people: [
        { key: 'a', name: 'A', week: { sat: ['09:00-10:00'] } },
        { key: 'b', name: 'B', week: ALL_WEEK, exceptions: [gone] },
      ],
      tasks: [{ key: 'a', name: 'A', minutes: { low: 38_000, likely: 42_000, high: 50_000 } }],
    });
    expect(computePlan(file, { now: NOW }).tasks['a']!.dates!.people).toEqual(['b']);
    const { beyond, minutesFromStart } = oddsOf(file, { ...still, trials: 100 });
    expect(beyond).toBe(0);
    expect(minutesFromStart.p10!).toBeLessThan(30 * DAY);
    expect(minutesFromStart.p90!).toBeGreaterThan(30 * DAY);
  });

  it('should count the trials that run out of the calendar, and give no date for them', () => {
    const file = makeBuild({
      people: [{ key: 'a', name: 'A', week: { sat: ['09:00-10:00'] } }],
      tasks: [{ key: 'a', name: 'A', minutes: { low: 60, likely: 27_000, high: 60_000 } }],
    });
    const odds = oddsOf(file, { ...still, trials: 100 });
    expect(odds.beyond).toBeGreaterThan(0);
    expect(odds.beyond).toBeLessThan(100);
    expect(odds.minutesFromStart).toMatchObject({ p90: null, mean: null, sd: null });
    expect(odds.minutesFromStart.p10).not.toBeNull();
    expect(Value.Check(Odds, odds)).toBe(true);
  });

  it('should be those of the trials made when they are stopped', () => {
    const file = makeBuild({ tasks: [task('a', 60)], links: [] });
    const seen: number[] = [];
    const some = oddsOf(file, {
      ...still,
      stop: (done) => done >= 40,
      onProgress: (done) => seen.push(done),
    });
    expect(some.trials).toBe(40);
    expect(seen).toEqual([20, 40]);
    const none = oddsOf(file, { ...still, stop: () => true });
    expect(none).toMatchObject({ trials: 0, finish: { p50: null }, cost: { p50: null } });
    expect(Value.Check(Odds, none)).toBe(true);
  });
});

it('should name the waits of a season where they drive the finish', () => {
  const file = makeBuild({
    conditions: [{ key: 'warm', name: 'above 10 °C', not: [{ from: '2026-06-03', to: '2026-07-20' }] }],
    tasks: [
      { key: 'a', name: 'A', minutes: { low: 1000, likely: 2000, high: 5000 } },
      task('b', 120, { conditions: ['warm'] }),
    ],
    links: [link('a', 'b')],
  });
  const driver = oddsOf(file, still).drivers.find((one) => one.task === 'b')!;
  expect(driver.help).toBe('season');
  expect(driver.words).toContain('“above 10 °C”');
});

// Helpers

/** The same windows every day. */
function fromWindows(windows: readonly string[]): WorkingSet {
  const week = Object.fromEntries(Object.keys(ALL_WEEK).map((day) => [day, windows]));
  const { calendar } = basisOf(makeBuild({ people: [{ key: 'a', name: 'A', week }] }), NOW);
  return calendar.sets[calendar.setOf(1, ['a'], [], [])]!;
}
