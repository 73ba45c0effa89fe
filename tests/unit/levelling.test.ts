/** Dates people can keep by example: gaps that are just long enough, and just too short. */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { EVENINGS, makeBuild, NOW, task } from '../support/builds.ts';

/** When a task begins that comes last in the list, after an hour of work and something fixed to 20:00. */
function startOf(minutes: number, more: object = {}): string {
  const file = makeBuild({
    people: [{ key: 'a', name: 'Ada', week: EVENINGS }],
    tasks: [task('x', 60), task('fixed', 30, { fixedStart: '2026-06-02T20:00' }), task('t', minutes, more)],
    order: ['x', 'fixed', 't'],
  });
  return computePlan(file, { now: NOW }).tasks['t']!.dates!.start.slice(5);
}

describe('a gap between two tasks of one person', () => {
  it('should be filled by what is just as long', () => {
    expect(startOf(30)).toBe('06-02T19:30');
  });

  it('should be left by what is a minute longer, for the rest of the evening or the next', () => {
    expect(startOf(31)).toBe('06-02T20:30');
    expect(startOf(31, { shortestSitting: 31 })).toBe('06-04T18:30');
  });
});
