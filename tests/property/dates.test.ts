/** The dates people can keep, walked minute by minute by a checker that knows the rules only from their definitions. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { arbitraryBuild } from '../support/arbitrary-builds.ts';
import { makeBuild, NOW } from '../support/builds.ts';
import { breaches } from '../support/check-dates.ts';

const ALL_KINDS = ['FS', 'SS', 'FF', 'SF'] as const;
const LENGTH = 90 * 1440;

const builds = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ALL_KINDS, progress: false });
const underWay = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ALL_KINDS, progress: true });
const tangled = arbitraryBuild({ acyclic: false, places: 'any', kinds: ALL_KINDS, progress: true });

describe('dates people can keep', () => {
  for (const [name, arbitrary] of [
    ['a build not begun', builds],
    ['a build under way', underWay],
    ['a build with wrong orders in it', tangled],
  ] as const)
    it(`should keep people, windows, exceptions, tools, rooms, links, covers, waits and parts of ${name}`, () => {
      fc.assert(
        fc.property(arbitrary, (parts) => {
          const file = makeBuild(parts);
          const plan = computePlan(file, { now: NOW });
          const found = breaches(file, plan, LENGTH);
          fc.pre(found !== null);
          expect(found).toEqual([]);
        }),
        { numRuns: 200 },
      );
    });

  it('should end no earlier than the critical path allows', () => {
    // Of links to the finish this is not so: a slower team may begin earlier and still finish after the bound.
    const fromStarts = arbitraryBuild({
      acyclic: true,
      places: 'orderly',
      kinds: ['FS', 'SS'],
      progress: false,
    });
    fc.assert(
      fc.property(fromStarts, (parts) => {
        const plan = computePlan(makeBuild(parts), { now: NOW });
        fc.pre(plan.finish.dates !== null && plan.finish.early !== null);
        for (const task of Object.values(plan.tasks)) {
          const first = task.dates!.sittings[0]?.[0];
          if (first !== undefined) expect(first).toBeGreaterThanOrEqual(task.early!.start);
        }
      }),
    );
  });

  it('should give every task of a build that can be ordered a date, and say why not otherwise', () => {
    fc.assert(
      fc.property(tangled, (parts) => {
        const plan = computePlan(makeBuild(parts), { now: NOW });
        for (const task of Object.values(plan.tasks)) {
          expect(task.dates === null).toBe(task.unplaced !== null);
          if (task.dates !== null && task.state !== 'finished')
            expect(task.because!.words.length).toBeGreaterThan(10);
        }
      }),
    );
  });

  it('should keep the kept list: a task goes before a later one of the list when nothing else decides', () => {
    const file = makeBuild({
      people: [{ key: 'a', name: 'A', week: { sat: ['09:00-17:00'] } }],
      tasks: ['x', 'y', 'z'].map((key) => ({ key, name: key, minutes: { low: 60, likely: 60, high: 60 } })),
      order: ['z', 'x', 'y'],
    });
    const { tasks, order } = computePlan(file, { now: NOW });
    expect(order).toEqual(['z', 'x', 'y']);
    expect(['z', 'x', 'y'].map((key) => tasks[key]!.dates!.start.slice(11))).toEqual([
      '09:00',
      '10:00',
      '11:00',
    ]);
  });

  it('should hold for the demo', () => {
    const file = wagtail();
    const plan = computePlan(file, { now: NOW });
    expect(breaches(file, plan, 1000 * 1440)).toEqual([]);
  });
});
