/**
 * The odds on random builds: without anything uncertain they are the plan; with it every trial keeps every rule of the
 * dates, the same seed gives the same figures, and more uncertainty never narrows them.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { courseOf } from '#shared/odds/course.ts';
import { oddsOf } from '#shared/odds/odds.ts';
import { Trial } from '#shared/odds/trial.ts';
import { asOfOf, computePlan } from '#shared/plan.ts';
import { draftOf, type Draft } from '#shared/schedule/draft.ts';
import { NOT_BEGUN } from '#shared/schedule/network.ts';
import { instantText } from '#shared/time/clock.ts';
import { arbitraryBuild } from '../support/arbitrary-builds.ts';
import { ALL_WEEK, link, makeBuild, NOW } from '../support/builds.ts';
import { breaches } from '../support/check-dates.ts';
import { workable } from '../support/minute-by-minute.ts';

const LENGTH = 50 * 1440;
const ALL_KINDS = ['FS', 'SS', 'FF', 'SF'] as const;
const builds = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ALL_KINDS, progress: false });
const underWay = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ALL_KINDS, progress: true });
const tangled = arbitraryBuild({ acyclic: false, places: 'any', kinds: ALL_KINDS, progress: true });
const plain = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ['FS', 'SS'], progress: false });

type Parts = typeof builds extends fc.Arbitrary<infer T> ? T : never;

describe('odds without anything uncertain', () => {
  for (const [name, arbitrary] of [
    ['a build not begun', builds],
    ['a build under way', underWay],
    ['a build with wrong orders in it', tangled],
  ] as const)
    it(`should be the plan: ${name}`, () => {
      fc.assert(
        fc.property(arbitrary, fc.nat(), (parts, seed) => {
          const file = makeBuild(parts);
          const plan = computePlan(file, { now: NOW });
          const odds = oddsOf(file, { now: NOW, trials: 3, seed, paceSigma: 0 });
          const { p10, p50, p80, p90, mean } = odds.finish;
          expect([p10, p50, p80, p90, mean, odds.plan.finish]).toEqual(
            Array.from({ length: 6 }, () => plan.finish.dates),
          );
          expect(odds.minutesFromStart.sd).toBe(plan.finish.dates === null ? null : 0);
        }),
        { numRuns: 100 },
      );
    });

  it('should have the driving chain of the plan, where tasks bound starts', () => {
    fc.assert(
      fc.property(plain, (parts) => {
        const file = makeBuild(parts);
        const plan = computePlan(file, { now: NOW });
        const { chain } = oddsOf(file, { now: NOW, trials: 1, seed: 1, paceSigma: 0 });
        fc.pre(plan.finish.dates !== null);
        for (const { key } of file.tasks) expect(chain[key], key).toBe(plan.tasks[key]!.chain ? 1 : 0);
      }),
      { numRuns: 100 },
    );
  });
});

describe('a trial', () => {
  for (const [name, arbitrary] of [
    ['a build not begun', builds],
    ['a build under way', underWay],
  ] as const)
    it(`should keep every rule of the dates with any minutes: ${name}`, () => {
      fc.assert(
        fc.property(
          arbitrary,
          fc.array(fc.integer({ min: 1, max: 500 }), { minLength: 8 }),
          (parts, minutes) => {
            const file = makeBuild(parts);
            const draft = draftOf(file, asOfOf(file, NOW));
            fc.pre(draft.levelled.end !== null);
            const tried = triedPlan(file, draft, minutes);
            fc.pre(tried !== null);
            const found = breaches(tried.file, tried.plan, LENGTH);
            fc.pre(found !== null);
            expect(found).toEqual([]);
          },
        ),
        { numRuns: 80 },
      );
    });
});

describe('odds of anything', () => {
  const spreadBuilds = fc.tuple(underWay, fc.integer({ min: 0, max: 9 }), fc.nat()).map(spread);

  it('should be the same for the same seed, and others for another', () => {
    let differ = 0;
    fc.assert(
      fc.property(spreadBuilds, ({ file, seed }) => {
        const one = oddsOf(file, { now: NOW, trials: 40, seed });
        expect(oddsOf(file, { now: NOW, trials: 40, seed })).toEqual(one);
        const other = oddsOf(file, { now: NOW, trials: 40, seed: seed + 1 });
        if (other.minutesFromStart.mean !== one.minutesFromStart.mean) differ++;
      }),
      { numRuns: 60 },
    );
    expect(differ).toBeGreaterThan(30);
  });

  it('should not depend on the order of the records', () => {
    fc.assert(
      fc.property(spreadBuilds, ({ file, seed }) => {
        const turned = { ...file, tasks: file.tasks.toReversed(), purchases: file.purchases.toReversed() };
        const asked = { now: NOW, trials: 40, seed };
        expect(oddsOf(turned, asked)).toEqual(oddsOf(file, asked));
      }),
      { numRuns: 60 },
    );
  });

  it('should rise from quantile to quantile, with shares that are shares', () => {
    fc.assert(
      fc.property(spreadBuilds, ({ file, seed }) => {
        const odds = oddsOf(file, { now: NOW, trials: 60, seed });
        fc.pre(odds.beyond === 0 && odds.plan.finish !== null);
        const { p10, p50, p80, p90 } = odds.minutesFromStart;
        for (const points of [[p10, p50, p80, p90], odds.finishCurve, odds.costCurve])
          for (let i = 1; i < points.length; i++) expect(points[i]!).toBeGreaterThanOrEqual(points[i - 1]!);
        expect(odds.finishCurve).toHaveLength(101);
        for (const share of [odds.meetsPlan!, ...Object.values(odds.chain)]) {
          expect(share).toBeGreaterThanOrEqual(0);
          expect(share).toBeLessThanOrEqual(1);
        }
        // Something drives the end, unless nothing is left but the wait of what is finished.
        if (odds.minutesFromStart.sd! > 0) expect(Math.max(...Object.values(odds.chain))).toBeGreaterThan(0);
      }),
      { numRuns: 60 },
    );
  });

  it('should end no trial before the plan where the minutes can only grow', () => {
    fc.assert(
      fc.property(plain, fc.nat(), (parts, seed) => {
        const longer = {
          ...parts,
          tasks: parts.tasks.map((task) => ({
            ...task,
            minutes: { ...task.minutes, high: 2 * task.minutes.high },
          })),
        };
        const file = makeBuild(longer as Parts);
        const odds = oddsOf(file, { now: NOW, trials: 30, seed, paceSigma: 0 });
        fc.pre(odds.plan.finish !== null && odds.beyond === 0 && !takesTurns(file));
        expect(odds.finishCurve[0]!).toBeGreaterThanOrEqual(odds.plan.minutesFromStart!);
      }),
      { numRuns: 100 },
    );
  });
});

describe('more uncertainty', () => {
  const chains = fc.array(
    fc.record({ likely: fc.integer({ min: 60, max: 3000 }), low: fc.nat(50), high: fc.nat(50) }),
    { minLength: 1, maxLength: 6 },
  );
  const range = ({ minutesFromStart: { p10, p90 } }: ReturnType<typeof oddsOf>) => p90! - p10!;

  it('should never narrow the range: wider estimates', () => {
    fc.assert(
      fc.property(chains, fc.nat(), (chain, seed) => {
        const asked = { now: NOW, trials: 50, seed, paceSigma: 0 };
        const narrow = oddsOf(serial(chain, 1), asked);
        const wide = oddsOf(serial(chain, 2), asked);
        // Each task is rounded up to a minute.
        expect(range(wide)).toBeGreaterThanOrEqual(range(narrow) - chain.length);
      }),
    );
  });

  it('should never narrow the range: a wider pace', () => {
    fc.assert(
      fc.property(plain, fc.nat(), (parts, seed) => {
        const file = makeBuild(parts);
        const wide = (paceSigma: number) => oddsOf(file, { now: NOW, trials: 40, seed, paceSigma });
        const [narrow, wider] = [wide(0.1), wide(0.3)];
        fc.pre(narrow.plan.finish !== null && narrow.beyond + wider.beyond === 0 && !takesTurns(file));
        expect(range(wider)).toBeGreaterThanOrEqual(range(narrow));
      }),
      { numRuns: 100 },
    );
  });
});

// Helpers

/** Estimates around the likely minutes, a bad lead time, a price with a range. */
function spread([parts, wide, seed]: [Parts, number, number]): { file: BuildFile; seed: number } {
  const tasks = parts.tasks.map(({ minutes, ...task }, i) => ({
    ...task,
    minutes: {
      low: Math.floor(minutes.likely * (1 - 0.05 * wide)),
      likely: minutes.likely,
      high: Math.ceil(minutes.likely * (1 + 0.1 * ((wide + i) % 10))),
    },
  }));
  const purchases = parts.purchases.map((purchase) => ({
    ...purchase,
    leadDaysBad: purchase.leadDays + wide,
    lines: purchase.lines.map((line) => ({ ...line, unitPrice: 1000, priceHigh: 1500 })),
  }));
  return { file: makeBuild({ ...parts, tasks, purchases } as Parts), seed };
}

