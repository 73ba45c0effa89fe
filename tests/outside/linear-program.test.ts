/**
 * Earliest and latest dates in continuous time against a linear program: random networks of all four link kinds, lags
 * and waits, solved by HiGHS to proven optima. (The critical path as a linear program: A. Charnes, W. W. Cooper, "A
 * network interpretation and a directed subdual algorithm for critical path scheduling", 1962, from memory.)
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { dayNumber, dayText } from '#shared/time/days.ts';
import { link, makeBuild, NOW, START, task } from '../support/builds.ts';
import {
  earliestProgram,
  endOf,
  freeProgram,
  latestProgram,
  loadSolver,
  type Project,
} from '../support/linear-program.ts';

const DAY = 1440;
const NETWORKS = 200;
const solve = await loadSolver();

describe('dates in continuous time, as a linear program has them', () => {
  it('should be the least starts that keep every link and wait', () => {
    check(project, (drawn) => {
      const { tasks, finish } = planOf(drawn, null);
      const starts = earliest(drawn);
      expect(finish.early).toBe(endOf(drawn, starts));
      expect(drawn.activities.map((_, i) => tasks[`t${i}`]!.early)).toEqual(stretches(drawn, starts));
    });
  });

  it('should be the greatest starts that keep the early end', () => {
    check(project, (drawn) => {
      const { tasks } = planOf(drawn, null);
      const starts = earliest(drawn);
      const last = latest(drawn, endOf(drawn, starts));
      expect(drawn.activities.map((_, i) => tasks[`t${i}`]!.late)).toEqual(stretches(drawn, last));
      expect(drawn.activities.map((_, i) => tasks[`t${i}`]!.totalFloat)).toEqual(
        last.map((start, i) => start - starts[i]!),
      );
    });
  });

  it('should be the greatest starts that keep the target, with negative slack where it cannot be met', () => {
    let missed = 0;
    let met = 0;
    check(fc.tuple(project, fc.integer({ min: 0, max: 60 })), ([drawn, days]) => {
      const { tasks, finish } = planOf(drawn, days);
      const starts = earliest(drawn);
      const target = (days + 1) * DAY;
      const last = latest(drawn, target);
      expect(drawn.activities.map((_, i) => tasks[`t${i}`]!.late)).toEqual(stretches(drawn, last));
      expect(drawn.activities.map((_, i) => tasks[`t${i}`]!.totalFloat)).toEqual(
        last.map((start, i) => start - starts[i]!),
      );
      if (finish.early! > target) missed++;
      else met++;
    });
    // Both happen often, or the sentence above would be an empty one.
    expect(Math.min(missed, met)).toBeGreaterThan(NETWORKS / 5);
  });

  it('should leave each task the free slack that moves nothing after it, whatever the target', () => {
    check(fc.tuple(project, fc.option(fc.integer({ min: 0, max: 60 }))), ([drawn, days]) => {
      const { tasks } = planOf(drawn, days);
      const starts = earliest(drawn);
      const last = solve(freeProgram(drawn, starts, endOf(drawn, starts)), starts.length);
      expect(drawn.activities.map((_, i) => tasks[`t${i}`]!.freeFloat)).toEqual(
        last.map((start, i) => start - starts[i]!),
      );
    });
  });
});

// Helpers

const minutes = fc.oneof(
  { weight: 1, arbitrary: fc.constant(0) },
  { weight: 5, arbitrary: fc.integer({ min: 1, max: 4 * DAY }) },
);
const delay = fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 3 * DAY }));
const activity = fc.record({ minutes, wait: delay });
const kind = fc.constantFrom('FS' as const, 'SS' as const, 'FF' as const, 'SF' as const);

/** Links of a pair, of kinds that differ: one usually, up to all four. */
const between = fc.uniqueArray(fc.record({ kind, lag: delay }), {
  minLength: 1,
  maxLength: 4,
  selector: (tie) => tie.kind,
});

/** Links lead on in a hidden order that is not that of the keys, so there is no circle and no hint of the order. */
const project: fc.Arbitrary<Project> = fc
  .array(activity, { minLength: 8, maxLength: 30, size: 'max' })
  .chain((activities) => {
    const count = activities.length;
    const pair = fc
      .uniqueArray(fc.nat({ max: count - 1 }), { minLength: 2, maxLength: 2 })
      .map(([a, b]) => ({ before: Math.min(a!, b!), after: Math.max(a!, b!) }));
    return fc.record({
      activities: fc.constant(activities),
      order: fc.shuffledSubarray([...activities.keys()], { minLength: count, maxLength: count }),
      pairs: fc.uniqueArray(fc.tuple(pair, between), {
        minLength: Math.floor(count / 2),
        maxLength: 2 * count,
        size: 'max',
        selector: ([{ before, after }]) => before * count + after,
      }),
    });
  })
  .map(({ activities, order, pairs }) => ({
    activities,
    ties: pairs.flatMap(([{ before, after }, links]) =>
      links.map((tie) => ({ from: order[before]!, to: order[after]!, ...tie })),
    ),
  }));

function check<T>(drawn: fc.Arbitrary<T>, holds: (value: T) => void): void {
  fc.assert(
    fc.property(drawn, (value) => holds(value)),
    { numRuns: NETWORKS },
  );
}

/** @param days from the build's start to the target day, null for none */
function planOf({ activities, ties }: Project, days: number | null) {
  const file = makeBuild({
    build: { targetFinishOn: days === null ? null : dayText(dayNumber(START) + days) },
    tasks: activities.map(({ minutes, wait }, i) => task(`t${i}`, minutes, { waitMinutes: wait })),
    links: ties.map(({ from, to, kind, lag }) => link(`t${from}`, `t${to}`, { kind, lagMinutes: lag })),
  });
  return computePlan(file, { now: NOW });
}

function earliest(drawn: Project): number[] {
  return solve(earliestProgram(drawn), drawn.activities.length);
}

function latest(drawn: Project, end: number): number[] {
  return solve(latestProgram(drawn, end), drawn.activities.length);
}

function stretches({ activities }: Project, starts: readonly number[]) {
  return activities.map(({ minutes }, i) => ({ start: starts[i]!, finish: starts[i]! + minutes }));
}
