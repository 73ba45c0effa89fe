/**
 * The critical path on random builds with windows, conditions, waits, lags of both kinds and all four link kinds:
 * what early and late dates and slack promise, tried out by moving one thing and looking at the rest.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { computePlan } from '#shared/plan.ts';
import { arbitraryBuild } from '../support/arbitrary-builds.ts';
import { ALL_WEEK, makeBuild, NOW } from '../support/builds.ts';
import { coverPairs } from '../support/cover-rule.ts';
import { isAdmissible, minuteOf, runEnd, split, workable } from '../support/minute-by-minute.ts';

const LENGTH = 120 * 1440;
const ALL_KINDS = ['FS', 'SS', 'FF', 'SF'] as const;
const builds = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ALL_KINDS, progress: false });
const underWay = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ALL_KINDS, progress: true });
const withoutPlaces = arbitraryBuild({ acyclic: true, places: 'none', kinds: ALL_KINDS, progress: false });

describe('early and late dates', () => {
  for (const dates of ['early', 'late'] as const)
    it(`should keep every bound: the ${dates} dates are a plan in themselves`, () => {
      fc.assert(
        fc.property(builds, (parts) => {
          const { file, plan } = planned(parts);
          expect(brokenBounds(file, plan, dates)).toEqual([]);
        }),
      );
    });

  it('should never leave negative slack without a target or a fixed date', () => {
    fc.assert(
      fc.property(fc.oneof(builds, underWay), (parts) => {
        const { plan } = planned(parts);
        for (const { totalFloat, freeFloat, state } of Object.values(plan.tasks)) {
          if (state === 'finished' && totalFloat === null) continue;
          expect(freeFloat).toBeGreaterThanOrEqual(0);
          expect(totalFloat).toBeGreaterThanOrEqual(freeFloat!);
        }
      }),
    );
  });

  // With windows the least slack may be more than nothing: a last wait that runs by day leaves the evening before free.
  it('should call the tasks of least slack critical, and put each on a chain', () => {
    fc.assert(
      fc.property(withoutPlaces, (parts) => {
        const { plan } = planned(parts);
        const slack = Object.values(plan.tasks).map(({ totalFloat }) => totalFloat!);
        const critical = Object.keys(plan.tasks).filter(
          (key) => plan.tasks[key]!.totalFloat === Math.min(...slack),
        );
        expect(Object.keys(plan.tasks).filter((key) => plan.tasks[key]!.critical)).toEqual(critical);
        expect([...new Set(plan.criticalChains.flat())].toSorted()).toEqual(critical.toSorted());
      }),
    );
  });

  it('should leave the critical tasks no slack where the clock never stops, and end as much later as one of them takes longer', () => {
    fc.assert(
      fc.property(withoutPlaces, fc.nat(), (parts, pick) => {
        const always = continuous(parts);
        const { plan } = planned(always);
        const critical = Object.keys(plan.tasks).filter((key) => plan.tasks[key]!.critical);
        for (const key of critical) expect(plan.tasks[key]!.totalFloat).toBe(0);
        const slow = critical[pick % critical.length]!;
        const waiting = always.tasks.map((task) =>
          task.key === slow ? { ...task, waitMinutes: task.waitMinutes + 5000 } : task,
        );
        const after = computePlan(makeBuild({ ...always, tasks: waiting }), { now: NOW });
        expect(after.finish.early).toBe(plan.finish.early! + 5000);
      }),
    );
  });

  it('should keep the end when one task starts at its late start, and move it at the next admissible start', () => {
    fc.assert(
      fc.property(builds, fc.nat(), (parts, pick) => {
        const { file, plan } = planned(parts);
        const task = file.tasks[pick % file.tasks.length]!;
        const { late } = plan.tasks[task.key]!;
        expect(startedAt(file, task.key, late!.start).finish.early).toBe(plan.finish.early);
        const next = nextStart(file, task.key, late!.start + 1);
        fc.pre(next !== null);
        const moved = startedAt(file, task.key, next);
        if (moved.finish.early === null) expectNeverAgain(file, moved);
        else expect(moved.finish.early).toBeGreaterThan(plan.finish.early!);
      }),
    );
  });

  it('should move no other early date by using up the free slack of one task', () => {
    fc.assert(
      fc.property(builds, fc.nat(), (parts, pick) => {
        const { file, plan } = planned(parts);
        const task = file.tasks[pick % file.tasks.length]!;
        const { early, freeFloat } = plan.tasks[task.key]!;
        const moved = startedAt(file, task.key, later(file, task.key, early!.start, freeFloat!));
        expect(moved.finish.early).toBe(plan.finish.early);
        for (const other of file.tasks)
          if (other.key !== task.key)
            expect(moved.tasks[other.key]!.early, other.key).toEqual(plan.tasks[other.key]!.early);
      }),
    );
  });

  it('should move some other early date, or the end, one admissible start past the free slack', () => {
    fc.assert(
      fc.property(builds, fc.nat(), (parts, pick) => {
        const { file, plan } = planned(parts);
        const task = file.tasks[pick % file.tasks.length]!;
        const { early, freeFloat } = plan.tasks[task.key]!;
        const next = nextStart(file, task.key, later(file, task.key, early!.start, freeFloat!) + 1);
        fc.pre(next !== null);
        const moved = startedAt(file, task.key, next);
        if (moved.finish.early === null) return expectNeverAgain(file, moved);
        const others = file.tasks.filter(({ key }) => key !== task.key);
        const shifted = others.some(
          ({ key }) => moved.tasks[key]!.early!.start !== plan.tasks[key]!.early!.start,
        );
        expect(shifted || moved.finish.early > plan.finish.early!).toBe(true);
      }),
    );
  });

  // Of the dated finish this is not so: serial schedules have anomalies, and one link more may end earlier
  // (R. L. Graham, "Bounds on multiprocessing timing anomalies", SIAM J. Appl. Math. 17, 1969).
  it('should never end earlier because of one more link', () => {
    fc.assert(
      fc.property(builds, fc.nat(), fc.nat(), fc.constantFrom(...ALL_KINDS), (parts, a, b, kind) => {
        const { file, plan } = planned(parts);
        const count = file.tasks.length;
        const [from, to] = [a % count, b % count].toSorted((x, y) => x - y) as [number, number];
        fc.pre(from !== to);
        const added = { from: `t${from}`, to: `t${to}`, kind, lagMinutes: 60 };
        fc.pre(
          !file.links.some((link) => link.from === added.from && link.to === added.to && link.kind === kind),
        );
        const more = computePlan(makeBuild({ ...parts, links: [...parts.links, added] }), { now: NOW });
        fc.pre(!more.provisional && more.finish.early !== null);
        expect(more.finish.early).toBeGreaterThanOrEqual(plan.finish.early!);
      }),
    );
  });

  it('should keep a target: every slack shrinks by what the target lies before the end', () => {
    fc.assert(
      fc.property(withoutPlaces, (parts) => {
        const { file, plan } = planned(parts);
        const endDay = split(file.build.startOn, plan.finish.early! - 1).day;
        const easy = computePlan(makeBuild({ ...parts, build: { targetFinishOn: endDay } }), { now: NOW });
        const hard = computePlan(makeBuild({ ...parts, build: { targetFinishOn: file.build.startOn } }), {
          now: NOW,
        });
        // Where two people have met only once there is no earlier day for it, and no slack to speak of.
        const met = file.tasks.filter(({ key }) => hard.tasks[key]!.totalFloat !== null);
        for (const { key } of met) {
          expect(easy.tasks[key]!.totalFloat).toBeGreaterThanOrEqual(plan.tasks[key]!.totalFloat!);
          expect(hard.tasks[key]!.totalFloat).toBeLessThanOrEqual(plan.tasks[key]!.totalFloat!);
        }
        fc.pre(plan.finish.early! > 2880 && met.length === file.tasks.length);
        expect(Math.min(...met.map(({ key }) => hard.tasks[key]!.totalFloat!))).toBeLessThan(0);
      }),
    );
  });
});

describe('the plan', () => {
  it('should not depend on the order of records in the file', () => {
    fc.assert(
      fc.property(underWay, fc.infiniteStream(fc.nat()), (parts, random) => {
        const next = () => random.next().value as number;
        const shuffled = <T>(list: readonly T[]): T[] => {
          const out = [...list];
          for (let i = out.length - 1; i > 0; i--) {
            const j = next() % (i + 1);
            [out[i], out[j]] = [out[j]!, out[i]!];
          }
          return out;
        };
        const { file, plan } = planned(parts);
        const again = makeBuild({
          ...parts,
          people: shuffled(parts.people).map((person) => ({
            ...person,
            exceptions: shuffled(person.exceptions),
          })),
          tools: shuffled(parts.tools),
          conditions: shuffled(parts.conditions).map((condition) => ({
            ...condition,
            not: shuffled(condition.not),
          })),
          tasks: shuffled(parts.tasks).map((task) => ({
            ...task,
            who: shuffled(task.who),
            conditions: shuffled(task.conditions),
            places: shuffled<object>(task.places),
          })),
          links: shuffled(parts.links),
          zones: shuffled(parts.zones),
          zoneGroups: shuffled(parts.zoneGroups).map((group) => ({ ...group, zones: shuffled(group.zones) })),
          purchases: shuffled(parts.purchases),
        });
        expect(file.tasks).not.toBe(again.tasks);
        expect(JSON.stringify(computePlan(again, { now: NOW }))).toBe(JSON.stringify(plan));
      }),
    );
  });

  it('should be the same for a build written to a file and read back', () => {
    fc.assert(
      fc.property(underWay, (parts) => {
        const { file, plan } = planned(parts);
        const read = JSON.parse(JSON.stringify(file)) as BuildFile;
        expect(computePlan(read, { now: NOW })).toEqual(plan);
      }),
    );
  });
});

// Helpers

type Parts = typeof builds extends fc.Arbitrary<infer T> ? T : never;

function planned(parts: Parts): { file: BuildFile; plan: Plan } {
  const file = makeBuild(parts);
  const plan = computePlan(file, { now: NOW });
  // A task that never runs has no dates to promise anything of; a test of its own looks at those.
  fc.pre(plan.finish.early !== null && !plan.provisional && plan.finish.early < LENGTH);
  return { file, plan };
}

/** The plan when one task may not start before an instant: a lag from a task that ends at the build's start. */
function startedAt(file: BuildFile, key: string, instant: number): Plan {
  const marker = {
    ...file.tasks[0]!,
    key: 'marker',
    name: 'marker',
    people: 1,
    who: [],
    tools: [],
    conditions: [],
  };
  const zero = {
    ...marker,
    minutes: { low: 0, likely: 0, high: 0 },
    waitMinutes: 0,
    waitConditions: [],
    places: [],
  };
  const link = {
    from: 'marker',
    to: key,
    kind: 'SS',
    lagMinutes: instant,
    lagOn: 'clock',
    reason: '',
    why: null,
  } as const;
  const purchases = file.purchases;
  return computePlan(
    { ...file, tasks: [...file.tasks, zero], links: [...file.links, link], purchases },
    { now: NOW },
  );
}

