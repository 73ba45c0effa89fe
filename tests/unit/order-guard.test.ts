/** The order guard on small walls: what is reported, in which words, with which repair, and what it changes. */
import { describe, expect, it } from 'vitest';
import { applyRepair } from '#shared/covers/apply-repair.ts';
import { PlanError } from '#shared/errors.ts';
import { computePlan } from '#shared/plan.ts';
import { link, makeBuild, NOW, task, type BuildParts } from '../support/builds.ts';

const DEPTHS = ['metal', 'wires', 'panel', 'cupboard'];
const CONTEXT = { at: '2026-06-10T10:00', by: 'a', reason: 'hatch' };
const LATER = '2026-06-10T00:00';

/** Cable behind a panel behind a cupboard, in one wall. */
const wall: BuildParts = {
  depths: DEPTHS,
  zones: [{ key: 'L', name: 'left wall', depths: DEPTHS }],
  tasks: [
    task('cable', 60, { places: [{ zone: 'L', depth: 'wires' }] }),
    task('panel', 120, { places: [{ zone: 'L', depth: 'panel', hides: 'wires' }] }),
    task('cupboard', 240, { places: [{ zone: 'L', depth: 'cupboard', hides: 'panel' }] }),
  ],
};

const plan = (parts: BuildParts) => computePlan(makeBuild({ ...wall, ...parts }), { now: NOW });
const finished = { state: 'finished', startedAt: '2026-06-02T09:00', finishedAt: '2026-06-02T11:00' };
const begun = { state: 'started', startedAt: '2026-06-03T09:00' };

describe('covers', () => {
  it('should come after what they hide without any link being stated', () => {
    const { tasks, errors } = plan({});
    expect(errors).toEqual([]);
    expect(tasks['panel']!.early!.start).toBe(tasks['cable']!.early!.finish);
    expect(tasks['cupboard']!.early!.start).toBe(tasks['panel']!.early!.finish);
  });

  it('should wait for what hardens behind them', () => {
    const glued = wall.tasks!.map((one) =>
      'key' in one && one.key === 'cable' ? { ...one, waitMinutes: 1440 } : one,
    );
    expect(plan({ tasks: glued }).tasks['panel']!.early!.start).toBe(60 + 1440);
  });

  it('should not wait for a task freed from the rule', () => {
    const exceptions = [
      { inner: 'cable', cover: 'panel', reason: 'hatch' },
      { inner: 'cable', cover: 'cupboard', reason: 'hatch' },
    ];
    expect(plan({ exceptions }).tasks['panel']!.early!.start).toBe(0);
  });

  it('should be hinted at when two coats hide each other and nothing says which comes first', () => {
    const coats = {
      tasks: [
        task('primer', 60, { places: [{ zone: 'L', depth: 'metal', hides: 'metal' }] }),
        task('paint', 60, { places: [{ zone: 'L', depth: 'metal', hides: 'metal' }] }),
      ],
    };
    expect(plan(coats).hints.map(({ rule }) => rule)).toContain('undecided-coats');
    const ordered = plan({ ...coats, links: [link('primer', 'paint')] });
    expect(ordered.hints.map(({ rule }) => rule)).not.toContain('undecided-coats');
    expect(ordered.errors).toEqual([]);
  });
});

