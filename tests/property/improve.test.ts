/** Orders found by search: as true as any plan, never worse, the same again, and near work left where it was. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { computePlan } from '#shared/plan.ts';
import { draftOf } from '#shared/schedule/draft.ts';
import { finishBound } from '#shared/search/dates/bound.ts';
import { improve, type Improving } from '#shared/search/dates/improve.ts';
import { FINISH_DAY, Judge } from '#shared/search/dates/judge.ts';
import { STILL_DAYS } from '#shared/search/dates/still.ts';
import { dayIndex } from '#shared/time/clock.ts';
import { arbitraryBuild, dayAfter } from '../support/arbitrary-builds.ts';
import { makeBuild, NOW } from '../support/builds.ts';
import { breaches } from '../support/check-dates.ts';
import { leastFinish, leastFinishOfTeams } from '../support/every-list.ts';

const ALL_KINDS = ['FS', 'SS', 'FF', 'SF'] as const;
const LENGTH = 90 * 1440;
const COUNTS = { still: 30, free: 30 };
const MINUTE = 60_000;

const builds = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ALL_KINDS, progress: false });
const underWay = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ALL_KINDS, progress: true });
const tangled = arbitraryBuild({ acyclic: false, places: 'any', kinds: ALL_KINDS, progress: true });
const orderly = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ['FS', 'SS'], progress: false });
/** Lags in working time would change with the team. */
const onTheClock = orderly.map(({ links, ...rest }) => ({
  ...rest,
  links: links.map((link) => ({ ...link, lagOn: 'clock' })),
}));

