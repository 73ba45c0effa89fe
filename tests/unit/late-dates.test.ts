/** Latest dates where the calendar does not reach back far enough, and dates too far ahead to be counted. */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { dayAfter } from '../support/arbitrary-builds.ts';
import { EVENINGS, link, makeBuild, NOW, START, task, type BuildParts } from '../support/builds.ts';

const plan = (parts: BuildParts) => computePlan(makeBuild(parts), { now: NOW });
const YEAR = 527_040;
const MILLENNIUM = 1000 * YEAR;

describe('late dates', () => {
  it('should lie before the end they keep, or not be known, where a wait reaches back past the calendar', () => {
    const { tasks } = plan({
      build: { targetFinishOn: START },
      conditions: [{ key: 'warm', name: 'warm', hours: '08:00-20:00' }],
      tasks: [task('glue', 60, { waitMinutes: 14_400, waitConditions: ['warm'] })],
    });
    const { late, totalFloat } = tasks['glue']!;
    // Twenty days of twelve warm hours before 20:00 of the target day, and the hour of work before that.
    expect(late).toEqual({ start: (-19 * 24 + 8 - 1) * 60, finish: (-19 * 24 + 8) * 60 });
    expect(totalFloat).toBeLessThan(0);
  });

  it('should not be known where the wait has never run long enough by then', () => {
    const { tasks } = plan({
      build: { targetFinishOn: START },
      conditions: [
        { key: 'warm', name: 'warm', hours: '08:00-20:00', not: [{ from: '2010-01-01', to: START }] },
      ],
      tasks: [task('saw', 60), task('glue', 60, { waitMinutes: 14_400, waitConditions: ['warm'] })],
      links: [link('saw', 'glue', { lagMinutes: 90 })],
    });
    for (const { late, totalFloat, slackDays, critical } of Object.values(tasks))
      expect({ late, totalFloat, slackDays, critical }).toEqual({
        late: null,
        totalFloat: null,
        slackDays: null,
        critical: false,
      });
  });

  it('should not be known where a working lag reaches back past the calendar', () => {
    const { tasks } = plan({
      build: { targetFinishOn: START },
      people: [{ key: 'a', name: 'A', week: EVENINGS, exceptions: [{ from: '2010-01-01', to: START }] }],
      tasks: [task('a', 0), task('b', 60), task('c', 60)],
      links: [
        link('a', 'b', { lagMinutes: 300, lagOn: 'working' }),
        link('c', 'b', { kind: 'FF', lagMinutes: 300, lagOn: 'working' }),
      ],
    });
    expect(Object.values(tasks).map(({ late }) => late)).toEqual([null, null, null]);
  });
});

describe('dates thousands of years ahead', () => {
  const years = (count: number) => ({
    tasks: Array.from({ length: count }, (_, i) => task(`t${i}`, 0, { waitMinutes: YEAR })),
    links: Array.from({ length: count - 1 }, (_, i) => link(`t${i}`, `t${i + 1}`)),
  });

  it('should be told as a wait that ends too far ahead, not given', () => {
    const { tasks, finish, errors } = plan(years(5000));
    expect(finish).toEqual({ early: null, dates: null });
    expect(errors).toHaveLength(1);
    expect(errors[0]!.sentence).toMatch(/^The wait after “T\d+” ends more than a thousand years ahead\.$/);
    const last = tasks['t4999']!;
    expect([last.dates, last.early, last.late, last.totalFloat]).toEqual([null, null, null, null]);
    expect(last.unplaced).toMatch(/has no dates: it waits for “T4998”/);
    for (const { early, late, dates } of Object.values(tasks)) {
      expect(early?.start ?? 0).toBeGreaterThanOrEqual(0);
      expect(early?.finish ?? 0).toBeLessThan(1.1 * MILLENNIUM);
      expect(late).toBeNull();
      expect(dates?.waitUntil ?? '2026').toMatch(/^[23]\d{3}/);
    }
  });

  it('should be told as a lag that ends too far ahead, for any kind of link', () => {
    for (const kind of ['FS', 'SS', 'FF', 'SF']) {
      const { tasks, finish, errors } = plan({
        tasks: Array.from({ length: 5000 }, (_, i) => task(`t${i}`, 0)),
        links: Array.from({ length: 4999 }, (_, i) => link(`t${i}`, `t${i + 1}`, { kind, lagMinutes: YEAR })),
      });
      expect(finish.early).toBeNull();
      expect(errors.map(({ sentence }) => sentence)).toEqual([
        expect.stringMatching(/^“T\d+” has no dates: its link from “T\d+” allows none, however far ahead\.$/),
      ]);
      expect(tasks['t4999']!.unplaced).toMatch(/waits for “T4998”/);
    }
  });

  it('should leave the end open where a finished task hardens for ever', () => {
    const { tasks, finish, errors } = plan({
      build: { asOf: '2026-06-08T00:00' },
      conditions: [{ key: 'warm', name: 'above 30 °C', notYearly: ['01-01..12-31'] }],
      tasks: [
        task('glue', 60, {
          state: 'finished',
          startedAt: '2026-06-01T09:00',
          finishedAt: '2026-06-01T10:00',
          waitMinutes: 60,
          waitConditions: ['warm'],
        }),
        task('next', 60),
        task('other', 60),
      ],
      links: [link('glue', 'next')],
    });
    expect(finish).toEqual({ early: null, dates: null });
    expect(errors.map(({ sentence }) => sentence)).toEqual([
      'The wait after “GLUE” runs only while “above 30 °C” holds, and that is never long enough again.',
    ]);
    expect(tasks['next']!.unplaced).toMatch(/waits for “GLUE”, which has none or never ends/);
    expect(tasks['other']!.dates).not.toBeNull();
  });

  it('should leave the late dates of what comes before a target in their order', () => {
    const { tasks } = plan({ ...years(5000), build: { targetFinishOn: START } });
    const known = Object.values(tasks).flatMap(({ late }) => (late === null ? [] : [late.start]));
    for (const start of known) expect(start).toBeLessThanOrEqual(1440);
  });

  it('should be told of work that would take thousands of years at its pace', () => {
    const { tasks, errors } = plan({
      build: { pace: { use: true } },
      phases: [{ key: 'p', name: 'P' }],
      tasks: [
        task('done', 1, {
          phase: 'p',
          state: 'finished',
          startedAt: '2026-05-01T09:00',
          finishedAt: '2026-05-01T10:00',
        }),
        task('next', YEAR, { phase: 'p' }),
      ],
      people: Array.from({ length: 50 }, (_, i) => ({ key: `p${i}`, name: 'P', week: EVENINGS })),
      hours: Array.from({ length: 5000 }, (_, i) => ({
        task: 'done',
        person: `p${i % 50}`,
        on: dayAfter(-100 + Math.floor(i / 50)),
        minutes: 1440,
      })),
    });
    expect(tasks['next']!.dates).toBeNull();
    expect(tasks['next']!.early).toBeNull();
    expect(errors.map(({ rule }) => rule)).toEqual(['never-runs']);
  });
});
