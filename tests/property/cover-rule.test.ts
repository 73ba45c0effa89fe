/**
 * The cover rule and the order guard on random stacks, links and exceptions, against the rule read pair by pair:
 * gates say no more and no less, every reported cycle is one, and its repair undoes it.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { OrderError } from '#shared/contract/plan.ts';
import { applyRepair } from '#shared/covers/apply-repair.ts';
import { compileGraph } from '#shared/graph/compile.ts';
import { taskGraph } from '#shared/graph/task-graph.ts';
import { computePlan } from '#shared/plan.ts';
import { arbitraryBuild } from '../support/arbitrary-builds.ts';
import { makeBuild, NOW } from '../support/builds.ts';
import { closure, coverPairs } from '../support/cover-rule.ts';

const stacks = arbitraryBuild({ acyclic: true, places: 'any', kinds: ['FS'], progress: false });
const tangled = arbitraryBuild({ acyclic: false, places: 'any', kinds: ['FS', 'FS', 'SS'], progress: false });
const exceptions = fc.array(fc.tuple(fc.nat(), fc.nat()), { maxLength: 3 });
const CONTEXT = { at: NOW, by: 'p0', reason: 'screwed on, off in ten minutes' };

describe('gates', () => {
  it('should give the same order of tasks as the cover rule pair by pair', () => {
    fc.assert(
      fc.property(stacks, exceptions, (parts, pairs) => {
        const file = withExceptions({ ...parts, links: [] }, pairs);
        const keys = file.tasks.map(({ key }) => key);
        const graph = compileGraph(taskGraph(file), new Map(keys.map((key) => [key, true])));
        const arcs: [string, string][] = [];
        for (let v = 0; v < graph.size; v++)
          for (let arc = graph.offsets[v]!; arc < graph.offsets[v + 1]!; arc++)
            arcs.push([graph.ids[v]!, graph.ids[graph.targets[arc]!]!]);
        const byGates = closure([...graph.ids], arcs);
        const byRule = closure(
          keys,
          coverPairs(file).map(({ inner, cover }) => [inner, cover]),
        );
        for (const key of keys)
          expect([...byGates.get(key)!].filter((id) => keys.includes(id)).toSorted()).toEqual(
            [...byRule.get(key)!].toSorted(),
          );
      }),
      { numRuns: 500 },
    );
  });

  it('should grow with tasks and depths, not with pairs', () => {
    const depths = Array.from({ length: 10 }, (_, i) => `d${i}`);
    const count = 400;
    const tasks = Array.from({ length: count }, (_, i) => ({
      key: `t${i}`,
      name: `t${i}`,
      minutes: { low: 1, likely: 1, high: 1 },
      places: [
        { zone: 'z', depth: depths[i % 10]!, hides: i % 10 > 0 && i % 4 === 0 ? depths[(i % 10) - 1] : null },
      ],
    }));
    const file = makeBuild({ depths, zones: [{ key: 'z', name: 'z', depths }], tasks });
    expect(coverPairs(file).length).toBeGreaterThan(count * 10);
    expect(taskGraph(file).graph.edgeCount()).toBeLessThan(2 * count + depths.length);
  });
});

describe('the order guard', () => {
  it('should report something just when covers and links cannot all be kept', () => {
    fc.assert(
      fc.property(tangled, (parts) => {
        const file = makeBuild(parts);
        const { errors, provisional } = computePlan(file, { now: NOW });
        expect(circles(errors).length > 0).toBe(hasCycle(file));
        expect(provisional).toBe(errors.some(({ rule }) => rule === 'wrong-order'));
      }),
      { numRuns: 300 },
    );
  });

  it('should report only cycles: each step is a stated link or a cover, and the last leads back to the first', () => {
    fc.assert(
      fc.property(tangled, (parts) => {
        const file = makeBuild(parts);
        const pairs = coverPairs(file);
        for (const { chain, tasks } of circles(computePlan(file, { now: NOW }).errors)) {
          expect(chain.map(({ from }) => from)).toEqual(tasks);
          chain.forEach((step, i) => {
            expect(step.to).toBe(chain[(i + 1) % chain.length]!.from);
            const isTrue =
              step.by === 'link'
                ? file.links.some(({ from, to }) => from === step.from && to === step.to)
                : pairs.some(
                    ({ inner, cover, zone }) =>
                      inner === step.from && cover === step.to && zone === step.zone,
                  );
            expect(isTrue, JSON.stringify(step)).toBe(true);
          });
        }
      }),
      { numRuns: 300 },
    );
  });

  it('should undo a reported cycle by its repair, and every cycle of links by all repairs together', () => {
    fc.assert(
      fc.property(tangled, (parts) => {
        const file = makeBuild(parts);
        const errors = circles(computePlan(file, { now: NOW }).errors);
        for (const error of errors) {
          const repaired = applyRepair(file, error.repair!, CONTEXT);
          const after = circles(computePlan(repaired, { now: NOW }).errors);
          expect(after.map(({ chain }) => JSON.stringify(chain))).not.toContain(JSON.stringify(error.chain));
        }
        const dropped = errors.filter(({ rule }) => rule === 'wrong-order');
        const all = dropped.reduce((changed, { repair }) => applyRepair(changed, repair!, CONTEXT), file);
        const left = computePlan(all, { now: NOW });
        expect(left.errors.filter(({ rule }) => rule === 'wrong-order')).toEqual([]);
        expect(left.provisional).toBe(false);
      }),
      { numRuns: 300 },
    );
  });

  it('should drop as few links as possible, and links with a reason only if no other will do', () => {
    fc.assert(
      fc.property(tangled, (parts) => {
        const file = makeBuild({ ...parts, tasks: parts.tasks.map((task) => ({ ...task, places: [] })) });
        const { leftOut } = computePlan(file, { now: NOW });
        const best = leastDropped(file);
        expect(leftOut.length).toBe(best.count);
        const reasoned = leftOut.filter(
          ({ from, to, kind }) =>
            file.links.find((link) => link.from === from && link.to === to && link.kind === kind)!.reason !==
            '',
        );
        expect(reasoned.length).toBe(best.reasoned);
      }),
      { numRuns: 200 },
    );
  });

  it('should take a circle of covers apart by splitting a task, step by step', () => {
    fc.assert(
      fc.property(stacks, (parts) => {
        let file = makeBuild({ ...parts, links: [] });
        // Each split leaves a task in fewer zones, so there can be no more of them than places.
        for (let i = 0; i < 24; i++) {
          const error = circles(computePlan(file, { now: NOW }).errors)[0];
          if (error === undefined) break;
          expect(error.rule).toBe('covers-in-a-circle');
          expect(error.repair!.kind).toBe('split');
          file = applyRepair(file, error.repair!, CONTEXT);
        }
        expect(hasCycle(file)).toBe(false);
      }),
      { numRuns: 200 },
    );
  });

  it('should offer only alternatives that break the cycle they are offered for', () => {
    fc.assert(
      fc.property(tangled, (parts) => {
        const file = makeBuild(parts);
        for (const error of circles(computePlan(file, { now: NOW }).errors))
          for (const repair of error.otherRepairs) {
            const after = computePlan(applyRepair(file, repair, CONTEXT), { now: NOW });
            expect(after.errors.map(({ chain }) => JSON.stringify(chain))).not.toContain(
              JSON.stringify(error.chain),
            );
          }
      }),
      { numRuns: 200 },
    );
  });
});

// Helpers

type Parts = typeof stacks extends fc.Arbitrary<infer T> ? T : never;

function withExceptions(parts: Parts, pairs: readonly [number, number][]): BuildFile {
  const count = parts.tasks.length;
  const list = pairs
    .map(([a, b]) => ({ inner: `t${a % count}`, cover: `t${b % count}`, reason: 'tried' }))
    .filter(({ inner, cover }) => inner !== cover);
  return makeBuild({
    ...parts,
    exceptions: [...new Map(list.map((one) => [`${one.inner} ${one.cover}`, one])).values()],
  });
}

function circles(errors: readonly OrderError[]): OrderError[] {
  return errors.filter(({ rule }) => rule === 'wrong-order' || rule === 'covers-in-a-circle');
}

function hasCycle(file: BuildFile, links = file.links): boolean {
  const keys = file.tasks.map(({ key }) => key);
  const after = closure(keys, [
    ...links.map(({ from, to }): [string, string] => [from, to]),
    ...coverPairs(file).map(({ inner, cover }): [string, string] => [inner, cover]),
  ]);
  return keys.some((key) => after.get(key)!.has(key));
}

/** The fewest links whose loss leaves no cycle, by trying every set; and the fewest with a reason among such sets. */
function leastDropped(file: BuildFile): { count: number; reasoned: number } {
  const { links } = file;
  let best = { count: Infinity, reasoned: Infinity };
  for (let set = 0; set < 2 ** links.length; set++) {
    const dropped = links.filter((_, i) => (set & (1 << i)) !== 0);
    if (dropped.length > best.count) continue;
    const reasoned = dropped.filter(({ reason }) => reason !== '').length;
    if (dropped.length === best.count && reasoned >= best.reasoned) continue;
    if (
      !hasCycle(
        file,
        links.filter((_, i) => (set & (1 << i)) === 0),
      )
    )
      best = { count: dropped.length, reasoned };
  }
  return best;
}
