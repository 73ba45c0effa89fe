/** The weekly rhythm by small examples: weeks worked, weeks planned, and what is said when they part. */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { rhythmOf } from '#shared/progress/rhythm.ts';
import { plannedWeeks, workedWeeks } from '#shared/progress/weeks.ts';
import { wentIn } from '#shared/progress/went-in.ts';
import { makeBuild, NOW, task, type BuildParts } from '../support/builds.ts';

/** Two hours on Tuesdays: 2026-06-02 is the first of them. */
const TUESDAYS = { tue: ['18:00-20:00'] };

describe('hours by week', () => {
  it('should sum each week from Monday to Sunday by person, empty weeks too', () => {
    const weeks = workedWeeks(
      makeBuild({
        people: [
          { key: 'a', name: 'A' },
          { key: 'b', name: 'B' },
        ],
        hours: [
          { key: 'h1', person: 'a', on: '2026-06-01', minutes: 60 },
          { key: 'h2', person: 'b', on: '2026-06-07', minutes: 90 },
          { key: 'h3', person: 'a', on: '2026-06-16', minutes: 120 },
          { key: 'h4', person: 'a', on: '2026-06-16', minutes: 30 },
        ],
      }),
      '2026-06-24',
    );
    expect(weeks.map(({ from, total }) => [from, total])).toEqual([
      ['2026-06-01', 150],
      ['2026-06-08', 0],
      ['2026-06-15', 150],
      ['2026-06-22', 0],
    ]);
    expect([...weeks[0]!.by]).toEqual([
      ['a', 60],
      ['b', 90],
    ]);
  });

  it('should count what is planned once for each person at it, in the weeks of its sittings', () => {
    const file = makeBuild({
      people: [
        { key: 'a', name: 'A', week: TUESDAYS },
        { key: 'b', name: 'B', week: TUESDAYS },
      ],
      tasks: [task('t', 180, { people: 2 })],
    });
    const weeks = plannedWeeks(file, computePlan(file, { now: NOW }));
    expect(weeks).toEqual([
      { from: '2026-06-01', minutes: 240, away: false },
      { from: '2026-06-08', minutes: 120, away: false },
    ]);
  });

  it('should cut a sitting that goes on from Sunday into Monday', () => {
    const file = makeBuild({
      people: [{ key: 'a', name: 'A', week: { sun: ['22:00-24:00'], mon: ['00:00-02:00'] } }],
      tasks: [task('t', 240, { fixedStart: '2026-06-07T22:00' })],
    });
    const weeks = plannedWeeks(file, computePlan(file, { now: NOW }));
    expect(weeks.map(({ minutes }) => minutes)).toEqual([120, 120]);
  });

  it('should mark weeks in which nobody has a window', () => {
    const file = makeBuild({
      people: [
        {
          key: 'a',
          name: 'A',
          week: TUESDAYS,
          exceptions: [{ from: '2026-06-08', to: '2026-06-14', windows: [] }],
        },
        { key: 'smith', name: 'Smith', byNameOnly: true, week: { mon: ['08:00-16:00'] } },
      ],
      tasks: [task('t', 240)],
    });
    const weeks = plannedWeeks(file, computePlan(file, { now: NOW }));
    expect(weeks.map(({ minutes, away }) => [minutes, away])).toEqual([
      [120, false],
      [0, true],
      [120, false],
    ]);
  });
});

