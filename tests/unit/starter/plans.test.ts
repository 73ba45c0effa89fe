import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { CHOICES, CLIMATES, readAnswers, type Answers } from '#shared/starter/answers.ts';
import { starterBuild } from '#shared/starter/starter-build.ts';
import { pairwise } from '../../support/pairwise.ts';
import { head, RHYTHM, sizeOf, STARTS } from '../../support/starter.ts';

const NOW = { now: `${STARTS}T00:00` };

describe('the plan of a starter build', () => {
  const rows = pairwise({ ...CHOICES, climate: CLIMATES, alone: ['no', 'yes'] as const });

  it('should be looked at in few rows, as long as any two answers meet', () => {
    expect(rows.length).toBeLessThan(40);
  });

  for (const { alone, ...answers } of rows)
    it(`should have no error and a date for every task: ${Object.values(answers).join(' ')}, alone ${alone}`, () => {
      const people = alone === 'yes' ? [{ name: 'Ann', week: RHYTHM }] : head().people;
      const build = starterBuild(readAnswers(answers), head({ people }));
      const plan = computePlan(build, NOW);
      expect(plan.errors).toEqual([]);
      expect(plan.provisional).toBe(false);
      expect(plan.trade.findings).toEqual([]);
      expect(build.tasks.filter(({ key }) => plan.tasks[key]!.dates === null)).toEqual([]);
      expect(plan.hints.filter(({ rule }) => rule === 'hides-nothing' || rule === 'empty-zone')).toEqual([]);
      for (const { key, places } of build.tasks)
        for (const { zone, hides } of places)
          if (hides !== null)
            expect(
              plan.closings.find((closing) => closing.by === key && closing.zone === zone)?.behind,
              `${key} in ${zone}`,
            ).toBeGreaterThan(0);
    });

  it('should take about 2,000 hours over about two years at two evenings and a Saturday (common practice)', () => {
    const full: Partial<Answers> = {
      windows: 'all',
      roofVent: 'fan-and-light',
      awning: 'yes',
      rearCarrier: 'yes',
    };
    for (const answers of [{}, full, { ...full, van: 'long' }, { van: 'short' }] as const) {
      const build = starterBuild(readAnswers(answers), head());
      const { hours } = sizeOf(build);
      expect(hours, JSON.stringify(answers)).toBeGreaterThan(1300);
      expect(hours, JSON.stringify(answers)).toBeLessThan(3050);
      // As estimated: what a first build takes on top is the builder's own pace.
      const asEstimated = { ...build, build: { ...build.build, pace: { use: false, prior: 1 } } };
      const weeks = weeksTo(computePlan(asEstimated, NOW).finish.dates!);
      expect(weeks, JSON.stringify(answers)).toBeGreaterThan(52);
      expect(weeks, JSON.stringify(answers)).toBeLessThan(156);
    }
  });

  it('should expect a first build to take half as long again as it is estimated, a second a tenth', () => {
    const paceOf = (built: Answers['built']) => starterBuild(readAnswers({ built }), head()).build.pace;
    expect(paceOf('first')).toEqual({ use: true, prior: 1.5 });
    expect(paceOf('second')).toEqual({ use: true, prior: 1.1 });
  });
});

// Helpers

function weeksTo(instant: string): number {
  return (Date.parse(`${instant}Z`) - Date.parse(`${STARTS}T00:00Z`)) / (7 * 86_400_000);
}
