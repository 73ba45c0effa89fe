/** What a starter plan comes to, told before it is made. */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { readAnswers, readStarterHead } from '#shared/starter/answers.ts';
import { RHYTHMS } from '#shared/starter/questions.ts';
import { starterBuild } from '#shared/starter/starter-build.ts';
import { tallyOf } from '#shared/starter/tally.ts';
import { makeBuild, task } from '../support/builds.ts';

const HEAD = readStarterHead({
  name: 'Kestrel',
  startOn: '2027-03-09',
  people: [{ name: 'Mara', week: RHYTHMS[0]!.week }],
});

describe('the tally', () => {
  it('should count tasks, covers, hours for all who work, money and the mass that stays', () => {
    const depths = ['metal', 'lining'];
    const file = makeBuild({
      build: { pace: { use: true, prior: 1.5 } },
      people: [
        { key: 'a', name: 'A', week: { tue: ['18:30-21:00'], sat: ['09:00-12:30', '13:30-17:00'] } },
        { key: 'e', name: 'E', byNameOnly: true, week: { mon: ['08:00-17:00'] } },
      ],
      depths,
      zones: [{ key: 'L', name: 'L', depths }],
      tasks: [
        { ...task('paint', 60), minutes: { low: 40, likely: 60, high: 100 } },
        {
          ...task('line', 60),
          people: 2,
          minutes: { low: 60, likely: 60, high: 80 },
          places: [{ zone: 'L', depth: 'lining', hides: 'metal' }],
        },
      ],
      purchases: [
        {
          key: 'shop',
          lines: [
            { key: 'ply', name: 'ply', quantity: 2, unitPrice: 5000, mass: 20_000, fittedShare: 0.75 },
            { key: 'hire', name: 'hire', quantity: 1, unitPrice: 1000, mass: 9000, fittedShare: 0 },
          ],
        },
      ],
    });
    expect(tallyOf(file)).toEqual({
      tasks: 2,
      zones: 1,
      covers: 1,
      // (40 + 2 × 60) × 1.5 and (100 + 2 × 80) × 1.5
      hours: { low: 240, high: 390 },
      week: 150 + 420,
      cost: 11_000,
      mass: 15_000,
    });
  });

  it('should say what the plan then says: the same money, and its hours within the range', () => {
    const file = starterBuild(readAnswers({}), HEAD);
    const tally = tallyOf(file);
    const plan = computePlan(file, { now: '2027-03-09T19:00' });
    expect(tally.tasks).toBe(Object.keys(plan.tasks).length);
    expect(tally.cost).toBe(plan.money.total.forecast);
    expect(tally.mass).toBe(plan.mass.planned.parts);
    expect(plan.progress.forecast).toBeGreaterThan(tally.hours.low);
    expect(plan.progress.forecast).toBeLessThan(tally.hours.high);
  });
});