describe('the rhythm', () => {
  /** Six weeks of an hour each on the Tuesdays of May and June 2026, and ten planned weeks of two. */
  const rhythm = (more: BuildParts = {}, worked = 6) => {
    const file = makeBuild({
      build: { startOn: '2026-04-27', asOf: '2026-06-09T00:00' },
      people: [{ key: 'a', name: 'A', week: TUESDAYS }],
      tasks: [task('t', 1200)],
      hours: Array.from({ length: worked }, (_, i) => ({
        key: `h${i}`,
        person: 'a',
        on: `2026-0${i < 4 ? 5 : 6}-${['05', '12', '19', '26', '02', '08'][i]}`,
        minutes: 60,
      })),
      ...more,
    });
    return rhythmOf(file, computePlan(file, { now: NOW }));
  };

  it('should take the mean of the full weeks, without the running one', () => {
    // From Monday 27 April to Sunday 7 June: six full weeks, the first of them empty.
    expect(rhythm().lately).toEqual({ minutes: 50, weeks: 6, from: '2026-04-27', to: '2026-06-01' });
  });

  it('should say nothing before four full weeks', () => {
    expect(
      rhythm({ build: { startOn: '2026-05-18', asOf: '2026-06-09T00:00' }, hours: [] }).lately,
    ).toBeNull();
    expect(
      rhythm({ build: { startOn: '2026-05-11', asOf: '2026-06-09T00:00' }, hours: [] }).lately,
    ).toMatchObject({ minutes: 0, weeks: 4 });
  });

  it('should leave weeks out in which nobody had a window, but not one worked all the same', () => {
    const away = {
      people: [
        {
          key: 'a',
          name: 'A',
          week: TUESDAYS,
          exceptions: [{ from: '2026-04-27', to: '2026-05-10', windows: [] }],
        },
      ],
    };
    expect(rhythm(away).lately).toEqual({ minutes: 60, weeks: 5, from: '2026-05-04', to: '2026-06-01' });
  });

  it('should ask what the plan plans in its full weeks', () => {
    // Twenty hours from Tuesday 9 June on, two a week: the running week and the last one are left out.
    expect(rhythm().asks).toEqual({ minutes: 120, weeks: 8, from: '2026-06-15', to: '2026-08-03' });
    expect(rhythm({ tasks: [] }).asks).toBeNull();
  });

  it('should say by how much they part, and roughly when it would be finished at the hours of lately', () => {
    // To Tuesday 11 August are 63 days; at 50 instead of 120 minutes a week 63 × 120 / 50 = 151 days.
    expect(rhythm().parted).toEqual({ minutes: 70, finish: '2026-11-07' });
    expect(rhythm({ hours: [] }).parted).toEqual({ minutes: 120, finish: null });
  });

  it('should be silent where they agree', () => {
    const agreeing = Array.from({ length: 6 }, (_, i) => ({
      key: `h${i}`,
      person: 'a',
      on: ['2026-04-28', '2026-05-05', '2026-05-12', '2026-05-19', '2026-05-26', '2026-06-02'][i]!,
      minutes: 110,
    }));
    expect(rhythm({ hours: agreeing }).parted).toBeNull();
  });
});

describe('what went in', () => {
  const file = makeBuild({
    build: { asOf: '2026-06-30T00:00' },
    depths: ['metal', 'sheet'],
    zones: [{ key: 'L1', name: 'Left', depths: ['metal', 'sheet'] }],
    phases: [{ key: 'p', name: 'P' }],
    tasks: [
      task('cover', 60, {
        phase: 'p',
        places: [{ zone: 'L1', depth: 'sheet', hides: 'metal' }],
        state: 'finished',
        startedAt: '2026-06-06T09:00',
        finishedAt: '2026-06-07T12:00',
        holdPoints: [
          {
            key: 'k',
            kind: 'visual',
            name: 'no gap',
            attempts: [
              { at: '2026-06-06T10:00', by: 'a', pass: false },
              { at: '2026-06-07T12:00', by: 'a', pass: true },
            ],
          },
        ],
      }),
    ],
    purchases: [
      {
        key: 'sheets',
        state: 'received',
        lines: [{ key: 's', name: 'sheets', quantity: 4 }],
        deliveries: [{ on: '2026-06-06', line: 's', quantity: 4 }],
      },
    ],
    hours: [
      { key: 'h1', task: 'cover', person: 'a', on: '2026-06-06', minutes: 240 },
      { key: 'h2', phase: 'p', person: 'a', on: '2026-06-07', minutes: 60 },
      { key: 'h3', person: 'a', on: '2026-07-01', minutes: 60 },
    ],
  });

  it('should tell a day: its hours, what was closed up and what came', () => {
    const day = wentIn(file, '2026-06-06', '2026-06-06');
    expect(day).toMatchObject({
      minutes: 240,
      days: 1,
      finished: [],
      signed: [],
      closed: [{ zone: 'L1', depth: 'metal', task: 'cover' }],
      came: [{ purchase: 'sheets', line: 's', name: 'sheets', on: '2026-06-06' }],
    });
  });

  it('should tell a month: hours by phase and person, tasks finished, checks signed', () => {
    const month = wentIn(file, '2026-06-01', '2026-06-30');
    expect(month).toMatchObject({ minutes: 300, days: 2, finished: ['cover'] });
    expect(month.signed).toEqual([{ task: 'cover', check: 'k', name: 'no gap', at: '2026-06-07T12:00' }]);
    expect([...month.byPhase]).toEqual([['p', 300]]);
    expect([...month.byPerson]).toEqual([['a', 300]]);
  });

  it('should tell a quiet month as it is', () => {
    expect(wentIn(file, '2026-05-01', '2026-05-31')).toMatchObject({ minutes: 0, days: 0, finished: [] });
  });
});
