import { describe, expect, it } from 'vitest';
import { wagtail } from '#shared/demo/wagtail.ts';
import type { Plan, PlannedTask } from '#shared/contract/plan.ts';
import { computePlan } from '#shared/plan.ts';
import { chainLinks, chainOnwards, drivingChain, whySteps } from '../../../web/src/drawing/chain.ts';

describe('why a task starts when it does', () => {
  it('should walk from task to task back to what nothing holds', () => {
    expect(whySteps(CHAIN, 'c').map(({ key }) => key)).toEqual(['c', 'b', 'a']);
    expect(whySteps(CHAIN, 'a').map(({ key }) => key)).toEqual(['a']);
  });

  it('should end where it would come round again, and where a task is unknown', () => {
    const circle = { a: planned('01', '02', 'b'), b: planned('01', '02', 'a') };
    expect(whySteps(circle, 'a').map(({ key }) => key)).toEqual(['a', 'b']);
    expect(whySteps({ a: planned('01', '02', 'gone') }, 'a').map(({ key }) => key)).toEqual(['a']);
    expect(whySteps({}, 'a')).toEqual([]);
  });

  it('should walk the demo back to now from every task', () => {
    const file = wagtail();
    const { tasks, asOf } = computePlan(file, { now: file.build.asOf! });
    for (const key of Object.keys(tasks)) {
      const steps = whySteps(tasks, key);
      expect(new Set(steps.map((step) => step.key)).size).toBe(steps.length);
      const last = steps.at(-1)!;
      const ends = last.planned.state === 'finished' || last.because === null || last.because.task === null;
      expect(ends, `${key} ends at ${last.key} before ${asOf}`).toBe(true);
    }
  });
});

describe('the driving chain', () => {
  it('should be the one the plan tells, where it tells one', () => {
    const told = { ...CHAIN, a: { ...CHAIN.a, chain: false }, d: { ...CHAIN.d, chain: true } };
    expect([...drivingChain(told)]).toEqual(['d']);
    expect([...drivingChain({ a: { ...CHAIN.a, chain: false } })]).toEqual([]);
  });

  it('should else be what is found walking back from what ends last', () => {
    expect([...drivingChain(CHAIN)].sort()).toEqual(['a', 'b', 'c']);
    expect([...drivingChain({})]).toEqual([]);
  });

  it('should be told onwards from a task to its last, the way that reaches furthest', () => {
    expect(chainOnwards(CHAIN, 'a')).toEqual(['b', 'c']);
    expect(chainOnwards(CHAIN, 'c')).toEqual([]);
    expect(chainOnwards(CHAIN, 'd'), 'not on the chain').toEqual([]);
    const fork = { ...CHAIN, e: { ...planned('02', '03', 'a'), chain: true } };
    const told = Object.fromEntries(Object.entries(fork).map(([key, one]) => [key, { ...one, chain: true }]));
    expect(chainOnwards(told, 'a')).toEqual(['b', 'c']);
  });

  it('should lead from every task of the demo’s chain to what ends last', () => {
    const file = wagtail();
    const { tasks } = computePlan(file, { now: file.build.asOf! });
    const chain = drivingChain(tasks);
    const end = (key: string) => tasks[key]!.dates!.waitUntil;
    for (const key of chain) {
      const way = [key, ...chainOnwards(tasks, key)];
      expect(new Set(way).size).toBe(way.length);
      expect(way.every((one) => chain.has(one))).toBe(true);
      expect(way.map((one) => tasks[one]!.dates!.start)).toEqual(
        way.map((one) => tasks[one]!.dates!.start).toSorted(),
      );
    }
    const last = [...chain].map(end).toSorted().at(-1);
    const first = [...chain].toSorted((a, b) =>
      tasks[a]!.dates!.start < tasks[b]!.dates!.start ? -1 : 1,
    )[0]!;
    expect(end(chainOnwards(tasks, first).at(-1)!)).toBe(last);
  });

  it('should tie each task to what holds it, else to the one that ended last before it', () => {
    const chain = new Set(['a', 'b', 'c']);
    expect(chainLinks(CHAIN, chain)).toEqual([
      { from: 'a', to: 'b' },
      { from: 'b', to: 'c' },
    ]);
    const season = { ...CHAIN, c: planned('05', '06', null) };
    expect(chainLinks(season, chain)).toContainEqual({ from: 'b', to: 'c' });
    expect(chainLinks(season, new Set(['c']))).toEqual([]);
  });
});

// Helpers

const CHAIN = {
  a: planned('01', '02', null),
  b: planned('02', '04', 'a'),
  c: planned('05', '06', 'b'),
  d: planned('01', '03', 'a'),
} satisfies Plan['tasks'];

function planned(from: string, to: string, task: string | null): PlannedTask {
  const [start, finish] = [`2026-06-${from}T09:00`, `2026-06-${to}T09:00`];
  return {
    state: 'not-started',
    minutes: 60,
    complete: 0,
    early: null,
    late: null,
    totalFloat: null,
    freeFloat: null,
    slackDays: null,
    critical: false,
    dates: { start, finish, waitUntil: finish, people: [], sittings: [] },
    chain: null,
    because: { kind: task === null ? 'as-of' : 'link', task, key: null, words: '' },
    unplaced: null,
  };
}