/** One after the other in continuous time, each so many percent under and over its likely minutes. */
function serial(chain: readonly { likely: number; low: number; high: number }[], times: number): BuildFile {
  return makeBuild({
    people: [{ key: 'a', name: 'A', week: ALL_WEEK }],
    tasks: chain.map(({ likely, low, high }, i) => ({
      key: `t${i}`,
      name: `T${i}`,
      minutes: {
        low: likely - times * Math.floor((likely * low) / 100),
        likely,
        high: likely + times * Math.floor((likely * high) / 100),
      },
    })),
    links: chain.slice(1).map((_, i) => link(`t${i}`, `t${i + 1}`)),
  });
}

function takesTurns(file: BuildFile): boolean {
  const { tasks } = computePlan(file, { now: NOW });
  const dated = Object.entries(tasks).filter(([, { dates }]) => (dates?.sittings.length ?? 0) > 0);
  return dated.some(([key, { dates: a }]) =>
    dated.some(([other, { dates: b }]) => {
      if (key >= other || a!.finish <= b!.start || b!.finish <= a!.start) return false;
      const tools = (one: string) => file.tasks.find((task) => task.key === one)!.tools;
      return (
        a!.people.some((who) => b!.people.includes(who)) || tools(key).some((t) => tools(other).includes(t))
      );
    }),
  );
}

