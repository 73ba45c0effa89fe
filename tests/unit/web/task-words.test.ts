import { describe, expect, it } from 'vitest';
import { makeBuild, task } from '../../support/builds.ts';
import { findTasks } from '../../../web/src/views/task/find-tasks.ts';
import { partWords } from '../../../web/src/views/task/task-parts.ts';
import { finished, started, stepBack } from '../../../web/src/state/task-state.ts';
import { kindWords, kindWordsFirst } from '../../../web/src/views/task/task-words.ts';
import { minutesOf, stretchOf, ticksOf } from '../../../web/src/views/task/time-line.ts';

describe('a link in words', () => {
  it('should say its kind and its lag from either side', () => {
    const link = { kind: 'FS', lagMinutes: 0, lagOn: 'clock' } as const;
    expect(kindWords(link)).toBe('starts once that is finished');
    expect(kindWordsFirst(link)).toBe('must be finished before that starts');
    expect(kindWords({ ...link, kind: 'SS', lagMinutes: 2880 })).toBe(
      'starts once that has started, 2 days later',
    );
    expect(kindWordsFirst({ ...link, kind: 'FF', lagMinutes: 90, lagOn: 'working' })).toBe(
      'must be finished 1 h 30 of work before that finishes',
    );
  });
});

describe('finding a task', () => {
  const build = makeBuild({
    phases: [{ key: 'e', name: 'Electrics' }],
    tasks: [
      task('a', 1, { name: 'Pull the hob cable', phase: 'e' }),
      task('b', 1, { name: 'Cable list' }),
      task('c', 1, { name: 'Gerüst für Düse' }),
    ],
  });
  it('should take any part of its words, without accents, best first', () => {
    expect(findTasks(build, 'cable', new Set()).map(({ key }) => key)).toEqual(['b', 'a']);
    expect(findTasks(build, 'duse ger', new Set()).map(({ key }) => key)).toEqual(['c']);
    expect(findTasks(build, 'electrics', new Set(['a']))).toEqual([]);
    expect(findTasks(build, '   ', new Set())).toEqual([]);
  });
});

describe('the state of a task', () => {
  const [fresh] = makeBuild({ tasks: [task('a', 60)] }).tasks as [
    ReturnType<typeof makeBuild>['tasks'][number],
  ];
  it('should go forward and back to what it was', () => {
    const begun = started(fresh, '2026-06-01T00:00');
    const done = finished(
      { ...begun, remainingMinutes: 10 },
      { began: '2026-06-01T00:00', at: '2026-06-01T01:00', hoursKnown: false },
    );
    expect(done).toMatchObject({ state: 'finished', remainingMinutes: null, hoursKnown: false });
    expect(stepBack(done)).toEqual(begun);
    expect(stepBack(stepBack(done))).toEqual(fresh);
  });
});

describe('a part in words', () => {
  const [purchase] = makeBuild({
    purchases: [
      {
        key: 'p',
        state: 'part-received',
        orderedOn: '2026-06-01',
        lines: [{ key: 'l', name: 'batts', quantity: 3 }],
        deliveries: [{ on: '2026-06-05', line: 'l', quantity: 2 }],
      },
    ],
  }).purchases as [ReturnType<typeof makeBuild>['purchases'][number]];
  it('should say what is here and when the rest comes', () => {
    const line = purchase.lines[0]!;
    expect(partWords(purchase, line, '2026-06-13', '2026-06-06')).toBe('2 of 3 here, comes Sat 13 Jun');
    expect(partWords({ ...purchase, state: 'received' }, line, null, '2026-06-06')).toBe('here');
    expect(
      partWords({ ...purchase, state: 'wanted', deliveries: [] }, line, '2026-06-13', '2026-06-06'),
    ).toBe('not ordered');
  });
});

describe('the line of a task', () => {
  const day = 1440;
  it('should show today only where it is near, and cut what lies very far off', () => {
    const start = minutesOf('2027-03-13T09:00');
    const near = stretchOf({ start, end: start + day, ahead: [], today: start - 10 * day });
    expect(near.from).toBeLessThan(start - 10 * day);
    const far = stretchOf({ start, end: start + day, ahead: [start + 400 * day], today: start - 200 * day });
    expect(far.cut).toBe(true);
    expect(far.from).toBeGreaterThan(start - 2 * day);
    expect(far.to).toBeLessThan(start + 60 * day);
  });

  it('should never set more ticks than there is room for', () => {
    for (const days of [1, 5, 30, 200, 900]) {
      const ticks = ticksOf({ from: 0, to: days * day, cut: false }, 640);
      expect(ticks.length).toBeLessThanOrEqual(Math.max(11, days / 27));
      expect(ticks.every(({ at }) => at % day === 0)).toBe(true);
    }
  });
});
