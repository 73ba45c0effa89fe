/** How the finish slipped: the builds of days gone by, and which of many days are shown. */
import { describe, expect, it } from 'vitest';
import { chosenDays, slipOf, type PastDay } from '#shared/baselines/slip.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { readBuild } from '#shared/contract/read.ts';
import { dayText } from '#shared/time/days.ts';
import { document, link, task } from '../support/builds.ts';

describe('the slip of a build', () => {
  it('should be the finish as of the end of each day on which something was changed, and as of now', () => {
    // a is a day of 8 hours today; until 3 March it was two, and b came on 5 March.
    const points = slipOf(twoTasks(480), [day('2027-03-05', 'b', null), day('2027-03-03', 'a', 960)], ASKED);
    expect(points).toEqual([
      { day: '2027-03-01', finish: '2027-03-03T16:00', provisional: false, changes: 0 },
      // At the end of a day nothing can begin before the next one.
      { day: '2027-03-03', finish: '2027-03-04T16:00', provisional: false, changes: 1 },
      { day: '2027-03-05', finish: '2027-03-07T16:00', provisional: false, changes: 2 },
      { day: '2027-03-08', finish: '2027-03-09T16:00', provisional: false, changes: 0 },
    ]);
  });

  it('should begin with the day the build came where nothing was changed since', () => {
    const points = slipOf(twoTasks(480), [], ASKED);
    expect(points.map(({ day: on, changes }) => [on, changes])).toEqual([
      ['2027-03-01', 0],
      ['2027-03-08', 0],
    ]);
  });

  it('should have one point where it came today', () => {
    const points = slipOf(twoTasks(480), [], { ...ASKED, since: '2027-03-08' });
    expect(points.map(({ finish }) => finish)).toEqual(['2027-03-09T16:00']);
  });
});

describe('the days of a slip', () => {
  const days = Array.from({ length: 100 }, (_, i) => dayText(20_000 + i));

  it('should be all of few', () => {
    expect(chosenDays(days, 100)).toEqual(days);
  });

  it('should be the last of each week of many, and the first', () => {
    const found = chosenDays(days, 99);
    expect(found[0]).toBe(days[0]);
    expect(found.at(-1)).toBe(days.at(-1));
    // 100 days are 14 or 15 weeks begun, and the first day is shown beside them.
    expect(found.length).toBeGreaterThanOrEqual(15);
    expect(found.length).toBeLessThanOrEqual(17);
  });

  it('should be evenly some of very many, never more than asked for', () => {
    for (const most of [2, 3, 7, 10]) {
      const found = chosenDays(days, most);
      expect(found).toHaveLength(most);
      expect([found[0], found.at(-1)]).toEqual([days[0], days.at(-1)]);
      expect(new Set(found).size).toBe(most);
    }
  });
});

// Helpers

const ASKED = { now: '2027-03-08T08:00', since: '2027-03-01', most: 60, elsewhere: {} };

const DAYS = Object.fromEntries(
  ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].map((name) => [name, ['08:00-16:00']]),
);

function twoTasks(minutes: number): BuildFile {
  return readBuild(
    document({
      build: { startOn: '2027-03-01', asOf: null },
      people: [{ key: 'p', name: 'P', week: DAYS }],
      tasks: [task('a', minutes), task('b', 480)],
      links: [link('a', 'b')],
    }),
  );
}

/** A day on which a task (and, with b, its link) was changed from so many minutes; null: it was not there. */
function day(on: string, key: string, minutes: number | null): PastDay {
  const was = minutes === null ? null : twoTasks(minutes).tasks.find((one) => one.key === key)!;
  const gone = { noun: 'links' as const, id: 'a~b~FS', value: null };
  return {
    day: on,
    changes: minutes === null ? 2 : 1,
    before: [{ noun: 'tasks', id: key, value: was as never }, ...(minutes === null ? [gone] : [])],
  };
}
