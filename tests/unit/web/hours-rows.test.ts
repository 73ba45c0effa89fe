import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { byDay, findIn, pickableTasks } from '../../../web/src/views/hours/hours-rows.ts';
import { partedWords } from '../../../web/src/views/hours/rhythm-words.ts';
import { sumWords } from '../../../web/src/views/hours/split-words.ts';
import { shownWeeks, stepPath } from '../../../web/src/views/hours/week-shapes.ts';
import {
  addMonths,
  daysOf,
  readDay,
  readMonth,
  wentInSentence,
} from '../../../web/src/views/hours/went-in-words.ts';
import { makeBuild, NOW, task } from '../../support/builds.ts';

const BUILD = makeBuild({
  build: { asOf: '2026-06-20T00:00' },
  tasks: [
    task('last', 60, {
      state: 'finished',
      startedAt: '2026-06-02T09:00',
      finishedAt: '2026-06-05T10:00',
    }),
    task('next', 60, { name: 'Dämmung an der Tür' }),
    task('under-way', 60, { state: 'started', startedAt: '2026-06-02T09:00' }),
  ],
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
});

describe('hours on their sheet', () => {
  it('should list the latest day first with its sum', () => {
    expect(byDay(BUILD.hours).map(({ day, minutes, entries }) => [day, minutes, entries.length])).toEqual([
      ['2026-06-16', 150, 2],
      ['2026-06-07', 90, 1],
      ['2026-06-01', 60, 1],
    ]);
  });

  it('should offer what is under way first, what is finished last, and find names without their dots', () => {
    const all = pickableTasks(BUILD, computePlan(BUILD, { now: NOW }));
    expect(all.map(({ key }) => key)).toEqual(['under-way', 'next', 'last']);
    expect(findIn(all, 'tur damm').map(({ key }) => key)).toEqual(['next']);
  });

  it('should say what a sum shared out by hand lacks', () => {
    const parts = (...minutes: number[]) => minutes.map((part, i) => ({ task: `t${i}`, minutes: part }));
    expect(sumWords(parts(60, 30), 90)).toBe('');
    expect(sumWords(parts(60, 45), 90)).toBe('15 min more than 1 h 30.');
    expect(sumWords(parts(60), 90)).toBe('30 min of 1 h 30 are still to be given out.');
    expect(sumWords(parts(NaN), 90)).toMatch(/^Say hours and minutes/);
    expect(sumWords(parts(120, -30), 90)).toMatch(/less than nothing/);
  });
});

describe('the chart of weeks', () => {
  const planned = (from: string, minutes: number) => ({ from, minutes, away: minutes === 0 });
  const worked = (from: string, total: number) => ({ from, total, by: new Map() });
  const rhythm = {
    worked: [worked('2026-06-01', 60), worked('2026-06-08', 90)],
    planned: [planned('2026-06-08', 120), planned('2026-06-15', 0), planned('2026-06-22', 60)],
    lately: null,
    asks: null,
    parted: null,
  };

  it('should lay worked and planned weeks in one row', () => {
    const weeks = shownWeeks(rhythm, 10);
    expect(weeks.map((week) => [week.from, week.worked?.total, week.planned?.minutes, week.away])).toEqual([
      ['2026-06-01', 60, undefined, false],
      ['2026-06-08', 90, 120, false],
      ['2026-06-15', undefined, 0, true],
      ['2026-06-22', undefined, 60, false],
    ]);
  });

  it('should keep the weeks around the running one where there is no room for all', () => {
    expect(shownWeeks(rhythm, 3).map(({ from }) => from)).toEqual(['2026-06-01', '2026-06-08', '2026-06-15']);
  });

  it('should draw planned weeks as one stepped line with its feet on the ground', () => {
    const path = stepPath(
      [null, 2, 1],
      (i) => i * 10,
      (value) => 100 - value,
    );
    expect(path).toBe('M10 100V98H20V99H30V100');
  });

  it('should say what the plan asks beside what was worked, and when that would be finished', () => {
    const mean = (minutes: number) => ({ minutes, weeks: 8, from: '2026-06-01', to: '2026-07-20' });
    const said = partedWords(
      { ...rhythm, lately: mean(1092), asks: mean(1386), parted: { minutes: 294, finish: '2028-09-23' } },
      '2027-03-09',
      '2028-06-03',
    );
    expect(said?.lead).toBe('The plan asks 23.1 h a week, lately it was 18.2.');
    expect(said?.rest).toBe(
      'At that rate it would be finished about Sat 23 Sep 2028, 16 weeks past the target. Find 4.9 h more a week, or let the windows say what is really worked.',
    );
    expect(partedWords(rhythm, '2027-03-09', null)).toBeNull();
  });
});

describe('what went in', () => {
  const nothing = {
    entries: [],
    minutes: 0,
    byPerson: new Map(),
    byPhase: new Map(),
    days: 0,
    finished: [],
    signed: [],
    closed: [],
    came: [],
  };

  it('should be one sentence', () => {
    expect(wentInSentence(nothing, (key) => key)).toBe('Nothing was logged.');
    expect(wentInSentence({ ...nothing, finished: ['t'] }, (key) => key)).toBe(
      'No hours were logged; 1 task finished.',
    );
    expect(
      wentInSentence(
        {
          ...nothing,
          minutes: 150,
          byPerson: new Map([['b', 150]]),
          entries: BUILD.hours.slice(0, 1),
          signed: [{ task: 't', check: 'c', name: 'no gap', at: '2026-06-16T12:00' }],
        },
        (key) => key.toUpperCase(),
      ),
    ).toBe('2 h 30 of B; 1 check signed.');
  });

  it('should know months and days of the address, and take no others', () => {
    expect(addMonths('2026-12', 1)).toBe('2027-01');
    expect(addMonths('2026-01', -1)).toBe('2025-12');
    expect(daysOf('2028-02')).toHaveLength(29);
    expect(readDay('2027-02-29')).toBeNull();
    expect(readDay('2027-02-28')).toBe('2027-02-28');
    expect(readDay('tomorrow')).toBeNull();
    expect(readMonth('2027-13')).toBeNull();
    expect(readMonth('2027-12')).toBe('2027-12');
  });
});
