/** Hours as they are told: one sitting over several tasks, hours sorted later, what they do to the tasks. */
import { describe, expect, it } from 'vitest';
import type { Hours } from '#shared/contract/log.ts';
import { computePlan } from '#shared/plan.ts';
import { remainingAt } from '#shared/progress/how-far.ts';
import {
  beyondTheDay,
  entriesOf,
  loggedOn,
  sortedInto,
  splitOver,
  unsortedHours,
} from '#shared/progress/log-hours.ts';
import { workedOn } from '#shared/progress/worked-on.ts';
import { makeBuild, NOW, task } from '../support/builds.ts';

const file = makeBuild({
  build: { asOf: '2026-06-10T20:00' },
  phases: [{ key: 'p', name: 'P' }],
  tasks: [
    task('a', 60, { phase: 'p' }),
    task('b', 120),
    task('c', 60, { people: 2 }),
    task('d', 600, {
      state: 'finished',
      startedAt: '2026-06-02T09:00',
      finishedAt: '2026-06-05T10:00',
    }),
    task('e', 100, { state: 'started', startedAt: '2026-06-02T09:00' }),
  ],
  hours: [
    { key: 'h1', task: 'a', person: 'a', on: '2026-06-06', minutes: 1000 },
    { key: 'h2', phase: 'p', person: 'a', on: '2026-06-07', minutes: 100 },
    { key: 'h3', person: 'a', on: '2026-06-08', minutes: 50 },
  ],
});
const plan = computePlan(file, { now: NOW });
const tasks = (...keys: string[]) => file.tasks.filter(({ key }) => keys.includes(key));
const minutes = (parts: readonly { task: string; minutes: number }[]) =>
  Object.fromEntries(parts.map((part) => [part.task, part.minutes]));

describe('one sitting over several tasks', () => {
  it('should give each task its share of what they still need, counted in hands', () => {
    // a needs 60, b 120, c 60 with two people at it: 120. Of 300: 60, 120, 120.
    expect(minutes(splitOver(300, tasks('a', 'b', 'c'), plan))).toEqual({ a: 60, b: 120, c: 120 });
  });

  it('should give out every minute, the odd ones to the largest remainders', () => {
    expect(minutes(splitOver(100, tasks('a', 'b', 'c'), plan))).toEqual({ a: 20, b: 40, c: 40 });
    expect(minutes(splitOver(101, tasks('a', 'b', 'c'), plan))).toEqual({ a: 20, b: 41, c: 40 });
  });

  it('should give a finished task nothing beside open ones, and go by estimates where all are finished', () => {
    expect(minutes(splitOver(60, tasks('a', 'd'), plan))).toEqual({ a: 60, d: 0 });
    expect(minutes(splitOver(60, tasks('d'), plan))).toEqual({ d: 60 });
  });

  it('should make an entry for each task that got something, of its phase', () => {
    let n = 0;
    const entries = entriesOf(
      { person: 'a', on: '2026-06-09', note: 'with the radio on' },
      splitOver(60, tasks('a', 'd'), plan),
      (key) => file.tasks.find((one) => one.key === key)!.phase,
      () => `n${n++}`,
    );
    expect(entries).toEqual([
      {
        key: 'n0',
        task: 'a',
        phase: 'p',
        person: 'a',
        on: '2026-06-09',
        minutes: 60,
        note: 'with the radio on',
      },
    ]);
  });

  it('should know how much of a day is left', () => {
    expect(loggedOn(file, 'a', '2026-06-06')).toBe(1000);
    expect(loggedOn(file, 'a', '2026-06-06', new Set(['h1']))).toBe(0);
    expect(beyondTheDay(file, { person: 'a', on: '2026-06-06' }, 440)).toBe(0);
    expect(beyondTheDay(file, { person: 'a', on: '2026-06-06' }, 500)).toBe(60);
  });
});

describe('hours sorted later', () => {
  it('should list what no task has yet, the latest first', () => {
    expect(unsortedHours(file).map(({ key }) => key)).toEqual(['h3', 'h2']);
  });

  it('should keep the entry under its key for the first task, and add the others', () => {
    const entry = file.hours[1] as Hours & { key: string };
    const sorted = sortedInto(
      entry,
      [
        { task: 'a', minutes: 0 },
        { task: 'b', minutes: 70 },
        { task: 'c', minutes: 30 },
      ],
      () => null,
      () => 'new',
    );
    expect(sorted.map(({ key, task: at, minutes: part, on }) => [key, at, part, on])).toEqual([
      ['h2', 'b', 70, '2026-06-07'],
      ['new', 'c', 30, '2026-06-07'],
    ]);
  });

  it('should refuse parts that do not add up', () => {
    const entry = file.hours[1] as Hours & { key: string };
    expect(() =>
      sortedInto(
        entry,
        [{ task: 'b', minutes: 70 }],
        () => null,
        () => 'new',
      ),
    ).toThrow(RangeError);
  });
});

describe('how far it is', () => {
  it('should leave as much again of a task that is half done, and a third of what was worked at three quarters', () => {
    const [b] = tasks('b');
    expect([remainingAt(0.5, 90, b!), remainingAt(0.75, 90, b!), remainingAt(0.25, 90, b!)]).toEqual([
      90, 30, 270,
    ]);
  });

  it('should share the hours between the people at it, and go by the estimate where none are logged', () => {
    const [c] = tasks('c');
    expect(remainingAt(0.5, 90, c!)).toBe(45);
    expect(remainingAt(0.75, 0, c!)).toBe(15);
  });

  it('should begin a task that was not begun, never after the day the build is told up to', () => {
    const [a] = tasks('a');
    const after = workedOn(a!, {
      began: '2026-06-10T21:00',
      ended: '2026-06-10T22:00',
      asOf: '2026-06-10T20:00',
      howFar: null,
      logged: 60,
    });
    expect(after).toMatchObject({ state: 'started', startedAt: '2026-06-10T20:00', remainingMinutes: null });
  });

  it('should finish it, or set what is left, and leave a finished one alone', () => {
    const [d, e] = tasks('d', 'e');
    const worked = { began: '2026-06-09T18:00', ended: '2026-06-09T20:00', asOf: null, logged: 60 };
    expect(workedOn(e!, { ...worked, howFar: 'done' })).toMatchObject({
      state: 'finished',
      startedAt: '2026-06-02T09:00',
      finishedAt: '2026-06-09T20:00',
    });
    expect(workedOn(e!, { ...worked, howFar: 0.5 })).toMatchObject({
      state: 'started',
      remainingMinutes: 60,
    });
    expect(workedOn(e!, { ...worked, howFar: null })).toBe(e);
    expect(workedOn(d!, { ...worked, howFar: 0.5 })).toBe(d);
  });
});