/** The dates of one trial as a plan of a build whose tasks take those minutes; null where the trial has none. */
function triedPlan(
  file: BuildFile,
  draft: Draft,
  minutes: readonly number[],
): { file: BuildFile; plan: Plan } | null {
  const { graph, net, basis, levelled } = draft;
  const course = courseOf(draft);
  const trial = new Trial(course);
  for (let v = 0; v < net.taskCount; v++)
    if (net.minutes[v]! > 0) trial.minutes[v] = minutes[v % minutes.length]!;
  for (let v = 0; v < net.taskCount; v++) {
    const task = basis.taskOf.get(graph.ids[v]!)!;
    if (task.state === 'not-started') trial.partsFrom[v] = Math.max(draft.net.lower[v]!, -1);
  }
  if (trial.forward() > LENGTH) return null;
  // The oracle knows the plan's teams; one that has gone for good hands its task over.
  if (trial.set.some((set, v) => set !== course.set[v])) return null;
  const plan = computePlan(file, { now: NOW });
  const tasks = { ...plan.tasks };
  const shortest = new Map<string, number>();
  for (let v = 0; v < net.taskCount; v++) {
    const key = graph.ids[v]!;
    const task = basis.taskOf.get(key)!;
    if (task.state === 'finished') continue;
    const { dates } = plan.tasks[key]!;
    const text = (instant: number) => instantText(basis.clock, instant);
    const open = workable(file, task, dates!.people, dates!.people.length, LENGTH);
    const length = trial.minutes[v]!;
    if (length > 0)
      shortest.set(
        key,
        Math.min(task.shortestSitting, basis.calendar.sets[levelled.spots[v]!.team.set]!.longestSitting),
      );
    tasks[key] = {
      ...plan.tasks[key]!,
      minutes: length,
      dates: {
        ...dates!,
        start: net.begun[v] === NOT_BEGUN ? text(trial.start[v]!) : task.startedAt!,
        finish: text(trial.finish[v]!),
        waitUntil: text(trial.ready[v]!),
        sittings: length > 0 ? stretches(open, trial.start[v]!, trial.finish[v]!) : [],
      },
    };
  }
  const changed = {
    ...file,
    tasks: file.tasks.map((task) => ({
      ...task,
      shortestSitting: shortest.get(task.key) ?? task.shortestSitting,
    })),
  };
  return { file: changed, plan: { ...plan, tasks } };
}

function stretches(open: Uint8Array, start: number, finish: number): [number, number][] {
  const out: [number, number][] = [];
  for (let m = start; m < finish; m++)
    if (open[m] === 1 && (m === start || open[m - 1] !== 1)) out.push([m, m + 1]);
    else if (open[m] === 1) out.at(-1)![1] = m + 1;
  return out;
}
