/** Drift from a frozen plan, by figures worked out by hand. */
import { describe, expect, it } from 'vitest';
import { driftOf } from '#shared/baselines/drift.ts';
import { frozenNow } from '#shared/baselines/freeze.ts';
import type { Baseline } from '#shared/contract/log.ts';
import { readBuild } from '#shared/contract/read.ts';
import { computePlan } from '#shared/plan.ts';
import { document, link, task } from '../support/builds.ts';

const NOW = '2027-03-01T08:00';

describe('drift', () => {
  it('should be nothing anywhere on the day a plan is frozen', () => {
    const { file, plan, frozen } = frozenBuild();
    const drift = driftOf(frozen, file, plan);
    expect(drift.finish.days).toBe(0);
    expect(drift.minutes.by).toBe(0);
    expect(
      drift.tasks.map(({ start, finish, minutes, money }) => [start.days, finish.days, minutes.by, money.by]),
    ).toEqual([
      [0, 0, 0, 0],
      [0, 0, 0, 0],
      [0, 0, 0, 0],
    ]);
    expect([drift.added, drift.removed]).toEqual([[], []]);
  });

  it('should be nothing on that day where the last work has a wait behind it', () => {
    const file = readBuild(document({ tasks: [task('varnish', 60, { waitMinutes: 2880 })] }));
    const plan = computePlan(file, { now: NOW });
    const frozen: Baseline = { key: 'f', name: 'F', on: '2027-03-01', tasks: frozenNow(file, plan) };
    expect(driftOf(frozen, file, plan).finish.days).toBe(0);
  });

  it('should tell days, hours and money of phases and tasks, and what came and went', () => {
    const { frozen, doc } = frozenBuild();
    // a takes twice as long, c is left out, d comes; a day has 8 hours, and each task fills its days.
    const after = readBuild({
      ...doc,
      tasks: [
        task('a', 960, { phase: 'one' }),
        task('b', 480, { phase: 'two' }),
        task('d', 480, { phase: 'two' }),
      ],
      links: [link('a', 'b'), link('b', 'd')],
    });
    const drift = driftOf(frozen, after, computePlan(after, { now: NOW }));
    // Frozen: a on 1 March, b on 2, c on 3. Now: a on 1 and 2, b on 3, d on 4.
    expect(drift.finish).toEqual({ frozen: '2027-03-03T16:00', now: '2027-03-04T16:00', days: 1 });
    expect(byKey(drift.tasks)).toEqual({
      a: { start: 0, finish: 1, minutes: 480, money: 0 },
      // Phase two has 600 for b and c, half each; now for b and d, half each.
      b: { start: 1, finish: 1, minutes: 0, money: 0 },
    });
    expect(
      drift.phases.map(({ phase, finish, minutes, tasks, added }) => [
        phase,
        finish.days,
        minutes.by,
        tasks,
        added,
      ]),
    ).toEqual([
      ['one', 1, 480, 1, 0],
      ['two', 2, 480, 1, 1],
    ]);
    expect(drift.added).toEqual(['d']);
    expect(drift.removed).toEqual([
      { key: 'c', start: '2027-03-03T08:00', finish: '2027-03-03T16:00', minutes: 480, money: 300 },
    ]);
    // 3 × 480 frozen; 960 + 480 + 480 now.
    expect(drift.minutes).toEqual({ frozen: 1440, now: 1920, by: 480 });
    // 300 + 600 frozen; nothing is bought for it.
    expect(drift.money).toEqual({ frozen: 900, now: 0, by: -900 });
  });

  it('should know no drift in hours where nobody knows what a finished task took', () => {
    const { frozen, doc } = frozenBuild();
    const done = { state: 'finished', startedAt: '2027-03-01T08:00', finishedAt: '2027-03-01T15:00' };
    const after = readBuild({
      ...doc,
      tasks: [
        task('a', 480, { phase: 'one', ...done, hoursKnown: false }),
        task('b', 480, { phase: 'two' }),
        task('c', 480, { phase: 'two' }),
      ],
    });
    const drift = driftOf(frozen, after, computePlan(after, { now: '2027-03-02T08:00' }));
    expect(byKey(drift.tasks)['a']).toEqual({ start: 0, finish: 0, minutes: null, money: 0 });
    expect(drift.minutes).toEqual({ frozen: 960, now: 960, by: 0 });
  });
});

describe('the hours of a finished task', () => {
  const hours = [{ key: 'h', task: 'a', person: 'p', on: '2027-03-01', minutes: 600 }];
  const done = { state: 'finished', startedAt: '2027-03-01T08:00', finishedAt: '2027-03-01T16:00' };
  const withA = (doc: object) =>
    readBuild({
      ...doc,
      tasks: [
        task('a', 480, { phase: 'one', ...done }),
        task('b', 480, { phase: 'two' }),
        task('c', 480, { phase: 'two' }),
      ],
      hours,
    });

  it('should be held against what was logged where it was finished since', () => {
    const { frozen, doc } = frozenBuild();
    // Frozen as still to come, to end at another minute than it did.
    const before = { ...frozen.tasks['a']!, finish: '2027-03-01T15:00' };
    const file = withA(doc);
    const plan = computePlan(file, { now: '2027-03-02T08:00' });
    const drift = driftOf({ ...frozen, tasks: { ...frozen.tasks, a: before } }, file, plan);
    expect(byKey(drift.tasks)['a']!.minutes).toBe(120);
  });

  it('should not drift where it was finished already', () => {
    const { doc } = frozenBuild();
    const file = withA(doc);
    const plan = computePlan(file, { now: '2027-03-02T08:00' });
    const later: Baseline = { key: 'later', name: 'Later', on: '2027-03-02', tasks: frozenNow(file, plan) };
    const drift = driftOf(later, file, plan);
    expect(drift.minutes.by).toBe(0);
    expect(byKey(drift.tasks)['a']!.minutes).toBe(0);
  });
});

// Helpers

const DAYS = Object.fromEntries(
  ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].map((day) => [day, ['08:00-16:00']]),
);

/** Three tasks of a day each, one after another, and the plan frozen as they stand. */
function frozenBuild() {
  const doc = document({
    build: { startOn: '2027-03-01', asOf: null },
    people: [{ key: 'p', name: 'P', week: DAYS }],
    phases: [
      { key: 'one', name: 'One', budget: 300 },
      { key: 'two', name: 'Two', budget: 600 },
    ],
    tasks: [
      task('a', 480, { phase: 'one' }),
      task('b', 480, { phase: 'two' }),
      task('c', 480, { phase: 'two' }),
    ],
    links: [link('a', 'b'), link('b', 'c')],
  });
  const file = readBuild(doc);
  const plan = computePlan(file, { now: NOW });
  const frozen: Baseline = { key: 'first', name: 'First', on: '2027-03-01', tasks: frozenNow(file, plan) };
  return { doc, file, plan, frozen };
}

function byKey(tasks: ReturnType<typeof driftOf>['tasks']) {
  return Object.fromEntries(
    tasks.map(({ key, start, finish, minutes, money }) => [
      key,
      { start: start.days, finish: finish.days, minutes: minutes.by, money: money.by },
    ]),
  );
}
