/** What holds each task, by example: the one thing named, whichever order the records stand in. */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { EVENINGS, link, makeBuild, NOW, task, type BuildParts } from '../support/builds.ts';

const evenings = [{ key: 'a', name: 'Ada', week: EVENINGS }];
const LATER = { build: { asOf: '2026-06-08T00:00' } };
const done = (finishedAt: string) => ({ state: 'finished', startedAt: '2026-06-01T09:00', finishedAt });

function because(parts: BuildParts, key: string) {
  return computePlan(makeBuild(parts), { now: NOW }).tasks[key]!.because!;
}

describe('a task that nothing but its people holds', () => {
  it('should be held by the window, not by a link to the finish of what ended long ago', () => {
    const parts = {
      ...LATER,
      people: evenings,
      tasks: [task('t1', 60, done('2026-06-06T10:00')), task('t2', 60)],
      links: [link('t1', 't2', { kind: 'FF' })],
    };
    expect(because(parts, 't2')).toEqual({
      kind: 'window',
      task: null,
      key: null,
      words: 'Ada has no window before Tue 9 Jun 2026, 18:30.',
    });
  });

  it('should be held by the window when it cannot start now, and by nothing when it can', () => {
    expect(because({ people: evenings, tasks: [task('t', 60)] }, 't').words).toBe(
      'Ada has no window before Tue 2 Jun 2026, 18:30.',
    );
    expect(because({ tasks: [task('t', 60)] }, 't')).toMatchObject({ kind: 'as-of' });
  });

  it('should be held by a sitting that is too short, a condition or a tool that is not there', () => {
    const parts = {
      people: evenings,
      tools: [{ key: 'saw', name: 'saw', only: [{ from: '2026-06-04', to: '2026-06-30' }] }],
      conditions: [{ key: 'dry', name: 'a dry day', not: [{ from: '2026-06-01', to: '2026-06-03' }] }],
    };
    const held = (more: object) => because({ ...parts, tasks: [task('t', 240, more)] }, 't');
    expect(held({ shortestSitting: 180 })).toMatchObject({
      kind: 'window',
      words: 'It needs a sitting of at least 3 h; Ada has one from Sat 6 Jun 2026, 09:00.',
    });
    expect(held({ conditions: ['dry'] })).toMatchObject({ kind: 'condition', key: 'dry' });
    expect(held({ tools: ['saw'] })).toEqual({
      kind: 'tool',
      task: null,
      key: 'saw',
      words: 'It needs the saw, which is there from Thu 4 Jun 2026, 18:30.',
    });
  });
});

describe('a task tied to the finish of another', () => {
  const parts = (t1: object, kind = 'FF', lagMinutes = 0) => ({
    ...LATER,
    people: [...evenings, { key: 'b', name: 'Ben', week: EVENINGS }],
    tasks: [t1, task('t2', 60, { who: ['b'] })],
    links: [link('t1', 't2', { kind, lagMinutes, reason: 'both dry together' })],
  });

  it('should be held by it when it would end too early otherwise', () => {
    expect(because(parts(task('t1', 240, { who: ['a'] })), 't2')).toMatchObject({ kind: 'link', task: 't1' });
    expect(because(parts(task('t1', 240, { who: ['a'] }), 'SF', 3000), 't2')).toMatchObject({
      kind: 'link',
      task: 't1',
    });
  });

  it('should be held by a lag after the finish, or the start, of a finished task', () => {
    for (const [kind, lag] of [
      ['FF', 4 * 1440],
      ['SS', 9 * 1440],
      ['FS', 4 * 1440],
    ] as const)
      expect(because(parts(task('t1', 60, done('2026-06-06T10:00')), kind, lag), 't2')).toEqual({
        kind: 'link',
        task: 't1',
        key: null,
        words:
          kind === 'FS'
            ? 'It follows “T1” with a lag until Wed 10 Jun 2026, 10:00: both dry together.'
            : 'It is tied to “T1”: both dry together.',
      });
  });
});

describe('a task whose people are taken', () => {
  it('should name who was in the way, not what lies in a rest too short to begin in', () => {
    const parts = {
      people: evenings,
      tasks: [
        task('x', 105),
        task('y', 15, { fixedStart: '2026-06-02T20:30' }),
        task('t', 60, { shortestSitting: 60 }),
      ],
      order: ['x', 'y', 't'],
    };
    expect(because(parts, 't')).toEqual({
      kind: 'person',
      task: 'x',
      key: 'a',
      words: 'Ada is busy with “X” until Tue 2 Jun 2026, 20:15.',
    });
  });

  it('should tell a zone from a group of zones with the same key', () => {
    const depths = ['d0', 'd1'];
    const places = [{ zone: 'z', depth: 'd0' }];
    const parts = {
      people: [...evenings, { key: 'b', name: 'Ben', week: EVENINGS }],
      depths,
      zones: [{ key: 'z', name: 'Floor', depths, capacity: 1 }],
      zoneGroups: [{ key: 'z', zones: ['z'], capacity: 2 }],
      tasks: [task('t', 60, { who: ['a'], places }), task('u', 60, { who: ['b'], places })],
    };
    expect(because(parts, 'u')).toMatchObject({ kind: 'zone', task: 't', key: 'z' });
  });
});

describe('a task with several things that end together', () => {
  it('should name the first by key, not the first in the file', () => {
    const glue = (key: string) => task(key, 60, { ...done('2026-06-07T10:00'), waitMinutes: 2880 });
    for (const order of [
      ['x', 'y'],
      ['y', 'x'],
    ]) {
      const parts = {
        ...LATER,
        tasks: [...order.map(glue), task('t', 60)],
        links: order.map((key) => link(key, 't')),
      };
      expect(because(parts, 't')).toMatchObject({ kind: 'wait', task: 'x' });
      const purchases = order.map((key) => ({
        key,
        state: 'wanted',
        leadDays: 3,
        lines: [{ key: 'l', name: `part ${key}`, quantity: 1, neededBy: ['t'] }],
      }));
      expect(because({ tasks: [task('t', 60)], purchases }, 't')).toMatchObject({ kind: 'part', key: 'x' });
    }
  });

  it('should name a finished task behind a cover whose wait still runs', () => {
    const parts = {
      ...LATER,
      depths: ['d0', 'd1', 'd2'],
      zones: [{ key: 'z', name: 'Z', depths: ['d0', 'd1', 'd2'] }],
      tasks: [
        task('glue', 60, {
          ...done('2026-06-07T10:00'),
          waitMinutes: 2880,
          places: [{ zone: 'z', depth: 'd0' }],
        }),
        task('panel', 60, { places: [{ zone: 'z', depth: 'd2', hides: 'd1' }] }),
      ],
    };
    expect(because(parts, 'panel')).toEqual({
      kind: 'wait',
      task: 'glue',
      key: null,
      words: '“GLUE” hardens or waits until Tue 9 Jun 2026, 10:00.',
    });
  });
});
