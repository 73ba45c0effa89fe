import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { computePlan } from '#shared/plan.ts';
import { barsOf } from '../../../web/src/views/schedule/bars.ts';
import { codesOf, codesShort } from '../../../web/src/views/schedule/codes.ts';
import { awayOf } from '../../../web/src/views/schedule/away.ts';
import {
  groupsOf,
  inTwo,
  numbersOf,
  rowsOf,
  type Filter,
  type Folding,
  type Row,
} from '../../../web/src/views/schedule/rows.ts';
import { merged } from '../../../web/src/views/schedule/summary.ts';
import { dayNumber } from '#shared/time/days.ts';
import { EVENINGS, makeBuild, task } from '../../support/builds.ts';

describe('the rows of the schedule', () => {
  it('should fold finished phases into one row, unfold what is near and fold the rest', () => {
    expect(told(rows(BUILD))).toEqual(['1–2 folded', '3: open', '3: now', '4 folded', '5 folded']);
  });

  it('should keep the finished tasks of a phase out of sight until they are asked for', () => {
    expect(told(rows(BUILD, { flip: new Set(['three:done']) }))).toContain('3: old');
  });

  it('should show every task of every phase, in the order of the phases and then of their dates', () => {
    expect(told(rows(BUILD, { show: 'all' }))).toEqual([
      '1: one',
      '2: two',
      '3: old',
      '3: open',
      '3: now',
      '4: later',
      '5: last',
    ]);
  });

  it('should fold everything on one word, and unfold single phases again', () => {
    expect(told(rows(BUILD, { show: 'folded' }))).toEqual(['1–2 folded', '3 folded', '4 folded', '5 folded']);
    expect(told(rows(BUILD, { show: 'folded', flip: new Set(['four']) }))).toContain('4: later');
  });

  it('should unfold the phase of the task that is looked at', () => {
    expect(told(rows(BUILD, { reveal: 'last' }))).toContain('5: last');
    expect(told(rows(BUILD, { reveal: 'old' }))).toContain('3: old');
  });

  it('should show what a filter leaves, finished or not', () => {
    expect(told(rows(BUILD, {}, { person: 'a' }))).toEqual(['3: open', '3: now', '4: later', '5: last']);
    expect(told(rows(BUILD, {}, { zone: 'L1' }))).toEqual(['1: one', '5: last']);
    expect(told(rows(BUILD, {}, { phase: 'three' }))).toEqual(['3: old', '3: open', '3: now']);
  });

  it('should put tasks without a phase last', () => {
    const build = makeBuild({
      phases: [{ key: 'p', name: 'P' }],
      people: PEOPLE,
      tasks: [task('loose', 60), task('t', 60, { phase: 'p' })],
    });
    expect(told(rows(build, { show: 'all' }))).toEqual(['1: t', '2: loose']);
  });

  it('should count every task once, whatever is folded', () => {
    const file = wagtail();
    const plan = computePlan(file, { now: file.build.asOf! });
    for (const show of ['all', 'folded', null] as const) {
      const all = rowsOf(
        groupsOf(file, plan, NO_FILTER),
        plan,
        { show, flip: new Set(), reveal: null },
        false,
      );
      const keys = all.flatMap((row) =>
        row.kind === 'task' ? [row.task.key] : row.groups.flatMap(({ tasks }) => tasks.map(({ key }) => key)),
      );
      expect(new Set(keys).size).toBe(keys.length);
      const hidden = all.reduce(
        (sum, row) => sum + (row.kind === 'task' && row.place === 0 ? row.hidden : 0),
        0,
      );
      expect(keys.length + hidden).toBe(file.tasks.length);
      expect(all.map(({ index }) => index)).toEqual(all.map((_, i) => i));
    }
  });

  it('should say runs of numbers short', () => {
    const group = (number: number) => ({ key: '', number, name: '', tasks: [], finished: 0 });
    expect(numbersOf([group(3)])).toBe('3');
    expect(numbersOf([1, 2, 3].map(group))).toBe('1–3');
    expect(numbersOf([1, 3].map(group))).toBe('1, 3');
  });

  it('should break a long name between words', () => {
    expect(inTwo('Underbody and engine bay', 17)).toEqual(['Underbody and', 'engine bay']);
    expect(inTwo('Floor', 17)).toEqual(['Floor', '']);
    expect(inTwo('Unbreakablelongname here', 10)).toEqual(['Unbreakablelongname here', '']);
  });
});

describe('bars', () => {
  it('should give one mark a day worked, and tint for hours logged', () => {
    const build = makeBuild({
      build: { asOf: '2026-06-02T08:00' },
      people: PEOPLE,
      tasks: [task('t', 300, { state: 'started', startedAt: '2026-06-01T10:00' })],
      hours: [{ task: 't', person: 'a', on: '2026-06-01', minutes: 60 }],
    });
    const bar = barsOf(build, computePlan(build, { now: '2026-06-02T08:00' })).get('t')!;
    expect(bar.worked).toEqual([dayNumber('2026-06-01')]);
    // Tuesday and Thursday evening: four hours are left.
    expect(bar.days).toEqual([dayNumber('2026-06-02'), dayNumber('2026-06-04')]);
    expect([bar.start, bar.end]).toEqual([dayNumber('2026-06-01'), dayNumber('2026-06-05')]);
  });

  it('should have a bar for every dated task of the demo, none ending before it starts', () => {
    const file = wagtail();
    const plan = computePlan(file, { now: file.build.asOf! });
    const bars = barsOf(file, plan);
    expect(bars.size).toBe(Object.values(plan.tasks).filter(({ dates }) => dates !== null).length);
    for (const bar of bars.values()) {
      expect(bar.end).toBeGreaterThan(bar.start);
      if (bar.waitTo !== null) expect(bar.waitTo).toBeGreaterThanOrEqual(bar.end);
      if (bar.slack !== null) expect(bar.slack).toBeGreaterThanOrEqual(1);
    }
  });
});