/**
 * Put off past the last day on which its people meet, a task has no date at all, nor has what follows it: that moves
 * the end too. It happens only to people who meet on exceptional days alone, which all lie in the first weeks.
 */
function expectNeverAgain(file: BuildFile, { tasks }: Plan): void {
  const lost = file.tasks.filter(({ key }) => tasks[key]!.early === null);
  const meetLater = lost.filter(({ key }) => {
    const { open, minutes, sitting } = openFor(file, key);
    for (let m = 60 * 1440; m < open.length; m++)
      if (isAdmissible(open, m, sitting) && runEnd(open, m, minutes) !== -1) return true;
    return minutes === 0;
  });
  expect(meetLater.length).toBeLessThan(lost.length);
}

/** The same build by people who never sleep, conditions that always hold, and finish-to-start links. */
function continuous(parts: Parts): Parts {
  return {
    ...parts,
    people: parts.people.map((person) => ({
      ...person,
      week: ALL_WEEK,
      exceptions: [],
    })) as unknown as Parts['people'],
    conditions: parts.conditions.map((condition) => ({
      ...condition,
      not: [],
      hours: '00:00-24:00',
    })) as unknown as Parts['conditions'],
    links: [
      ...new Map(
        parts.links.map((link) => [`${link.from} ${link.to}`, { ...link, kind: 'FS' as const }]),
      ).values(),
    ],
  };
}

