import { describe, expect, it } from 'vitest';
import type { PlannedTask } from '#shared/contract/plan.ts';
import { slackLeft } from '#shared/schedule/slack-left.ts';

const DAY = 1440;

function planned(
  finish: string,
  lateFinish: number,
  state: PlannedTask['state'] = 'not-started',
): PlannedTask {
  return {
    state,
    minutes: 60,
    complete: 0,
    early: null,
    late: { start: 0, finish: lateFinish },
    totalFloat: 0,
    freeFloat: 0,
    slackDays: 99,
    critical: false,
    dates: { start: finish, finish, waitUntil: finish, people: [], sittings: [] },
    chain: false,
    because: null,
    unplaced: null,
  };
}

describe('slack that is left after the planned date', () => {
  it('should count days of the calendar from the planned end to the last day it may end', () => {
    expect(slackLeft(planned('2027-03-11T12:00', 20 * DAY - 60), '2027-03-01')).toBe(9);
    expect(slackLeft(planned('2027-03-11T12:00', 10 * DAY + 13 * 60), '2027-03-01')).toBe(0);
    expect(slackLeft(planned('2027-03-11T12:00', 8 * DAY + 60), '2027-03-01')).toBe(-2);
  });

  it('should count an end at midnight to the day before', () => {
    expect(slackLeft(planned('2027-03-11T00:00', 10 * DAY), '2027-03-01')).toBe(0);
    expect(slackLeft(planned('2027-03-11T00:00', 11 * DAY), '2027-03-01')).toBe(1);
  });

  it('should not be known without dates, and not matter once it is done', () => {
    const open = planned('2027-03-11T12:00', 20 * DAY);
    expect(slackLeft({ ...open, dates: null }, '2027-03-01')).toBeNull();
    expect(slackLeft({ ...open, late: null }, '2027-03-01')).toBeNull();
    expect(slackLeft({ ...open, state: 'finished' }, '2027-03-01')).toBeNull();
  });
});
