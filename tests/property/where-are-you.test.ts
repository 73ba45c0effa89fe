/** Where you are, on random vans with links, covers, exceptions and some progress: whatever is tapped, the build stays one. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { readBuild } from '#shared/contract/read.ts';
import { computePlan } from '#shared/plan.ts';
import { whereAreYou, type BandIn } from '#shared/progress/where-are-you.ts';
import { arbitraryBuild, dayAfter } from '../support/arbitrary-builds.ts';
import { makeBuild } from '../support/builds.ts';
import { coverPairs } from '../support/cover-rule.ts';

const AS_OF = `${dayAfter(7)}T00:00`;
const vans = arbitraryBuild({
  acyclic: false,
  places: 'any',
  kinds: ['FS', 'FS', 'SS', 'FF', 'SF'],
  progress: true,
});
const orderly = arbitraryBuild({ acyclic: true, places: 'orderly', kinds: ['FS', 'FF'], progress: true });
const band = fc.record({
  zone: fc.constantFrom('z0', 'z1', 'z2'),
  depth: fc.constantFrom('d0', 'd1', 'd2', 'd3'),
});
const bands = fc.array(band, { maxLength: 4 });
const open = fc.array(fc.integer({ min: 0, max: 7 }), { maxLength: 2 });

describe('where you are', () => {
  it('should always leave a build that can be read, finished by the as-of instant', () => {
    fc.assert(
      fc.property(vans, bands, open, (parts, tapped, still) => {
        const file = makeBuild(parts);
        const { after, finished } = where(file, tapped, still);
        expect(readBuild(JSON.parse(JSON.stringify(after)))).toEqual(after);
        for (const task of after.tasks.filter(({ key }) => finished.includes(key)))
          expect(task).toMatchObject({ state: 'finished', hoursKnown: false });
        // All else is as it was.
        expect(after.tasks.filter(({ key }) => !finished.includes(key))).toEqual(
          file.tasks.filter(({ key }) => !finished.includes(key)),
        );
        expect({ ...after, tasks: [] }).toEqual({ ...file, tasks: [] });
      }),
      { numRuns: 400 },
    );
  });

  it('should never make anything closed too early that was not', () => {
    fc.assert(
      fc.property(vans, bands, open, (parts, tapped, still) => {
        const file = makeBuild(parts);
        const before = tooEarly(file);
        expect(tooEarly(where(file, tapped, still).after).filter((pair) => !before.includes(pair))).toEqual(
          [],
        );
      }),
      { numRuns: 400 },
    );
  });

  it('should say so in the plan as well: no error of that kind is new', () => {
    fc.assert(
      fc.property(vans, bands, (parts, tapped) => {
        const file = makeBuild(parts);
        const { after } = where(file, tapped, []);
        const inner = (build: BuildFile) =>
          computePlan(build, { now: AS_OF })
            .errors.filter(({ rule }) => rule === 'closed-too-early')
            .map(({ tasks }) => tasks[0]);
        expect(inner(file)).toEqual(expect.arrayContaining(inner(after)));
      }),
      { numRuns: 150 },
    );
  });

  it('should finish no fewer tasks for more bands, and no more for more that is still to do', () => {
    fc.assert(
      fc.property(vans, bands, band, open, fc.nat(7), (parts, tapped, another, still, one) => {
        const file = makeBuild(parts);
        const { finished } = where(file, tapped, still);
        expect(where(file, [...tapped, another], still).finished).toEqual(
          expect.arrayContaining([...finished]),
        );
        expect(finished).toEqual(expect.arrayContaining([...where(file, tapped, [...still, one]).finished]));
      }),
      { numRuns: 300 },
    );
  });

  it('should finish all that is tapped, and tapping it again changes nothing', () => {
    fc.assert(
      fc.property(vans, bands, (parts, tapped) => {
        const file = makeBuild(parts);
        const { after } = where(file, tapped, []);
        for (const { zone, depth } of tapped) {
          const { depths } = file.zones.find(({ key }) => key === zone)!;
          const isBehind = (one: string) => depths.indexOf(one) <= depths.indexOf(depth);
          for (const { places, state } of after.tasks) {
            const here = places.filter((place) => place.zone === zone);
            if (here.length > 0 && here.every((place) => isBehind(place.depth)))
              expect(state).toBe('finished');
          }
        }
        expect(where(after, tapped, []).finished).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it('should date them in the order of covers and links wherever there is one', () => {
    fc.assert(
      fc.property(orderly, bands, (parts, tapped) => {
        const file = makeBuild(parts);
        const { after, finished } = where(file, tapped, []);
        const task = (key: string) => after.tasks.find((one) => one.key === key)!;
        const pairs = [
          ...coverPairs(file).map(({ inner, cover }) => [inner, cover] as const),
          ...file.links.map(({ from, to }) => [from, to] as const),
        ];
        const place = new Map(finished.map((key, i) => [key, i]));
        for (const [first, second] of pairs) {
          if (!place.has(first) || !place.has(second) || isCircular(pairs, first, second)) continue;
          expect(place.get(first)!).toBeLessThan(place.get(second)!);
          // One that was under way was begun when it was begun; its end at least follows.
          expect(task(first).finishedAt! <= task(second).finishedAt!).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });
});

// Helpers

function where(file: BuildFile, tapped: readonly BandIn[], still: readonly number[]) {
  return whereAreYou(file, tapped, { asOf: AS_OF, stillToDo: still.map((n) => `t${n}`) });
}

/** Read from the rule itself: what is not finished behind a cover that has begun. */
function tooEarly(file: BuildFile): string[] {
  const state = new Map(file.tasks.map((task) => [task.key, task.state]));
  return coverPairs(file)
    .filter(({ inner, cover }) => state.get(cover) !== 'not-started' && state.get(inner) !== 'finished')
    .map(({ inner, cover, zone }) => `${inner} behind ${cover} in ${zone}`);
}

/** Does a way of pairs lead back from the second to the first? Covers of several zones can run in a circle. */
function isCircular(pairs: readonly (readonly [string, string])[], first: string, second: string): boolean {
  const seen = new Set([second]);
  for (const key of seen) for (const [a, b] of pairs) if (a === key) seen.add(b);
  return seen.has(first);
}
