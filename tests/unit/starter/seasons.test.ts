import { describe, expect, it } from 'vitest';
import { CLIMATES, readAnswers } from '#shared/starter/answers.ts';
import { conditionOf, conditionsAt, daysBelow, monthlyMeans } from '#shared/starter/seasons.ts';
import { CATALOGUE_TASKS } from '#shared/starter/catalogue.ts';
import { starterBuild } from '#shared/starter/starter-build.ts';
import { computePlan } from '#shared/plan.ts';
import { head, STARTS } from '../../support/starter.ts';

const MILD = monthlyMeans('north-mild');

describe('days on which a temperature cannot be counted on', () => {
  it('should be one stretch around January in the north, around July in the south', () => {
    const [north] = daysBelow(8, MILD) as [string];
    expect(north).toMatch(/^1[01]-\d\d\.\.0[34]-\d\d$/);
    const [south] = daysBelow(8, monthlyMeans('south-mild')) as [string];
    expect(south).toMatch(/^0[45]-\d\d\.\.(09|10)-\d\d$/);
  });

  it('should be none where it never gets that cold, and every day where it never gets that warm', () => {
    expect(daysBelow(-10, MILD)).toEqual([]);
    expect(daysBelow(40, MILD)).toEqual(['01-01..12-31']);
  });

  it('should grow with the threshold, for every climate', () => {
    for (const climate of CLIMATES) {
      let before = -1;
      for (let threshold = -10; threshold <= 30; threshold++) {
        const days = daysIn(daysBelow(threshold, monthlyMeans(climate)));
        expect(days, `${climate} ${threshold}`).toBeGreaterThanOrEqual(before);
        before = days;
      }
      expect(before).toBe(366);
    }
  });

  it('should follow the line between the middles of two months', () => {
    // 0 °C in the middle of January, 10 °C in the middle of February and after: 5 °C halfway, on the last of January.
    const means = [0, 10, 10, 10, 10, 10, 10, 10, 10, 10, 10, 10];
    expect(daysBelow(5, means)).toEqual(['01-01..01-30']);
    // And the way down takes as long, from the middle of December.
    expect(daysBelow(9, means)).toEqual(['12-19..02-11']);
  });

  it('should be two stretches where the year has two winters', () => {
    const means = [0, 10, 20, 10, 0, 10, 20, 20, 20, 20, 20, 10];
    expect(daysBelow(5, means)).toHaveLength(2);
  });
});

describe('the conditions of a task', () => {
  const entry = (key: string) => CATALOGUE_TASKS.find((task) => task.key === key)!;

  it('should be those of the bay in a barn, none in a heated workshop, those of the yard without a roof', () => {
    expect(conditionsAt(entry('rust-under'), 'barn').work).toEqual(['noise', 'bay-15']);
    expect(conditionsAt(entry('rust-under'), 'heated').work).toEqual(['noise']);
    expect(conditionsAt(entry('rust-under'), 'outdoors').work).toEqual(['daylight', 'dry-day', 'yard-15']);
    expect(conditionsAt(entry('vinyl'), 'outdoors').work).toEqual(['noise', 'van-18']);
  });

  it('should stay outdoors where the work is outdoors, whatever the workshop', () => {
    for (const workshop of ['barn', 'heated', 'outdoors'] as const)
      expect(conditionsAt(entry('fan-cut'), workshop)).toEqual({
        work: ['daylight', 'dry-day', 'yard-10'],
        wait: ['yard-10'],
      });
  });

  it('should bind the work for fewer days the warmer the place', () => {
    const days = (key: string) => daysIn(conditionOf(key, MILD).notYearly);
    expect(days('bay-15')).toBeLessThan(days('van-15'));
    expect(days('van-15')).toBeLessThan(days('yard-15'));
  });
});

describe('a place with a climate of its own', () => {
  it('should be told which tasks never find their day, where it never gets warm', () => {
    const build = starterBuild(readAnswers({ climate: Array(12).fill(-20), workshop: 'barn' }), head());
    expect(build.conditions.find(({ key }) => key === 'yard-10')!.notYearly).toEqual(['01-01..12-31']);
    const plan = computePlan(build, { now: `${STARTS}T00:00` });
    expect(plan.tasks['fan-cut']!.unplaced).not.toBeNull();
  });
});

// Helpers

function daysIn(ranges: readonly string[]): number {
  return ranges.reduce((sum, range) => {
    const [from, to] = range.split('..').map((day) => Date.parse(`2000-${day}T00:00Z`) / 86_400_000) as [
      number,
      number,
    ];
    return sum + ((to - from + 366) % 366) + 1;
  }, 0);
}
