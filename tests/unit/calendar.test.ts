/** The working calendar by example: which windows of a person hold on a day that several exceptions speak of. */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { EVENINGS, makeBuild, NOW, task } from '../support/builds.ts';

const WEEK = { from: '2026-06-01', to: '2026-06-07' };

/** When an hour of work begins that has to wait for the first window. */
function firstWindow(exceptions: readonly object[]): string {
  const people = [{ key: 'a', name: 'A', week: EVENINGS, exceptions }];
  const file = makeBuild({ people, tasks: [task('t', 60, { who: ['a'] })] });
  return computePlan(file, { now: NOW }).tasks['t']!.dates!.start.slice(5);
}

describe('calendar exceptions', () => {
  it('should let the one that begins later hold, then the shorter', () => {
    const long = { ...WEEK, windows: ['06:00-09:00'] };
    expect(firstWindow([long, { from: '2026-06-01', to: '2026-06-01', windows: [] }])).toBe('06-02T06:00');
    expect(firstWindow([long, { from: '2026-06-02', to: '2026-06-09', windows: [] }])).toBe('06-01T06:00');
  });

  it('should let the same one of two for the same days hold, in whatever order they stand', () => {
    const early = { ...WEEK, windows: ['06:00-09:00'] };
    const late = { ...WEEK, windows: ['20:00-23:00'] };
    expect(firstWindow([early, late])).toBe('06-01T20:00');
    expect(firstWindow([late, early])).toBe('06-01T20:00');
    expect(firstWindow([{ ...WEEK, windows: [] }, early])).toBe('06-01T06:00');
    expect(firstWindow([early, { ...WEEK, windows: [] }])).toBe('06-01T06:00');
  });

  it('should not look at who else has the same windows', () => {
    const early = { ...WEEK, windows: ['06:00-09:00'] };
    const late = { ...WEEK, windows: ['20:00-23:00'] };
    for (const known of [early, late]) {
      const other = { key: '0', name: 'O', week: EVENINGS, exceptions: [known] };
      const file = makeBuild({
        people: [other, { key: 'a', name: 'A', week: EVENINGS, exceptions: [early, late] }],
        tasks: [task('t', 60, { who: ['a'] })],
      });
      expect(computePlan(file, { now: NOW }).tasks['t']!.dates!.start).toBe('2026-06-01T20:00');
    }
  });
});
