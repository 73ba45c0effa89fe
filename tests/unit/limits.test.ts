/** What a plan does at its limits: nobody there, nothing ever dry, ten thousand tasks, a target long past. */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { ALL_WEEK, EVENINGS, link, makeBuild, NOW, task, type BuildParts } from '../support/builds.ts';

const plan = (parts: BuildParts) => computePlan(makeBuild(parts), { now: NOW });
const sentence = (parts: BuildParts) => {
  const { errors } = plan(parts);
  expect(errors.map(({ rule }) => rule)).toEqual(['never-runs']);
  return errors[0]!.sentence;
};

describe('a task that can never run', () => {
  it('should be named with the windows that are missing', () => {
    expect(sentence({ people: [{ key: 'a', name: 'Ada' }], tasks: [task('t', 60)] })).toBe(
      '“T” needs someone, but Ada has no working window any more.',
    );
  });

  it('should be named with the people that are missing', () => {
    expect(
      sentence({
        people: [{ key: 'a', name: 'Ada', week: ALL_WEEK }],
        tasks: [task('t', 60, { people: 3 })],
      }),
    ).toBe('“T” needs 3 people at once, but there is only Ada.');
    expect(sentence({ people: [], tasks: [task('t', 60)] })).toBe(
      '“T” needs someone, but there is nobody who may do it.',
    );
  });

  it('should not count people who work by name only', () => {
    const people = [{ key: 'a', name: 'Ada', week: ALL_WEEK, byNameOnly: true }];
    expect(sentence({ people, tasks: [task('t', 60)] })).toMatch(/there is nobody who may/);
    expect(plan({ people, tasks: [task('t', 60, { who: ['a'] })] }).errors).toEqual([]);
  });

  it('should be named with the condition that never holds again, or the tool that is gone', () => {
    const conditions = [{ key: 'dry', name: 'a dry day', notYearly: ['01-01..12-31'] }];
    expect(sentence({ conditions, tasks: [task('t', 60, { conditions: ['dry'] })] })).toBe(
      '“T” needs “a dry day”, which never holds again.',
    );
    const tools = [{ key: 'saw', name: 'saw', only: [{ from: '2026-01-01', to: '2026-01-05' }] }];
    expect(sentence({ tools, tasks: [task('t', 60, { tools: ['saw'] })] })).toBe(
      '“T” needs the saw, which is not there any more.',
    );
  });

  it('should be named when its shortest sitting is longer than any window', () => {
    const people = [{ key: 'a', name: 'Ada', week: EVENINGS }];
    expect(sentence({ people, tasks: [task('t', 900, { shortestSitting: 480 })] })).toBe(
      '“T” needs a sitting of 8 h, but the longest there is has 7 h.',
    );
  });

  it('should be named when two people are there only in turns', () => {
    const people = [
      { key: 'a', name: 'Ada', week: { mon: ['09:00-12:00'] } },
      { key: 'b', name: 'Ben', week: { tue: ['09:00-12:00'] } },
    ];
    expect(sentence({ people, tasks: [task('t', 60, { people: 2 })] })).toBe(
      '“T” needs 2 people at once, but Ada and Ben have no common working window any more.',
    );
  });

  it('should be named when any two of three are there, but never the same two for long enough', () => {
    const people = [
      { key: 'a', name: 'Ada', week: { mon: ['09:00-11:00'] } },
      { key: 'b', name: 'Ben', week: { mon: ['09:00-10:00', '11:00-12:00'] } },
      { key: 'c', name: 'Cy', week: { mon: ['10:00-12:00'] } },
    ];
    expect(sentence({ people, tasks: [task('t', 180, { people: 2, shortestSitting: 180 })] })).toMatch(
      /ever there together/,
    );
  });

  it('should leave what follows without dates, and the rest with', () => {
    const people = [{ key: 'a', name: 'Ada', week: ALL_WEEK }];
    const { tasks, finish, errors } = plan({
      people,
      tasks: [task('t', 60, { people: 2 }), task('after', 60), task('other', 60)],
      links: [link('t', 'after')],
    });
    expect(errors).toHaveLength(1);
    expect(tasks['after']!.unplaced).toMatch(/waits for “T”/);
    expect(tasks['other']!.dates).not.toBeNull();
    expect([finish.early, finish.dates]).toEqual([null, null]);
  });

  it('should be told of a wait that never ends', () => {
    const conditions = [{ key: 'warm', name: 'above 30 °C', notYearly: ['01-01..12-31'] }];
    const { errors, tasks } = plan({
      conditions,
      tasks: [task('glue', 60, { waitMinutes: 60, waitConditions: ['warm'] }), task('next', 60)],
      links: [link('glue', 'next')],
    });
    expect(errors[0]!.sentence).toMatch(/wait after “GLUE” runs only while “above 30 °C” holds/);
    expect(tasks['glue']!.dates).not.toBeNull();
    expect(tasks['next']!.dates).toBeNull();
  });
});

