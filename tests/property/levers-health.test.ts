/** Levers and the delay test on random builds: changes lead where they say, and logic carries a delay to the finish. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withRows } from '#shared/changes/apply.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { readBuild } from '#shared/contract/read.ts';
import { planHealth } from '#shared/health/plan-health.ts';
import { candidates } from '#shared/levers/candidates.ts';
import { leaveOut } from '#shared/levers/leave-out.ts';
import { oddsOf } from '#shared/odds/odds.ts';
import { computePlan } from '#shared/plan.ts';
import { instantOf, instantText, clockFrom, DAY } from '#shared/time/clock.ts';
import { arbitraryBuild } from '../support/arbitrary-builds.ts';
import { ALL_WEEK, makeBuild, NOW } from '../support/builds.ts';

const ALL_KINDS = ['FS', 'SS', 'FF', 'SF'] as const;
const builds = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ALL_KINDS, progress: true });
const fresh = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ALL_KINDS, progress: false });
const tangled = arbitraryBuild({ acyclic: false, places: 'any', kinds: ALL_KINDS, progress: true });
const plain = arbitraryBuild({ acyclic: true, places: 'none', kinds: ['FS'], progress: false });
const DELAY = 600;

describe('the candidates for a lever', () => {
  it('should always be builds that can be stored, reached by their edits, each with a key of its own', () => {
    fc.assert(
      fc.property(builds, (parts) => {
        const file = makeBuild(parts);
        const plan = computePlan(file, { now: NOW });
        const odds = oddsOf(file, { now: NOW, trials: 5, seed: 1 });
        const changes = candidates(file, { plan, odds });
        expect(new Set(changes.map(({ key }) => key)).size).toBe(changes.length);
        for (const change of changes) {
          expect(withRows(file, change.edits)).toEqual(change.file);
          expect(readBuild(structuredClone(change.file))).toEqual(change.file);
          expect(change.label).not.toMatch(/undefined|null|NaN/);
        }
      }),
      { numRuns: 40 },
    );
  });
});

describe('leaving something out', () => {
  it('should lose no order that ran through it: who came after by links still does', () => {
    fc.assert(
      fc.property(plain, fc.integer({ min: 0, max: 1000 }), (parts, pick) => {
        const whole = makeBuild(parts);
        fc.pre(whole.tasks.length > 0);
        const out = new Set([0, 1].map((i) => whole.tasks[(pick + i * 2) % whole.tasks.length]!.key));
        const file: BuildFile = {
          ...whole,
          tasks: whole.tasks.map((task) => (out.has(task.key) ? { ...task, option: 'extra' } : task)),
        };
        const after = leaveOut(file, 'extra')!.file;
        expect(readBuild(structuredClone(after))).toEqual(after);
        const [before, now] = [reach(file), reach(after)];
        for (const { key } of after.tasks)
          expect([...now(key)].toSorted()).toEqual([...before(key)].filter((to) => !out.has(to)).toSorted());
      }),
    );
  });
});

describe('the delay test', () => {
  it('should be passed by every plan that has a finish: 600 days on a driving task move it by 600 days', () => {
    fc.assert(
      fc.property(fc.oneof(builds, tangled), (parts) => {
        const file = makeBuild(parts);
        const plan = computePlan(file, { now: NOW });
        const delay = planHealth(file, plan).rows.find(({ check }) => check === 'delay')!;
        const isOpen = file.tasks.some(({ state }) => state !== 'finished');
        expect(delay.state).toBe(plan.finish.early === null && isOpen ? 'failed' : 'passed');
      }),
    );
  });

  // The same by another way: the task is given a fixed start in the file, and the whole plan is computed anew.
  it('should hold for the plan itself where people work day and night', () => {
    fc.assert(
      fc.property(fresh, (parts) => {
        const file = roundTheClock(makeBuild(parts));
        const plan = computePlan(file, { now: NOW });
        fc.pre(plan.finish.early !== null);
        const clock = clockFrom(file.build.startOn);
        const critical = file.tasks.filter(({ key }) => plan.tasks[key]!.totalFloat === 0);
        for (const { key } of critical.slice(0, 4)) {
          const start = plan.tasks[key]!.early!.start + DELAY * DAY;
          const late = {
            ...file,
            tasks: file.tasks.map((task) =>
              task.key === key ? { ...task, fixedStart: instantText(clock, start), fixedWhy: 'late' } : task,
            ),
          };
          expect(instantOf(clock, late.tasks.find((task) => task.key === key)!.fixedStart!)).toBe(start);
          const { early } = computePlan(late, { now: NOW }).finish;
          expect(early! - plan.finish.early!).toBe(DELAY * DAY);
        }
      }),
      { numRuns: 60 },
    );
  });
});

// Helpers

/** Whoever comes after a task by stated links, however far. */
function reach({ links }: BuildFile): (key: string) => Set<string> {
  return (key) => {
    const found = new Set<string>();
    const open = [key];
    while (open.length > 0) {
      const from = open.pop()!;
      for (const link of links)
        if (link.from === from && !found.has(link.to)) {
          found.add(link.to);
          open.push(link.to);
        }
    }
    return found;
  };
}

/** Without days off, seasons, tools that are away, parts to wait for, and dates that are fixed already. */
function roundTheClock(file: BuildFile): BuildFile {
  return {
    ...file,
    build: { ...file.build, targetFinishOn: null },
    people: file.people.map((person) => ({
      ...person,
      week: ALL_WEEK as typeof person.week,
      exceptions: [],
    })),
    tools: file.tools.map((tool) => ({ ...tool, only: [] })),
    purchases: [],
    tasks: file.tasks.map((task) => ({
      ...task,
      conditions: [],
      waitConditions: [],
      fixedStart: null,
      fixedWhy: null,
    })),
  };
}
