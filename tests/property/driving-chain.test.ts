/**
 * The driving chain on random builds: what is on it moves the end when it is put off to another sitting, what is not
 * does not, people, tools and rooms serving their tasks in the same order.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan, PlannedTask } from '#shared/contract/plan.ts';
import { asOfOf, computePlan } from '#shared/plan.ts';
import { draftOf } from '#shared/schedule/draft.ts';
import { shiftRight } from '#shared/schedule/driving-chain.ts';
import { instantText } from '#shared/time/clock.ts';
import { arbitraryBuild } from '../support/arbitrary-builds.ts';
import { makeBuild, NOW } from '../support/builds.ts';
import { breaches } from '../support/check-dates.ts';
import { minuteOf, runEnd, workable } from '../support/minute-by-minute.ts';
import { Pushing } from '../support/push.ts';

const LENGTH = 90 * 1440;
const ALL_KINDS = ['FS', 'SS', 'FF', 'SF'] as const;
const builds = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ALL_KINDS, progress: false });
const underWay = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ALL_KINDS, progress: true });
const tangled = arbitraryBuild({ acyclic: false, places: 'any', kinds: ALL_KINDS, progress: true });

describe('the driving chain', () => {
  it('should hold just the tasks that move the end when they begin a sitting later', () => {
    const withoutSF = arbitraryBuild({
      acyclic: true,
      places: 'orderly',
      kinds: ['FS', 'SS', 'FF'],
      progress: false,
    });
    fc.assert(
      fc.property(withoutSF, (parts) => {
        for (const { chain, moves } of pushedOneByOne(parts)) expect(chain).toBe(moves);
      }),
      { numRuns: 200 },
    );
  });

  // A task that may end only as the next of the same person begins holds it, and is held by it: neither moves alone.
  it('should hold every task that moves the end, start-to-finish links or not', () => {
    fc.assert(
      fc.property(builds, (parts) => {
        for (const { chain, moves } of pushedOneByOne(parts)) if (moves) expect(chain).toBe(true);
      }),
    );
  });

  it('should end with the plan: the task whose wait ends last is on it, as far as any is', () => {
    fc.assert(
      fc.property(fc.oneof(builds, underWay), (parts) => {
        const { file, plan } = planned(parts);
        const last = file.tasks.filter(({ key }) => plan.tasks[key]!.dates!.waitUntil === plan.finish.dates);
        expect(last.length).toBeGreaterThan(0);
        // A wait that runs by day only may end last and yet leave the evening before free.
        fc.pre(
          last.every(({ waitConditions, state }) => waitConditions.length === 0 && state !== 'finished'),
        );
        for (const { key } of last) expect(plan.tasks[key]!.chain, key).toBe(true);
      }),
    );
  });

  for (const [name, arbitrary] of [
    ['a build not begun', builds],
    ['a build under way', underWay],
    ['a build with wrong orders in it', tangled],
  ] as const)
    it(`should leave room for the rest: shifted right, ${name} still keeps every rule and its end`, () => {
      fc.assert(
        fc.property(arbitrary, (parts) => {
          const { file, plan, end } = planned(parts);
          const shifted = shiftedPlan(file, plan);
          const found = breaches(file, shifted, LENGTH);
          fc.pre(found !== null);
          expect(found).toEqual([]);
          for (const { key } of file.tasks) {
            const [before, after] = [plan.tasks[key]!, shifted.tasks[key]!];
            expect(resume(after) >= resume(before), key).toBe(true);
            expect(at(file, after.dates!.waitUntil)).toBeLessThanOrEqual(end);
          }
        }),
        { numRuns: 200 },
      );
    });

  it('should not be known while the end is not', () => {
    fc.assert(
      fc.property(tangled, (parts) => {
        const plan = computePlan(makeBuild(parts), { now: NOW });
        for (const { chain } of Object.values(plan.tasks))
          expect(chain === null).toBe(plan.finish.dates === null);
      }),
    );
  });
});

// Helpers

type Parts = typeof builds extends fc.Arbitrary<infer T> ? T : never;

function planned(parts: Parts): { file: BuildFile; plan: Plan; end: number } {
  const file = makeBuild(parts);
  const plan = computePlan(file, { now: NOW });
  fc.pre(plan.finish.dates !== null);
  const end = at(file, plan.finish.dates);
  fc.pre(end < LENGTH);
  return { file, plan, end };
}

/** Per task: is it on the chain, and does putting it off move the end? */
function pushedOneByOne(parts: Parts): { chain: boolean | null; moves: boolean }[] {
  const { file, plan, end } = planned(parts);
  const pushing = new Pushing(file, plan, LENGTH);
  fc.pre(!plan.provisional && !pushing.takesTurns);
  return file.tasks.map(({ key }) => {
    const pushed = pushing.endWithout(key);
    return { chain: plan.tasks[key]!.chain, moves: pushed === null || pushed > end };
  });
}

function at(file: BuildFile, instant: string): number {
  return minuteOf(file.build.startOn, instant);
}

/** Where what is left of it begins. */
function resume({ dates }: PlannedTask): number | string {
  return dates!.sittings[0]?.[0] ?? dates!.finish;
}

/** The plan with its unfinished tasks where shifting right puts them. */
function shiftedPlan(file: BuildFile, plan: Plan): Plan {
  const draft = draftOf(file, asOfOf(file, NOW));
  const { start, finish, ready } = shiftRight(draft)!;
  const tasks = { ...plan.tasks };
  for (const task of file.tasks) {
    const v = draft.graph.indexOf.get(task.key);
    if (v === undefined || task.state === 'finished') continue;
    const { minutes, dates } = plan.tasks[task.key]!;
    const text = (instant: number) => instantText(draft.basis.clock, instant);
    const open = workable(file, task, dates!.people, dates!.people.length, LENGTH);
    if (minutes > 0) expect(runEnd(open, start[v]!, minutes), task.key).toBe(finish[v]);
    tasks[task.key] = {
      ...plan.tasks[task.key]!,
      dates: {
        ...dates!,
        start: task.startedAt ?? text(start[v]!),
        finish: text(finish[v]!),
        waitUntil: text(ready[v]!),
        sittings: minutes > 0 ? stretches(open, start[v]!, finish[v]!) : [],
      },
    };
  }
  return { ...plan, tasks };
}

function stretches(open: Uint8Array, start: number, finish: number): [number, number][] {
  const out: [number, number][] = [];
  for (let m = start; m < finish; m++)
    if (open[m] === 1 && (m === start || open[m - 1] !== 1)) out.push([m, m + 1]);
    else if (open[m] === 1) out.at(-1)![1] = m + 1;
  return out;
}
