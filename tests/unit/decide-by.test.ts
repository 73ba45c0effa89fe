import { describe, expect, it } from 'vitest';
import { decideBy } from '#shared/decisions/decide-by.ts';
import { computePlan } from '#shared/plan.ts';
import { link, makeBuild, NOW, task } from '../support/builds.ts';

describe('the last day to settle a question', () => {
  it('should be the earliest start or order-by day of what waits for it, less its own days', () => {
    expect(dayOf({ locksTasks: ['late'] })).toBe('2026-06-21');
    expect(dayOf({ locksTasks: ['late'], leadDays: 10 })).toBe('2026-06-11');
    expect(dayOf({ locksTasks: ['late'], locksPurchases: ['p'] })).toBe('2026-06-17');
  });

  it('should not be known where nothing that waits for it has a day', () => {
    expect(dayOf({})).toBeNull();
    expect(dayOf({ locksTasks: ['done'] })).toBeNull();
  });
});

// Helpers

function dayOf(decision: object): string | null {
  const build = makeBuild({
    tasks: [
      task('first', 20 * 1440),
      task('late', 60),
      task('done', 60, { state: 'finished', startedAt: '2026-05-30T08:00', finishedAt: '2026-05-30T09:00' }),
    ],
    links: [link('first', 'late')],
    build: { startOn: '2026-05-01' },
    purchases: [{ key: 'p', leadDays: 3, lines: [{ key: 'a', name: 'a', quantity: 1, neededBy: ['late'] }] }],
    decisions: [{ key: 'd', question: 'Which?', options: ['a', 'b'], ...decision }],
  });
  return decideBy(build.decisions[0]!, computePlan(build, { now: NOW }));
}
