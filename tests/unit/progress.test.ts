/** Pace, what is left and how much is done, by hand: 20 h and 40 h of weight as in rules of shrinkage. */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { makeBuild, NOW, task, type BuildParts } from '../support/builds.ts';

const done = { state: 'finished', startedAt: '2026-06-02T09:00', finishedAt: '2026-06-05T10:00' };
const plan = (parts: BuildParts) =>
  computePlan(
    makeBuild({
      ...parts,
      build: { asOf: '2026-06-10T00:00', pace: { use: true, prior: 1.5 }, ...parts.build },
      phases: [
        { key: 'p', name: 'P' },
        { key: 'q', name: 'Q' },
      ],
    }),
    { now: NOW },
  );
const hours = (key: string, minutes: number) => ({ task: key, person: 'a', on: '2026-06-03', minutes });

describe('pace', () => {
  it('should be the prior while nothing is finished, and said to be assumed', () => {
    const { progress, tasks } = plan({ tasks: [task('t', 100, { phase: 'p' })] });
    expect([progress.pace, progress.phases['p']!.pace, progress.phases['p']!.assumed]).toEqual([
      1.5,
      1.5,
      true,
    ]);
    expect(tasks['t']!.minutes).toBe(150);
  });

  it('should lean on finished work by 40 hours for the build and 20 for a phase', () => {
    // 10 h estimated took 20 h: build (20 + 60) / (10 + 40) = 1.6; phase (20 + 20 × 1.6) / (10 + 20) = 52 / 30.
    const { progress, tasks } = plan({
      tasks: [
        task('a', 600, { phase: 'p', ...done }),
        task('b', 600, { phase: 'p' }),
        task('c', 600, { phase: 'q' }),
      ],
      hours: [hours('a', 1200)],
    });
    expect(progress.pace).toBeCloseTo(1.6, 12);
    expect(progress.phases['p']!.pace).toBeCloseTo(52 / 30, 12);
    expect(progress.phases['q']!.pace).toBeCloseTo(1.6, 12);
    expect(tasks['b']!.minutes).toBe(1040);
    expect(tasks['c']!.minutes).toBe(960);
  });

  it('should leave out finished tasks of unknown hours, and count two people twice', () => {
    const { progress } = plan({
      tasks: [
        task('a', 300, { phase: 'p', people: 2, ...done }),
        task('b', 6000, { phase: 'p', hoursKnown: false, ...done }),
      ],
      hours: [hours('a', 1200)],
    });
    expect(progress.pace).toBeCloseTo(1.6, 12);
  });

  it('should be 1 everywhere when it is not used', () => {
    const { progress, tasks } = plan({
      build: { pace: { use: false } },
      tasks: [task('a', 600, { phase: 'p', ...done }), task('b', 600, { phase: 'p' })],
      hours: [hours('a', 1200)],
    });
    expect([progress.pace, progress.phases['p']!.pace, tasks['b']!.minutes]).toEqual([1, 1, 600]);
  });
});

describe('what is left', () => {
  const begun = { state: 'started', startedAt: '2026-06-09T09:00' };
  const left = (more: object, logged: number) =>
    plan({
      build: { pace: { use: false } },
      tasks: [task('t', 200, { ...begun, ...more })],
      hours: logged === 0 ? [] : [hours('t', logged)],
    }).tasks['t']!;

  it('should be what the logged hours leave of the estimate', () => {
    expect(left({}, 50)).toMatchObject({ minutes: 150, complete: 0.25 });
  });

  it('should share logged person-hours between the people at the bench', () => {
    expect(left({ people: 2, who: [] }, 100).minutes).toBe(150);
  });

  it('should never be less than a tenth of the estimate', () => {
    expect(left({}, 199).minutes).toBe(20);
  });

  it('should be the builder’s own word where there is one, without pace', () => {
    const own = plan({ tasks: [task('t', 200, { ...begun, remainingMinutes: 45 })], hours: [hours('t', 55)] })
      .tasks['t']!;
    expect(own).toMatchObject({ minutes: 45, complete: 0.55 });
  });

  it('should keep hours of a phase alone out of tasks, but in the phase', () => {
    const { progress } = plan({
      tasks: [task('t', 60, { phase: 'p' })],
      hours: [{ phase: 'p', person: 'a', on: '2026-06-03', minutes: 30 }],
    });
    expect(progress).toMatchObject({
      unsorted: 30,
      logged: 30,
      phases: { p: { logged: 30, estimated: 60 } },
    });
  });
});