describe('zone codes', () => {
  const zones = ['L1', 'L2', 'L3', 'R2', 'R3', 'U']
    .map((key) => ({ key, name: key, face: 'elsewhere', bay: null, capacity: 1, depths: [] }) as const)
    .map((zone) => ({ ...zone, depths: [] as string[] }));

  it('should say a whole face by its letter', () => {
    expect(codesOf(['L1', 'L2', 'L3', 'R2'], zones)).toEqual(['L', 'R2']);
    expect(codesOf(['R2', 'R3'], zones)).toEqual(['R']);
    expect(codesOf(['U'], zones)).toEqual(['U']);
  });

  it('should say how many more there are where they do not fit', () => {
    expect(codesShort(['L1', 'R2', 'C3', 'U'], 8)).toBe('L1 R2 +2');
    expect(codesShort([], 8)).toBe('');
  });
});

describe('days away', () => {
  const off = (from: string, to: string, why: string, windows: string[] = []) => ({ from, to, why, windows });

  it('should be those on which nobody who does everything is there', () => {
    const build = makeBuild({
      people: [
        { key: 'a', name: 'A', week: EVENINGS, exceptions: [off('2026-07-01', '2026-07-10', 'sea')] },
        {
          key: 'b',
          name: 'B',
          week: EVENINGS,
          exceptions: [
            off('2026-07-04', '2026-07-20', 'sea'),
            off('2026-07-06', '2026-07-06', '', ['09:00-10:00']),
          ],
        },
        { key: 'c', name: 'C', byNameOnly: true, week: EVENINGS },
      ],
    });
    expect(awayOf(build.people, dayNumber('2026-06-01'))).toEqual([
      { from: dayNumber('2026-07-04'), to: dayNumber('2026-07-06'), why: 'sea' },
      { from: dayNumber('2026-07-07'), to: dayNumber('2026-07-11'), why: 'sea' },
    ]);
  });

  it('should be none where nobody is known', () => {
    expect(awayOf([], 0)).toEqual([]);
  });
});

it('should run stretches together that overlap or touch', () => {
  expect(
    merged([
      [5, 7],
      [1, 3],
      [3, 4],
      [6, 9],
    ]),
  ).toEqual([
    [1, 4],
    [5, 9],
  ]);
});

// Helpers

const PEOPLE = [{ key: 'a', name: 'A', week: EVENINGS }];
const NO_FILTER: Filter = { zone: null, person: null, phase: null };

const done = (from: string, to: string) => ({
  state: 'finished',
  startedAt: `${from}T10:00`,
  finishedAt: `${to}T12:00`,
});
const place = (zone: string) => ({ places: [{ zone, depth: 'd' }] });

/** Two finished phases, one under way, two that come later. */
const BUILD = makeBuild({
  build: { startOn: '2026-01-05', asOf: '2026-06-01T00:00' },
  people: PEOPLE,
  depths: ['d'],
  zones: [{ key: 'L1', name: 'L1', depths: ['d'] }],
  phases: ['one', 'two', 'three', 'four', 'five'].map((key) => ({ key, name: key })),
  tasks: [
    task('one', 60, { phase: 'one', ...done('2026-01-06', '2026-01-07'), ...place('L1') }),
    task('two', 60, { phase: 'two', ...done('2026-01-08', '2026-01-09') }),
    task('now', 60, { phase: 'three' }),
    task('open', 60, {
      phase: 'three',
      state: 'started',
      startedAt: '2026-05-28T10:00',
      remainingMinutes: 60,
    }),
    task('old', 60, { phase: 'three', ...done('2026-01-10', '2026-01-11') }),
    task('later', 60, { phase: 'four', fixedStart: '2026-10-01T18:30' }),
    task('last', 60, { phase: 'five', fixedStart: '2026-11-03T18:30', ...place('L1') }),
  ],
});

function rows(build: BuildFile, folding: Partial<Folding> = {}, filter: Partial<Filter> = {}): Row[] {
  const plan = computePlan(build, { now: '2026-06-01T00:00' });
  const whole = { ...NO_FILTER, ...filter };
  const filtered = Object.values(whole).some((one) => one !== null);
  return rowsOf(
    groupsOf(build, plan, whole),
    plan,
    { show: null, flip: new Set(), reveal: null, ...folding },
    filtered,
  );
}

function told(all: readonly Row[]): string[] {
  return all.map((row) =>
    row.kind === 'fold' ? `${numbersOf(row.groups)} folded` : `${row.group.number}: ${row.task.key}`,
  );
}
