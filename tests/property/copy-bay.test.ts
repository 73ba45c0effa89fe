/** Random bays copied: what comes out is a build, no order in it becomes wrong, and the way back leads back exactly. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withRows } from '#shared/changes/apply.ts';
import { copyBay } from '#shared/changes/copy-bay.ts';
import { editsBetween } from '#shared/changes/diff.ts';
import { splitByHours } from '#shared/changes/split-hours.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { readBuild } from '#shared/contract/read.ts';
import { computePlan } from '#shared/plan.ts';
import { arbitraryBuild } from '../support/arbitrary-builds.ts';
import { makeBuild, NOW } from '../support/builds.ts';

const kinds = ['FS', 'SS', 'FF', 'SF'] as const;
const orderly = arbitraryBuild({ acyclic: true, places: 'orderly', kinds, progress: true });
const tangled = arbitraryBuild({ acyclic: false, places: 'any', kinds, progress: true });
const zones = fc.constantFrom(['z0', 'z1'], ['z1', 'z2'], ['z2', 'z0']) as fc.Arbitrary<[string, string]>;
const NO_VERSIONS = { of: () => 1 };
/** The rules of order; that a task can never run is said of a copy as of what it was copied from. */
const ORDER = new Set(['wrong-order', 'covers-in-a-circle', 'closed-too-early', 'covered-unchecked']);

describe('a bay copied to another', () => {
  for (const [name, arbitrary] of [
    ['an orderly build', orderly],
    ['a build with wrong orders in it', tangled],
  ] as const)
    it(`should leave ${name} a build without one new error of order`, () => {
      let copied = 0;
      fc.assert(
        fc.property(arbitrary, zones, fc.constantFrom('none', 'again'), (parts, [from, to], needed) => {
          const file = makeBuild(parts);
          const { file: after, tasks, left } = copyBay(file, { from, to, parts: needed });
          expect(readBuild(JSON.parse(JSON.stringify(after)))).toEqual(after);
          expect(errorsOf(after)).toEqual(errorsOf(file));
          const here = file.tasks.filter((task) => task.places.some(({ zone }) => zone === from));
          expect(tasks.length + left.length).toBe(here.length);
          for (const key of new Set([...tasks.map(({ of }) => of), ...left.map(({ task }) => task)]))
            expect(here.some((task) => task.key === key)).toBe(true);
          copied += tasks.length;
        }),
        { numRuns: 60 },
      );
      expect(copied).toBeGreaterThan(30);
    });

  it('should be taken back to the byte', () => {
    fc.assert(
      fc.property(tangled, zones, (parts, [from, to]) => {
        const file = makeBuild(parts);
        const { file: after } = copyBay(file, { from, to, parts: 'again' });
        const made = withRows(file, editsBetween(file, after, NO_VERSIONS));
        expect(JSON.stringify(made)).toBe(JSON.stringify(after));
        const back = withRows(made, editsBetween(made, file, NO_VERSIONS));
        expect(JSON.stringify(back)).toBe(JSON.stringify(file));
      }),
      { numRuns: 60 },
    );
  });
});

describe('a task split by hours', () => {
  it('should leave a build, no minute lost and no new error of order', () => {
    fc.assert(
      fc.property(orderly, fc.nat(), fc.double({ min: 0, max: 1, noNaN: true }), (parts, which, share) => {
        const file = makeBuild(parts);
        const open = file.tasks.filter(({ state, minutes }) => state !== 'finished' && minutes.likely > 1);
        fc.pre(open.length > 0);
        const task = open[which % open.length]!;
        const first = 1 + Math.floor(share * (task.minutes.likely - 2));
        const { file: after, second } = splitByHours(file, { task: task.key, first });
        expect(readBuild(JSON.parse(JSON.stringify(after)))).toEqual(after);
        const both = after.tasks.filter(({ key }) => key === task.key || key === second);
        expect(both.reduce((sum, { minutes }) => sum + minutes.likely, 0)).toBe(task.minutes.likely);
        // What is wrong about the whole is wrong about its parts, and nothing else is.
        const said = errorsOf(after).map((words) => words.replaceAll(second, task.key));
        expect(new Set(said)).toEqual(new Set(errorsOf(file)));
      }),
      { numRuns: 60 },
    );
  });
});

// Helpers

/** What is wrong in the order of the work, as it is said. */
function errorsOf(file: BuildFile): string[] {
  return computePlan(file, { now: NOW })
    .errors.filter(({ rule }) => ORDER.has(rule))
    .map(({ rule, tasks }) => `${rule} ${tasks.join(' ')}`)
    .sort();
}