describe('a wrong order', () => {
  const wrong = plan({ links: [link('panel', 'cable')] });

  it('should be told in one sentence that names both tasks, the zone and the depth', () => {
    expect(wrong.errors).toHaveLength(1);
    expect(wrong.errors[0]).toMatchObject({
      rule: 'wrong-order',
      zone: 'L',
      depth: 'wires',
      tasks: ['panel', 'cable'],
      sentence:
        '“PANEL” is linked before “CABLE”, but “CABLE” has to come first: it is hidden by “PANEL” (left wall, wires).',
    });
  });

  it('should suggest dropping the link, and plan without it for the time being', () => {
    expect(wrong.errors[0]!.repair).toEqual({
      kind: 'drop-links',
      links: [{ from: 'panel', to: 'cable', kind: 'FS' }],
      exact: true,
    });
    expect([wrong.provisional, wrong.leftOut]).toEqual([true, [{ from: 'panel', to: 'cable', kind: 'FS' }]]);
    expect(wrong.tasks['cupboard']!.dates).not.toBeNull();
  });

  it('should be gone once repaired, and the repair refused a second time', () => {
    const file = makeBuild({ ...wall, links: [link('panel', 'cable')] });
    const repaired = applyRepair(file, wrong.errors[0]!.repair!, CONTEXT);
    const after = computePlan(repaired, { now: NOW });
    expect([after.errors, after.provisional]).toEqual([[], false]);
    expect(() => applyRepair(repaired, wrong.errors[0]!.repair!, CONTEXT)).toThrow(PlanError);
  });

  it('should be told once however many covers it offends', () => {
    expect(plan({ links: [link('cupboard', 'cable')] }).errors).toHaveLength(1);
  });

  it('should rather drop a link without a reason', () => {
    const { leftOut } = plan({
      tasks: [task('x', 1), task('y', 1)],
      links: [link('x', 'y'), link('y', 'x', { reason: 'paint first' })],
    });
    expect(leftOut).toEqual([{ from: 'x', to: 'y', kind: 'FS' }]);
  });

  it('should be reported for links that run in a circle by themselves', () => {
    const { errors } = plan({
      tasks: [task('x', 1), task('y', 1), task('z', 1)],
      links: [link('x', 'y'), link('y', 'z'), link('z', 'x')],
    });
    expect(errors).toHaveLength(1);
    expect(errors[0]!.sentence).toMatch(/run in a circle/);
    expect(errors[0]!.zone).toBeNull();
  });
});

describe('covers in a circle', () => {
  const zones = ['L', 'R'].map((key) => ({ key, name: key, depths: DEPTHS }));
  const round: BuildParts = {
    zones,
    tasks: [
      task('a', 60, {
        places: [
          { zone: 'L', depth: 'wires' },
          { zone: 'R', depth: 'panel', hides: 'wires' },
        ],
      }),
      task('b', 60, {
        places: [
          { zone: 'R', depth: 'wires' },
          { zone: 'L', depth: 'panel', hides: 'wires' },
        ],
      }),
      task('after', 60),
      task('free', 60),
    ],
    links: [link('b', 'after')],
  };

  it('should leave what cannot be ordered without dates, say why, and date the rest', () => {
    const { errors, tasks, finish, provisional } = plan(round);
    expect(errors.map(({ rule }) => rule)).toEqual(['covers-in-a-circle']);
    expect(tasks['a']!.dates).toBeNull();
    expect(tasks['a']!.unplaced).toMatch(/hide each other/);
    expect(tasks['after']!.unplaced).toMatch(/waits for “B”/);
    expect(tasks['free']!.dates).not.toBeNull();
    expect([finish.early, finish.dates, provisional]).toEqual([null, null, false]);
    expect(tasks['free']!.totalFloat).toBeNull();
  });

  it('should be taken apart by splitting a task by zone, its hours shared out', () => {
    const file = makeBuild({ ...wall, ...round });
    const repaired = applyRepair(file, plan(round).errors[0]!.repair!, CONTEXT);
    expect(repaired.tasks).toHaveLength(5);
    const hours = (keys: string) =>
      repaired.tasks
        .filter(({ key }) => key.startsWith(keys))
        .reduce((sum, one) => sum + one.minutes.likely, 0);
    expect(hours('a') - hours('after') + hours('b')).toBe(120);
    expect(computePlan(repaired, { now: NOW }).errors).toEqual([]);
  });
});

