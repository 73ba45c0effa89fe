/** Builds that share people, in random pairs: nobody is planned in two vans at once, and sharing is all that matters. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { computePlan } from '#shared/plan.ts';
import { busyOf, withElsewhere } from '#shared/time/elsewhere.ts';
import { arbitraryBuild } from '../support/arbitrary-builds.ts';
import { makeBuild, NOW, START, type BuildParts } from '../support/builds.ts';
import { breaches } from '../support/check-dates.ts';

const DAY = 1440;
const LENGTH = 90 * DAY;
const builds = arbitraryBuild({
  acyclic: true,
  places: 'orderly',
  kinds: ['FS', 'SS', 'FF', 'SF'],
  progress: false,
});
/** The second build begins so many days before the first. */
const pairs = fc.tuple(builds, builds, fc.constantFrom(0, 3, 11));

describe('builds that share people', () => {
  it('should never plan a person in two of them at the same minute', () => {
    let met = 0;
    fc.assert(
      fc.property(pairs, ([parts, others, days]) => {
        const one = makeBuild(shared(parts));
        const two = makeBuild(begun(shared(others), days));
        const first = computePlan(one, { now: NOW });
        const elsewhere = busyOf(one, first);
        const second = computePlan(withElsewhere(two, elsewhere), { now: NOW });
        const taken = minutesWorked(one, first);
        for (const [key, minutes] of minutesWorked(two, second))
          for (const minute of minutes) expect(taken.get(key)?.has(minute) ?? false).toBe(false);
        const alone = computePlan(two, { now: NOW });
        for (const [key, minutes] of minutesWorked(two, alone))
          if ([...minutes].some((minute) => taken.get(key)?.has(minute))) met++;
      }),
      { numRuns: 40 },
    );
    // Left alone they do meet: the pairs are such that the rule has work to do.
    expect(met).toBeGreaterThan(5);
  });

  it('should keep every rule of the dates in what is left of the windows', () => {
    fc.assert(
      fc.property(pairs, ([parts, others]) => {
        const one = makeBuild(shared(parts));
        const two = withElsewhere(makeBuild(shared(others)), busyOf(one, computePlan(one, { now: NOW })));
        const found = breaches(two, computePlan(two, { now: NOW }), LENGTH);
        fc.pre(found !== null);
        expect(found).toEqual([]);
      }),
      { numRuns: 40 },
    );
  });

  it('should be planned as each by itself where no name is shared', () => {
    fc.assert(
      fc.property(pairs, ([parts, others]) => {
        const one = makeBuild(parts);
        const two = makeBuild(shared(others));
        expect(busyOf(one, computePlan(one, { now: NOW }))).toEqual({});
        const elsewhere = busyOf(two, computePlan(two, { now: NOW }));
        expect(withElsewhere(one, elsewhere)).toBe(one);
      }),
      { numRuns: 25 },
    );
  });
});

// Helpers

/** Everybody is known by their key in every build. */
function shared(parts: BuildParts): BuildParts {
  return {
    ...parts,
    people: parts.people!.map((one) => ({ ...one, sharedAs: (one as { key: string }).key })),
  };
}

function begun(parts: BuildParts, days: number): BuildParts {
  const startOn = new Date(Date.parse(`${START}T00:00:00Z`) - days * DAY * 60_000).toISOString().slice(0, 10);
  return { ...parts, build: { ...parts.build, startOn } };
}

/** By person: the minutes of work since 1970, counted from the plan alone. */
function minutesWorked(file: BuildFile, { tasks }: Plan): Map<string, Set<number>> {
  const origin = Date.parse(`${file.build.startOn}T00:00:00Z`) / 60_000;
  const worked = new Map<string, Set<number>>();
  for (const { dates } of Object.values(tasks))
    for (const key of dates?.people ?? []) {
      const minutes = worked.get(key) ?? new Set();
      worked.set(key, minutes);
      for (const [from, to] of dates!.sittings)
        for (let minute = from; minute < to; minute++) minutes.add(origin + minute);
    }
  return worked;
}