describe('a better order', () => {
  for (const [name, arbitrary] of [
    ['a build not begun', builds],
    ['a build under way', underWay],
    ['a build with wrong orders in it', tangled],
  ] as const)
    it(`should keep people, windows, conditions, rooms, links, covers, waits and parts of ${name}`, () => {
      fc.assert(
        fc.property(arbitrary, fc.nat(), (parts, seed) => {
          const file = makeBuild(parts);
          const found = breaches(file, planOf(file, orderOf(file, { seed })), LENGTH);
          fc.pre(found !== null);
          expect(found).toEqual([]);
        }),
      );
    });

  it('should hold for the demo', () => {
    const file = wagtail();
    const found = improve(file, { now: NOW, seed: 1, counts: { still: 200, free: 100 } });
    const before = computePlan(file, { now: NOW });
    const after = planOf(file, found.order);
    expect(found.daysWon).toBeGreaterThanOrEqual(7);
    expect(daysBetween(after.finish.dates!, before.finish.dates!)).toBe(found.daysWon);
    expect(breaches(file, after, 1000 * 1440)).toEqual([]);
  });

  it('should never finish on a later day, and say truly how many it wins', () => {
    fc.assert(
      fc.property(underWay, fc.nat(), (parts, seed) => {
        const file = makeBuild(parts);
        const before = computePlan(file, { now: NOW });
        const { order, daysWon } = improve(file, { now: NOW, seed, counts: COUNTS });
        const after = planOf(file, order);
        expect(after.finish.dates === null).toBe(before.finish.dates === null);
        if (before.finish.dates === null) return;
        expect(daysBetween(after.finish.dates!, before.finish.dates)).toBe(daysWon);
        expect(daysWon).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('should list every task that is not finished, once', () => {
    fc.assert(
      fc.property(tangled, (parts) => {
        const file = makeBuild(parts);
        const live = file.tasks.filter(({ state }) => state !== 'finished').map(({ key }) => key);
        expect([...orderOf(file, { seed: 1 })].sort()).toEqual(live.sort());
      }),
    );
  });

  it('should come out the same for the same seed and counts, however it was stopped', () => {
    fc.assert(
      fc.property(underWay, fc.nat(), fc.nat(60), (parts, seed, patience) => {
        const file = makeBuild(parts);
        const stopped = improve(file, { now: NOW, seed, counts: COUNTS, stop: (done) => done > patience });
        const again = improve(file, { now: NOW, seed, counts: stopped.counts });
        expect(again).toEqual(stopped);
      }),
    );
  });

  it('should be worth keeping whenever it is stopped: the last order told is the result', () => {
    fc.assert(
      fc.property(underWay, fc.nat(60), (parts, patience) => {
        const file = makeBuild(parts);
        let told: readonly string[] | null = null;
        const { order, isBetter } = improve(file, {
          now: NOW,
          seed: 1,
          counts: COUNTS,
          stop: (done) => done > patience,
          onBetter: (better) => (told = better.order),
        });
        expect(isBetter).toBe(told !== null);
        if (told !== null) expect(order).toEqual(told);
      }),
    );
  });

  it(`should leave what is planned within ${STILL_DAYS} days where it is, unless that costs more than a day`, () => {
    let kept = 0;
    fc.assert(
      fc.property(underWay, fc.nat(), (parts, seed) => {
        const file = makeBuild(parts);
        const before = computePlan(file, { now: NOW });
        const found = improve(file, { now: NOW, seed, counts: COUNTS });
        const after = planOf(file, found.order);
        const until = `${dayAfter(7 + STILL_DAYS)}T00:00`;
        const moved = file.tasks
          .filter(({ key, state }) => {
            const was = before.tasks[key]!.dates;
            return state === 'not-started' && was !== null && was.start < until;
          })
          .filter(({ key }) => {
            const [was, is] = [before.tasks[key]!.dates!, after.tasks[key]!.dates];
            return is === null || is.start !== was.start || is.people.join() !== was.people.join();
          })
          .map(({ key }) => key);
        expect([...found.moved].sort()).toEqual(moved.sort());
        if (moved.length > 0) expect(found.daysWon).toBeGreaterThan(1);
        else kept++;
      }),
    );
    expect(kept).toBeGreaterThan(20);
  });

  it('should never leave time empty that a task could have begun and ended in before its dates', () => {
    fc.assert(
      fc.property(orderly, fc.nat(), (parts, seed) => {
        const file = makeBuild(parts);
        const plan = planOf(file, orderOf(file, { seed }));
        fc.pre(breaches(file, plan, LENGTH) !== null);
        for (const { key, waitConditions } of file.tasks) {
          const dates = plan.tasks[key]!.dates;
          if (dates === null || dates.sittings.length !== 1 || waitConditions.length > 0) continue;
          const [[from, to]] = dates.sittings as [[number, number]];
          for (const by of [15, 60, 180, 720, 1440, 2880].filter((minutes) => minutes <= from))
            expect(breaches(file, movedBy(plan, key, by, to - from), LENGTH)).not.toEqual([]);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('should finish no earlier than the bound, whatever the order', () => {
    fc.assert(
      fc.property(underWay, fc.nat(), (parts, seed) => {
        const file = makeBuild(parts);
        const draft = draftOf(file, file.build.asOf!);
        const bound = finishBound(draft, new Judge(draft, []))[FINISH_DAY]!;
        const { dates } = planOf(file, orderOf(file, { seed })).finish;
        if (dates !== null) expect(daysBetween(file.build.startOn, dates)).toBeGreaterThanOrEqual(bound);
      }),
    );
  });
});

describe('a better order of few tasks', () => {
  // Nothing near is kept still, so that any order may be found.
  const counts = { still: 0, free: 400 };

  it('should be the best of all orders', () => {
    fc.assert(
      fc.property(
        builds.filter(({ tasks }) => tasks.length <= 6),
        (parts) => {
          const file = makeBuild(parts);
          const least = leastFinish(file);
          fc.pre(least !== null);
          const { order } = improve(file, { now: NOW, seed: 1, counts });
          expect(finishDay(file, order)).toBe(dayIndex(least!));
        },
      ),
      { numRuns: 60 },
    );
  });

  it('should seldom be beaten by giving tasks to other teams as well', () => {
    let compared = 0;
    let beaten = 0;
    fc.assert(
      fc.property(
        onTheClock.filter(({ tasks }) => tasks.length <= 4),
        (parts) => {
          const file = makeBuild(parts);
          const least = leastFinishOfTeams(file);
          fc.pre(least !== null);
          const day = finishDay(file, improve(file, { now: NOW, seed: 1, counts }).order);
          expect(day).toBeGreaterThanOrEqual(dayIndex(least!));
          compared++;
          if (day > dayIndex(least!)) beaten++;
        },
      ),
      { numRuns: 40 },
    );
    expect(beaten / compared).toBeLessThanOrEqual(0.05);
  });
});

// Helpers

function orderOf(file: BuildFile, more: Partial<Improving>): readonly string[] {
  return improve(file, { now: NOW, seed: 1, counts: COUNTS, ...more }).order;
}

function planOf(file: BuildFile, order: readonly string[]): Plan {
  return computePlan({ ...file, order: [...order] }, { now: NOW });
}

function finishDay(file: BuildFile, order: readonly string[]): number {
  return daysBetween(file.build.startOn, planOf(file, order).finish.dates!);
}

function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(to.slice(0, 10)) - Date.parse(from.slice(0, 10))) / (1440 * MINUTE));
}

/** The plan with one task earlier, all else as it was: its wait runs day and night, its work is of one piece. */
function movedBy(plan: Plan, key: string, by: number, length: number): Plan {
  const task = plan.tasks[key]!;
  const dates = task.dates!;
  const earlier = (instant: string) =>
    new Date(Date.parse(`${instant}:00Z`) - by * MINUTE).toISOString().slice(0, 16);
  const [from] = dates.sittings[0]!;
  return {
    ...plan,
    tasks: {
      ...plan.tasks,
      [key]: {
        ...task,
        dates: {
          ...dates,
          start: earlier(dates.start),
          finish: earlier(dates.finish),
          waitUntil: earlier(dates.waitUntil),
          sittings: [[from - by, from - by + length]],
        },
      },
    },
  };
}
