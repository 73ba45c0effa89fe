/** A what-if over a plan that moves on, and two builds side by side. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withRows } from '#shared/changes/apply.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { readBuild } from '#shared/contract/read.ts';
import { referenceFaults } from '#shared/contract/references.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { computePlan } from '#shared/plan.ts';
import { compare, type Pair } from '#shared/whatif/compare.ts';
import { layOver, settle, withoutMisfits } from '#shared/whatif/lay.ts';
import type { WhatIfStep } from '#shared/whatif/what-if.ts';
import { laid, move, stepOf, type Move } from '../support/what-if-edits.ts';

const PLAN = readBuild(wagtail());
const NOW = '2027-03-09T19:00';
const moves = fc.array(move, { minLength: 1, maxLength: 5 });

describe('a what-if', () => {
  it('should be a build whatever the plan has become, and lie over it without a question once all are answered', () => {
    fc.assert(
      fc.property(moves, moves, fc.constantFrom('plan', 'what-if'), (tried, meanwhile, by) => {
        let steps = stepsOf(PLAN, tried);
        const plan = stepsOf(PLAN, meanwhile).reduce((file, { edits }) => withRows(file, laid(edits)), PLAN);
        let over = layOver(plan, steps);
        expect(referenceFaults(over.file)).toEqual([]);
        for (let turns = 0; over.clashes.length + over.misfits.length > 0; turns++) {
          expect(turns).toBeLessThan(200);
          const [clash] = over.clashes;
          steps = clash === undefined ? withoutMisfits(steps, over.misfits) : settle(steps, clash, by);
          over = layOver(plan, steps);
          expect(referenceFaults(over.file)).toEqual([]);
        }
      }),
      { numRuns: Number(process.env['FC_RUNS'] ?? 30) },
    );
  });

  it('should change nothing where nothing is tried', () => {
    expect(layOver(PLAN, []).file).toBe(PLAN);
  });
});

describe('two builds side by side', () => {
  it('should differ by the same, the other way round, when they change sides', () => {
    const plan = computePlan(PLAN, { now: NOW });
    fc.assert(
      fc.property(moves, (tried) => {
        const file = layOver(PLAN, stepsOf(PLAN, tried)).file;
        const [a, b] = [
          { file: PLAN, plan, fourInFive: '2028-07-22' },
          { file, plan: computePlan(file, { now: NOW }), fourInFive: '2028-07-01' },
        ];
        const [one, other] = [compare(a, b), compare(b, a)];
        for (const name of FIGURES) expect(one[name], name).toEqual(turned(other[name]));
        expect(one.newErrors).toEqual(other.goneErrors);
        expect(one.goneErrors).toEqual(other.newErrors);
        expect(one.tasks.map(({ key }) => key)).toEqual(other.tasks.map(({ key }) => key));
        expect(one.orderBy.map(({ key, by }) => [key, by])).toEqual(
          other.orderBy.map(({ key, by }) => [key, minus(by)]),
        );
        expect(one.closings.length).toBe(other.closings.length);
      }),
      { numRuns: Number(process.env['FC_RUNS'] ?? 8) },
    );
  });

  it('should differ by nothing where both are the same', () => {
    const side = { file: PLAN, plan: computePlan(PLAN, { now: NOW }) };
    const same = compare(side, side);
    for (const name of FIGURES) expect([null, 0]).toContain(same[name].by);
    expect([same.tasks, same.orderBy, same.closings, same.newErrors, same.goneErrors]).toEqual([
      [],
      [],
      [],
      [],
      [],
    ]);
  });
});

// Helpers

const FIGURES = ['finish', 'fourInFive', 'forecast', 'empty', 'massLeft', 'toWork', 'tasksLeft'] as const;

function stepsOf(file: BuildFile, made: readonly Move[]): WhatIfStep[] {
  const steps: WhatIfStep[] = [];
  let now = file;
  for (const one of made) {
    const step = stepOf(now, one);
    if (step === null) continue;
    steps.push(step);
    now = withRows(now, laid(step.edits));
  }
  return steps;
}

function turned({ from, to, by }: Pair<unknown>): Pair<unknown> {
  return { from: to, to: from, by: minus(by) };
}

/** Without a negative zero. */
function minus(by: number | null): number | null {
  return by === null ? null : 0 - by;
}
