/**
 * The checks of a plan, each against a small build that breaks just that one. What is checked and most thresholds are those of
 * GAO-16-89G, Schedule Assessment Guide (2015), and of DCMA-EA PAM 200.1 (2012; thresholds from memory).
 */
import { describe, expect, it } from 'vitest';
import { Compile } from 'typebox/compile';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { HEALTH_CHECKS, PlanHealth, type HealthCheck, type HealthRow } from '#shared/contract/plan-health.ts';
import { planHealth } from '#shared/health/plan-health.ts';
import { computePlan } from '#shared/plan.ts';
import { ALL_WEEK, EVENINGS, link, makeBuild, NOW, START, task, type BuildParts } from '../support/builds.ts';

const SOUND = {
  build: { targetFinishOn: '2027-06-01' },
  tasks: [
    guessed('cut', 300),
    guessed('seal', 120, { waitMinutes: 1440 }),
    guessed('line', 600),
    guessed('trim', 300),
  ],
  links: [link('cut', 'seal'), link('seal', 'line'), link('line', 'trim')],
  purchases: [bought({})],
  baselines: [{ key: 'b', name: 'first', on: START, tasks: {} }],
} satisfies BuildParts;

describe('a sound plan', () => {
  it('should pass every check, each once and in order', () => {
    const { rows, passed, look, failed } = healthOf(SOUND);
    expect(rows.map(({ check }) => check)).toEqual([...HEALTH_CHECKS]);
    expect(rows.filter(({ state }) => state !== 'passed')).toEqual([]);
    expect([passed, look, failed]).toEqual([HEALTH_CHECKS.length, 0, 0]);
  });

  it('should pass with nothing in it, but for a frozen plan', () => {
    const { rows } = healthOf({});
    expect(rows.filter(({ state }) => state !== 'passed').map(({ check }) => check)).toEqual(['frozen-plan']);
  });

  it('should be told in the shape the contract says', () => {
    expect(Compile(PlanHealth).Check(healthOf(SOUND))).toBe(true);
  });
});

describe('slack', () => {
  it('should not pass where the finish has no date', () => {
    const parts = { ...SOUND, tasks: [...SOUND.tasks, guessed('lift', 60, { people: 2 })] };
    for (const check of ['past-target', 'large-slack'] as const)
      expect(rowOf(check, parts)).toMatchObject({ state: 'look', sentence: /no date/ });
  });

  it('should not be driven by a booking off the longest way', () => {
    const booked = guessed('gas', 60, { fixedStart: '2026-06-01T02:00', fixedWhy: 'the fitter comes' });
    const parts = { ...SOUND, tasks: [...SOUND.tasks, booked], links: [...SOUND.links, link('gas', 'trim')] };
    for (const check of ['unbroken', 'delay'] as const) expect(rowOf(check, parts).state).toBe('passed');
  });
});