function openFor(file: BuildFile, key: string): { open: Uint8Array; minutes: number; sitting: number } {
  const task = file.tasks.find((one) => one.key === key)!;
  const eligible = task.who.length > 0 ? task.who : file.people.map((person) => person.key);
  const minutes = task.minutes.likely;
  return {
    open: workable(file, task, eligible, task.people, LENGTH + 30 * 1440),
    minutes,
    sitting: Math.min(task.shortestSitting, minutes),
  };
}

/** The first admissible start from an instant on; any minute for a task without minutes. */
function nextStart(file: BuildFile, key: string, from: number): number | null {
  const { open, minutes, sitting } = openFor(file, key);
  if (minutes === 0) return from;
  for (let m = from; m < open.length; m++) if (isAdmissible(open, m, sitting)) return m;
  return null;
}

/** The start that lies so many of the task's own worked minutes later. */
function later(file: BuildFile, key: string, start: number, worked: number): number {
  const { open, minutes } = openFor(file, key);
  if (minutes === 0) return start + worked;
  let left = worked;
  let m = start;
  while (left > 0) if (open[m++] === 1) left--;
  while (open[m] !== 1) m++;
  return m;
}

/** Bounds of the rules that a set of dates breaks, walked minute by minute. */
function brokenBounds(file: BuildFile, plan: Plan, dates: 'early' | 'late'): string[] {
  const wrong: string[] = [];
  const of = (key: string) => plan.tasks[key]![dates]!;
  const asOf = minuteOf(file.build.startOn, plan.asOf);
  const waitOver = (key: string) => {
    const task = file.tasks.find((one) => one.key === key)!;
    if (task.waitMinutes === 0 || task.waitConditions.length === 0) return of(key).finish + task.waitMinutes;
    const holds = workable(file, { conditions: task.waitConditions, tools: [] }, [], 0, LENGTH + 30 * 1440);
    return runEnd(holds, of(key).finish, task.waitMinutes);
  };
  for (const { key } of file.tasks) {
    const { open, minutes, sitting } = openFor(file, key);
    const { start, finish } = of(key);
    if (start < asOf) wrong.push(`${key} before the as-of instant`);
    if (minutes === 0 ? start !== finish : runEnd(open, start, minutes) !== finish)
      wrong.push(`${key} does not run through`);
    if (minutes > 0 && !isAdmissible(open, start, sitting)) wrong.push(`${key} starts where it cannot`);
    if (waitOver(key) > plan.finish.early!) wrong.push(`${key} hardens past the end`);
  }
  for (const { from, to, kind, lagMinutes, lagOn } of file.links) {
    const origin = kind === 'FS' ? waitOver(from) : kind === 'FF' ? of(from).finish : of(from).start;
    const { open } = openFor(file, to);
    const bound =
      lagOn === 'clock' || lagMinutes === 0 ? origin + lagMinutes : runEnd(open, origin, lagMinutes);
    const reached = kind === 'FS' || kind === 'SS' ? of(to).start : of(to).finish;
    if (reached < bound) wrong.push(`${kind} ${from} ${to}`);
  }
  for (const { inner, cover } of coverPairs(file))
    if (of(cover).start < waitOver(inner)) wrong.push(`${cover} hides ${inner}`);
  return wrong;
}