describe('closed too early', () => {
  const early = (more: object, panel: object = begun) =>
    plan({
      build: { asOf: LATER },
      tasks: [
        task('cable', 60, { places: [{ zone: 'L', depth: 'wires' }], ...more }),
        task('panel', 120, {
          places: [{ zone: 'L', depth: 'panel', hides: 'wires' }],
          reopenMinutes: 90,
          ...panel,
        }),
      ],
    });

  it('should be reported as soon as the cover has begun, with what reopening costs now', () => {
    const { errors, tasks } = early({});
    expect(errors.map(({ rule }) => rule)).toEqual(['closed-too-early']);
    expect(errors[0]!.sentence).toBe(
      '“CABLE” is not finished, but “PANEL” was begun Wed 3 Jun 2026, 09:00 and hides it (left wall, wires). Taking that off and putting it back costs 1 h 30 of work now.',
    );
    expect(errors[0]!.repair).toEqual({ kind: 'reopen', tasks: ['panel'], personMinutes: 90 });
    // What is left of the cover still waits for what it traps.
    expect(tasks['panel']!.early!.finish).toBeGreaterThan(tasks['cable']!.early!.finish);
  });

  it('should be in order again once the cover is work to come', () => {
    const file = makeBuild({
      ...wall,
      build: { asOf: LATER },
      tasks: [
        task('cable', 60, { places: [{ zone: 'L', depth: 'wires' }] }),
        task('panel', 120, {
          places: [{ zone: 'L', depth: 'panel', hides: 'wires' }],
          reopenMinutes: 90,
          ...begun,
        }),
      ],
    });
    const { errors } = computePlan(file, { now: NOW });
    const repaired = applyRepair(file, errors[0]!.repair!, CONTEXT);
    expect(repaired.tasks[1]).toMatchObject({
      state: 'not-started',
      startedAt: null,
      minutes: { likely: 90 },
    });
    expect(computePlan(repaired, { now: NOW }).errors).toEqual([]);
  });

  it('should not be reported once all behind is in', () => {
    expect(early(finished).errors).toEqual([]);
  });

  it('should report a check behind the cover that nobody signed, or that failed last', () => {
    const check = (attempts: object[]) => ({
      ...finished,
      holdPoints: [{ key: 'c', name: 'continuity', attempts }],
    });
    const attempt = (at: string, pass: boolean) => ({ at, by: 'a', pass });
    expect(early(check([])).errors.map(({ rule }) => rule)).toEqual(['covered-unchecked']);
    expect(early(check([])).errors[0]!.repair).toEqual({ kind: 'sign', task: 'cable', holdPoint: 'c' });
    const failed = early(check([attempt('2026-06-02T12:00', true), attempt('2026-06-02T13:00', false)]));
    expect(failed.errors[0]!.sentence).toMatch(/has failed/);
    expect(
      early(check([attempt('2026-06-02T12:00', false), attempt('2026-06-02T13:00', true)])).errors,
    ).toEqual([]);
  });

  it('should report a cover begun before its own entry check', () => {
    const entry = { holdPoints: [{ key: 'look', name: 'wires photographed', when: 'entry' }], ...begun };
    const { errors } = early(finished, entry);
    expect(errors.map(({ rule, tasks }) => [rule, tasks])).toEqual([['covered-unchecked', ['panel']]]);
  });
});

describe('an unsigned exit check of a finished task', () => {
  const tested = (attempts: object[]) =>
    plan({
      build: { asOf: LATER },
      tasks: [
        task('test', 60, { ...finished, holdPoints: [{ key: 'leak', name: 'no damp strip', attempts }] }),
        task('next', 60),
      ],
      links: [link('test', 'next', { lagMinutes: 0 })],
    });

  it('should hold what follows until now, because it cannot be signed before', () => {
    const asOf = 9 * 1440;
    expect(tested([]).tasks['test']).toMatchObject({
      state: 'finished',
      early: { finish: asOf },
      minutes: 0,
    });
    expect(tested([]).tasks['next']!.early!.start).toBe(asOf);
    expect(tested([{ at: '2026-06-02T12:00', by: 'a', pass: true }]).tasks['test']!.totalFloat).toBeNull();
  });
});