describe('a check', () => {
  /** Parts laid over the sound build; the records it has to find; how it ends. */
  const broken: readonly [HealthCheck, BuildParts, readonly string[], HealthRow['state']][] = [
    ['linked', { links: [link('cut', 'seal'), link('line', 'trim')] }, ['line', 'trim'], 'failed'],
    [
      'linked',
      // A link to its finish alone leaves the start dangling.
      { links: [link('cut', 'seal'), link('seal', 'line', { kind: 'FF' }), link('line', 'trim')] },
      ['line'],
      'failed',
    ],
    ['circles', { links: [...SOUND.links, link('line', 'seal')] }, ['line'], 'failed'],
    [
      'waits',
      { links: [link('cut', 'seal', { lagMinutes: 60 }), link('seal', 'line'), link('line', 'trim')] },
      ['cut~seal~FS'],
      'failed',
    ],
    [
      'finish-to-start',
      { links: [...SOUND.links, link('cut', 'line', { kind: 'SS' })] },
      ['cut~line~SS'],
      'failed',
    ],
    [
      'placed',
      {
        tasks: [...SOUND.tasks, guessed('lift', 60, { people: 2 })],
        links: [...SOUND.links, link('cut', 'lift'), link('lift', 'trim')],
      },
      ['lift', 'trim'],
      'failed',
    ],
    [
      'fixed-dates',
      { tasks: changed('line', { fixedStart: '2026-06-03T12:00', fixedWhy: 'the hall is free' }) },
      ['line'],
      'failed',
    ],
    ['fixed-reasons', { tasks: changed('line', { fixedStart: '2026-06-03T12:00' }) }, ['line'], 'look'],
    ['wrong-side', { tasks: changed('line', { fixedStart: '2026-05-03T12:00' }) }, ['line'], 'failed'],
    ['wrong-side', { purchases: [bought({ state: 'ordered', orderedOn: '2026-06-02' })] }, ['p'], 'failed'],
    [
      'wrong-side',
      { purchases: [bought({ state: 'ordered', orderedOn: '2026-05-02', promisedOn: '2026-05-20' })] },
      ['p'],
      'failed',
    ],
    [
      'wrong-side',
      {
        purchases: [
          bought({ state: 'received', deliveries: [{ on: '2026-07-01', line: 'l', quantity: 1 }] }),
        ],
      },
      ['p'],
      'failed',
    ],
    [
      'wrong-side',
      { hours: [{ key: 'h', person: 'a', task: 'cut', on: '2026-06-02', minutes: 60 }] },
      ['h'],
      'failed',
    ],
    [
      'long-tasks',
      { tasks: changed('line', { minutes: { low: 900, likely: 961, high: 1200 } }) },
      ['line'],
      'look',
    ],
    [
      'large-slack',
      {
        tasks: [...changed('seal', { waitMinutes: 28_800 }), guessed('badge', 30)],
        links: [...SOUND.links, link('cut', 'badge'), link('badge', 'trim')],
      },
      ['badge'],
      'look',
    ],
    ['past-target', { build: { targetFinishOn: '2026-06-01' } }, ['cut', 'line', 'seal', 'trim'], 'look'],
    ['hours', { tasks: changed('line', { minutes: { low: 0, likely: 0, high: 0 } }) }, ['line'], 'failed'],
    ['spread', { tasks: changed('line', { minutes: { low: 60, likely: 60, high: 60 } }) }, ['line'], 'look'],
    ['prices', { purchases: [bought({}, { unitPrice: null })] }, ['p'], 'failed'],
    ['confirmed-prices', { purchases: [bought({}, { priceConfirmed: false })] }, ['p'], 'look'],
    ['masses', { purchases: [bought({}, { mass: null })] }, ['p'], 'look'],
    [
      'unbroken',
      { tasks: changed('line', { fixedStart: '2026-08-03T12:00', fixedWhy: 'the hall is free' }) },
      ['line'],
      'failed',
    ],
    ['frozen-plan', { baselines: [] }, [], 'look'],
  ];

  it.each(broken)('should find what breaks it: %s (%#)', (check, parts, records, state) => {
    const row = rowOf(check, { ...SOUND, ...parts });
    expect(row.records.map(({ id }) => id).toSorted()).toEqual(records);
    expect(row.state).toBe(state);
    expect(row.count).toBe(records.length);
  });

  it('should break no other by what breaks it alone', () => {
    const alone = new Set(['prices', 'confirmed-prices', 'masses', 'spread', 'frozen-plan', 'past-target']);
    for (const [check, parts] of broken.filter(([name]) => alone.has(name)))
      expect(notPassed({ ...SOUND, ...parts })).toEqual([check]);
  });

  it('should find a link that reaches back, which a file cannot hold', () => {
    const build = makeBuild(SOUND);
    const [first, ...rest] = build.links;
    const row = only('leads', { ...build, links: [{ ...first!, lagMinutes: -60 }, ...rest] });
    expect(row).toMatchObject({ state: 'failed', count: 1, records: [{ id: 'cut~seal~FS' }] });
  });

  it('should find a task where many meet without slack', () => {
    const branches = ['p', 'q', 'r', 's', 't'];
    const parts = {
      tasks: [
        guessed('first', 60),
        ...branches.map((key) => guessed(key, 120)),
        guessed('meet', 60),
        guessed('last', 60),
      ],
      links: [...branches.flatMap((key) => [link('first', key), link(key, 'meet')]), link('meet', 'last')],
    };
    expect(rowOf('merges', parts)).toMatchObject({
      state: 'look',
      count: 1,
      of: 1,
      records: [{ id: 'meet' }],
    });
    const four = { ...parts, links: parts.links.filter(({ from }: { from?: string }) => from !== 't') };
    expect(rowOf('merges', four)).toMatchObject({ state: 'passed', count: 0, of: 0 });
  });

  it('should take a cover as a link, through all depths between', () => {
    const places = (depth: string, hides: string | null) => ({ places: [{ zone: 'z', depth, hides }] });
    const row = rowOf('linked', {
      depths: ['metal', 'fill', 'lining'],
      zones: [{ key: 'z', name: 'wall', depths: ['metal', 'fill', 'lining'] }],
      tasks: [guessed('clean', 60, places('metal', null)), guessed('panel', 60, places('lining', 'fill'))],
    });
    expect(row).toMatchObject({ state: 'passed', of: 2 });
  });

  it('should let one task be the first only while nothing is done', () => {
    const done = { state: 'finished', startedAt: `${START}T00:00`, finishedAt: `${START}T00:00` };
    const parts = { tasks: [guessed('old', 60, done), guessed('new', 60)] };
    expect(rowOf('linked', parts)).toMatchObject({
      count: 1,
      records: [{ id: 'new', note: 'nothing comes before its start' }],
    });
    expect(rowOf('linked', { ...parts, links: [link('old', 'new')] }).state).toBe('passed');
  });

  it('should allow a share where the published check does', () => {
    const chain = Array.from({ length: 21 }, (_, i) => `t${String(i).padStart(2, '0')}`);
    const parts = (lagged: number) => ({
      tasks: chain.map((key) => guessed(key, 60)),
      links: chain.slice(1).map((key, i) => link(chain[i]!, key, i < lagged ? { lagMinutes: 30 } : {})),
    });
    expect(rowOf('waits', parts(1))).toMatchObject({
      state: 'passed',
      count: 1,
      of: 20,
      most: { share: 0.05 },
    });
    expect(rowOf('waits', parts(2))).toMatchObject({ state: 'failed', count: 2 });
  });

  it('should look at links from a start to an end even where they are few', () => {
    const chain = Array.from({ length: 21 }, (_, i) => `t${String(i).padStart(2, '0')}`);
    const links = chain.slice(1).map((key, i) => link(chain[i]!, key));
    const parts = {
      tasks: chain.map((key) => guessed(key, 60)),
      links: [...links, link('t00', 't05', { kind: 'SF' })],
    };
    expect(rowOf('finish-to-start', parts).state).toBe('look');
  });
});