describe('odd builds', () => {
  it('should plan a build without anything in it', () => {
    const { finish, tasks, errors, progress } = plan({ people: [] });
    expect([finish.early, finish.dates, tasks, errors]).toEqual([null, null, {}, []]);
    expect(progress.complete).toBeNull();
  });

  it('should end a build in which all is finished with its last wait', () => {
    const done = { state: 'finished', startedAt: '2026-06-01T09:00', finishedAt: '2026-06-01T10:00' };
    const { finish, progress } = plan({
      build: { asOf: '2026-07-01T00:00' },
      tasks: [task('t', 60, { ...done, waitMinutes: 120 })],
    });
    expect(finish).toEqual({ early: 12 * 60, dates: '2026-06-01T12:00' });
    expect(progress.complete).toBe(1);
  });

  it('should start nothing before now in a build that lay still for a year', () => {
    const { tasks } = computePlan(makeBuild({ build: { asOf: null }, tasks: [task('t', 60)] }), {
      now: '2027-06-20T12:00',
    });
    expect(tasks['t']!.dates!.start).toBe('2027-06-20T12:00');
  });

  it('should look at a build that has not begun from its first day', () => {
    const { asOf } = computePlan(makeBuild({ build: { asOf: null }, tasks: [task('t', 60)] }), {
      now: '2020-01-01T12:00',
    });
    expect(asOf).toBe('2026-06-01T00:00');
  });

  it('should give negative slack when the target cannot be met, however far back it lies', () => {
    const people = [{ key: 'a', name: 'Ada', week: EVENINGS }];
    const { tasks } = plan({
      people,
      build: { targetFinishOn: '2026-06-01' },
      tasks: [task('x', 6000), task('y', 6000)],
      links: [link('x', 'y')],
    });
    expect(tasks['x']!.totalFloat).toBeLessThan(-6000);
    expect(tasks['y']!.totalFloat).toBe(tasks['x']!.totalFloat);
  });

  it('should plan tasks called like the parts of an object', () => {
    const keys = ['constructor', 'toString', 'hasOwnProperty', '1', '0'];
    const { tasks, finish } = plan({
      tasks: keys.map((key) => task(key, 60)),
      links: keys.slice(1).map((key, i) => link(keys[i]!, key)),
    });
    expect(Object.keys(tasks).toSorted()).toEqual(keys.toSorted());
    expect(finish.early).toBe(300);
  });

  it('should plan a chain of ten thousand tasks', () => {
    const count = 10_000;
    const { finish, errors } = plan({
      tasks: Array.from({ length: count }, (_, i) => task(`t${i}`, 1)),
      links: Array.from({ length: count - 1 }, (_, i) => link(`t${i}`, `t${i + 1}`)),
    });
    expect([finish.early, errors]).toEqual([count, []]);
  });

  it('should untie a ring of ten thousand tasks by one link', () => {
    const count = 10_000;
    const { leftOut, errors } = plan({
      tasks: Array.from({ length: count }, (_, i) => task(`t${i}`, 1)),
      links: Array.from({ length: count }, (_, i) =>
        link(`t${i}`, `t${(i + 1) % count}`, { reason: i === 77 ? '' : 'said' }),
      ),
    });
    expect(leftOut).toEqual([{ from: 't77', to: 't78', kind: 'FS' }]);
    expect(errors).toHaveLength(1);
  });

  it('should untie a thoroughly tangled build without hanging', () => {
    const count = 300;
    const links = Array.from({ length: 4 * count }, (_, i) =>
      link(`t${(i * 37) % count}`, `t${(i * i * 11 + i * 5 + 1) % count}`),
    );
    const unique = [...new Map(links.map((one) => [JSON.stringify(one), one])).values()];
    const straight = unique.filter((one) => 'from' in one && 'to' in one && one.from !== one.to);
    const { provisional, tasks } = plan({
      tasks: Array.from({ length: count }, (_, i) => task(`t${i}`, 1)),
      links: straight,
    });
    expect(provisional).toBe(true);
    expect(Object.values(tasks).every(({ dates }) => dates !== null)).toBe(true);
  });
});
