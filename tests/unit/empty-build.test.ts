import { describe, expect, it } from 'vitest';
import { readBuild } from '#shared/contract/read.ts';
import { computePlan } from '#shared/plan.ts';
import { emptyBuild } from '#shared/starter/empty-build.ts';

const ASKED = {
  name: 'Finch',
  vehicle: 'a van',
  startOn: '2027-01-02',
  currency: 'EUR',
  person: 'Ann',
  phases: true,
};

describe('a build to begin with', () => {
  it('should be a right build with zones, depths, phases and hours, and no task', () => {
    const build = readBuild(emptyBuild(ASKED));
    expect(build.zones).toHaveLength(19);
    expect(build.zones.every(({ depths }) => depths[0] === 'metal')).toBe(true);
    expect(build.phases).toHaveLength(14);
    expect(build.people[0]!.week.sat).toEqual(['09:00-12:30', '13:30-17:00']);
    expect(build.tasks).toEqual([]);
  });

  it('should begin without phases if they are not wanted', () => {
    expect(readBuild(emptyBuild({ ...ASKED, phases: false })).phases).toEqual([]);
  });

  it('should give a plan with nothing in it', () => {
    const plan = computePlan(readBuild(emptyBuild(ASKED)), { now: '2027-01-02T08:00' });
    expect(plan.errors).toEqual([]);
    expect(plan.finish).toEqual({ early: null, dates: null });
  });
});
