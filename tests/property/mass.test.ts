/** Sentences about the mass of any van. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wagtail } from '#shared/demo/wagtail.ts';
import { loadsOf } from '#shared/mass/moments.ts';
import { planMass } from '#shared/mass/plan-mass.ts';

const place = fc.option(fc.integer({ min: -30_000, max: 30_000 }), { nil: null });
const item = fc.record({ mass: fc.integer({ min: -10_000_000, max: 10_000_000 }), x: place, y: place });
const bare = fc.record({
  total: fc.integer({ min: 0, max: 10_000_000 }),
  rear: fc.integer({ min: 0, max: 5_000_000 }),
});
const length = fc.integer({ min: 1, max: 30_000 });

describe('the mass of any van', () => {
  it('should never lose a gram between front and rear, nor between left and right', () => {
    fc.assert(
      fc.property(bare, fc.array(item), length, length, (van, items, wheelbase, track) => {
        const { total, front, rear, left, right } = loadsOf(van, items, wheelbase, track);
        expect(front! + rear!).toBe(total);
        expect(left! + right!).toBe(total);
        expect(total).toBe(items.reduce((sum, { mass }) => sum + mass, van.total));
      }),
    );
  });

  it('should never load the rear axle less by moving a part back', () => {
    fc.assert(
      fc.property(
        bare,
        fc.array(item),
        length,
        fc.integer({ min: 1, max: 10_000_000 }),
        fc.integer({ min: -30_000, max: 30_000 }),
        fc.integer({ min: 1, max: 30_000 }),
        (van, others, wheelbase, mass, x, back) => {
          const at = (place: number) => loadsOf(van, [...others, { mass, x: place, y: 0 }], wheelbase, null);
          const [before, after] = [at(x), at(x + back)];
          expect(after.rear!).toBeGreaterThanOrEqual(before.rear!);
          if (mass * back >= wheelbase) expect(after.rear!).toBeGreaterThan(before.rear!);
          expect(after.front!).toBeLessThanOrEqual(before.front!);
        },
      ),
    );
  });

  it('should be the same in whatever order the records stand', () => {
    const file = wagtail();
    const expected = planMass(file, '2027-03-09');
    const limits = file.build.limits!;
    fc.assert(
      fc.property(
        fc.shuffledSubarray(file.purchases, { minLength: file.purchases.length }),
        fc.shuffledSubarray(file.tasks, { minLength: file.tasks.length }),
        fc.shuffledSubarray(limits.loads, { minLength: limits.loads.length }),
        (purchases, tasks, loads) => {
          const shuffled = {
            ...file,
            purchases: purchases.map((one) => ({ ...one, lines: one.lines.toReversed() })),
            tasks,
            build: { ...file.build, limits: { ...limits, loads } },
          };
          expect(planMass(shuffled, '2027-03-09')).toEqual(expected);
        },
      ),
      { numRuns: 30 },
    );
  });
});