describe('a part that comes too late', () => {
  const shop = {
    key: 'shop',
    state: 'wanted',
    leadDays: 10,
    lines: [{ key: 'wire', name: 'wire', quantity: 1, neededBy: ['cable'] }],
  };

  it('should be reported when the cover has a fixed day before it', () => {
    const tasks = wall.tasks!.map((one) =>
      'key' in one && one.key === 'panel' ? { ...one, fixedStart: '2026-06-08T09:00' } : one,
    );
    const { errors } = plan({ tasks, purchases: [shop] });
    const late = errors.filter(({ rule }) => rule === 'part-too-late');
    expect(late).toHaveLength(1);
    expect(late[0]).toMatchObject({
      tasks: ['cable', 'panel'],
      zone: 'L',
      repair: { kind: 'drop-fixed-start', task: 'panel' },
    });
    expect(late[0]!.sentence).toContain('Thu 11 Jun 2026');
    expect(errors.map(({ rule }) => rule)).toContain('fixed-start-missed');
    const file = makeBuild({ ...wall, tasks, purchases: [shop] });
    expect(computePlan(applyRepair(file, late[0]!.repair!, CONTEXT), { now: NOW }).errors).toEqual([]);
  });

  it('should be reported when the cover has begun while the part is outstanding', () => {
    const tasks = wall.tasks!.map((one) =>
      'key' in one && one.key === 'panel' ? { ...one, ...begun } : one,
    );
    const { errors } = plan({ build: { asOf: LATER }, tasks, purchases: [shop] });
    expect(errors.map(({ rule }) => rule).toSorted()).toEqual(['closed-too-early', 'part-too-late']);
  });
});

describe('closings', () => {
  it('should list what is missing, unsigned and undelivered before each, on the day the cover starts', () => {
    const { closings } = plan({
      tasks: [
        task('cable', 60, {
          places: [{ zone: 'L', depth: 'wires' }],
          holdPoints: [{ key: 'c', name: 'continuity' }],
        }),
        task('panel', 120, {
          places: [{ zone: 'L', depth: 'panel', hides: 'wires' }],
          holdPoints: [{ key: 'look', name: 'photographed', when: 'entry' }],
        }),
      ],
      purchases: [
        {
          key: 'shop',
          leadDays: 3,
          lines: [{ key: 'wire', name: 'wire', quantity: 1, neededBy: ['cable'] }],
        },
      ],
      decisions: [{ key: 'where', question: 'Where?', options: ['here'], locksPurchases: ['shop'] }],
    });
    expect(closings).toHaveLength(1);
    expect(closings[0]).toMatchObject({
      zone: 'L',
      depth: 'wires',
      by: 'panel',
      on: '2026-06-05',
      at: '2026-06-05T01:00',
      missing: ['cable'],
      behind: 1,
      unsigned: [
        { task: 'cable', holdPoint: 'c', name: 'continuity' },
        { task: 'panel', holdPoint: 'look', name: 'photographed' },
      ],
      undelivered: [{ purchase: 'shop', line: 'wire', name: 'wire', arrives: '2026-06-04' }],
      undecided: ['where'],
    });
    expect(closings[0]!.heldBy!.words).toContain('“CABLE”');
  });
});

describe('hints', () => {
  const rules = (parts: BuildParts) => plan(parts).hints.map(({ rule, tasks }) => [rule, ...tasks]);

  it('should name a cover with nothing behind it, and a zone without work', () => {
    const hints = rules({
      zones: [
        { key: 'L', name: 'left wall', depths: DEPTHS },
        { key: 'R', name: 'right wall', depths: DEPTHS },
      ],
      tasks: [task('panel', 60, { places: [{ zone: 'L', depth: 'panel', hides: 'wires' }] })],
    });
    expect(hints).toEqual([['hides-nothing', 'panel'], ['empty-zone']]);
  });

  it('should name a link that others imply, through covers too, but not one that waits longer', () => {
    expect(rules({ links: [link('cable', 'panel'), link('cable', 'cupboard')] })).toEqual([
      ['implied-link', 'cable', 'cupboard'],
      ['implied-link', 'cable', 'panel'],
    ]);
    expect(rules({ links: [link('cable', 'cupboard', { lagMinutes: 60 })] })).toEqual([]);
  });

  it('should name work begun before something a link puts first', () => {
    const hints = rules({
      build: { asOf: LATER },
      tasks: [task('x', 60), task('y', 60, begun)],
      links: [link('x', 'y')],
    });
    expect(hints).toContainEqual(['out-of-sequence', 'x', 'y']);
  });
});