describe('the delay test', () => {
  it('should say by how much the finish moves, day and night and on the calendar', () => {
    const row = rowOf('delay', { ...SOUND, people: [{ key: 'a', name: 'A', week: EVENINGS }] });
    expect(row).toMatchObject({ state: 'passed', count: 0, of: 4 });
    expect(row.sentence).toMatch(/600 days on 4 driving tasks.*by 600 days each.*it comes to \d+ days/);
  });

  it('should fail where the finish has no date', () => {
    const parts = { ...SOUND, tasks: [...SOUND.tasks, guessed('lift', 60, { people: 2 })] };
    expect(rowOf('delay', parts)).toMatchObject({ state: 'failed', of: 0 });
    expect(rowOf('unbroken', parts)).toMatchObject({ state: 'failed' });
  });
});

// Helpers

function guessed(key: string, likely: number, more: object = {}): object {
  return task(key, likely, { minutes: { low: likely - 15, likely, high: likely + 30 }, ...more });
}

function changed(key: string, more: object): object[] {
  return SOUND.tasks.map((one) => ((one as { key: string }).key === key ? { ...one, ...more } : one));
}

function bought(more: object, line: object = {}): object {
  const whole = {
    key: 'l',
    name: 'fan',
    quantity: 1,
    unitPrice: 9000,
    priceConfirmed: true,
    mass: 2000,
    ...line,
  };
  return { key: 'p', state: 'wanted', lines: [whole], ...more };
}

function healthOf(parts: BuildParts) {
  return of(makeBuild({ people: [{ key: 'a', name: 'A', week: ALL_WEEK }], ...parts }));
}

function of(file: BuildFile) {
  return planHealth(file, computePlan(file, { now: NOW }));
}

function rowOf(check: HealthCheck, parts: BuildParts): HealthRow {
  return healthOf(parts).rows.find((row) => row.check === check)!;
}

function only(check: HealthCheck, file: BuildFile): HealthRow {
  return of(file).rows.find((row) => row.check === check)!;
}

function notPassed(parts: BuildParts): HealthCheck[] {
  return healthOf(parts)
    .rows.filter(({ state }) => state !== 'passed')
    .map(({ check }) => check);
}
