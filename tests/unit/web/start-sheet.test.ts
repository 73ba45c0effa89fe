/** The start sheet: sittings by day, closings that are one event, what to order, and effects in a sentence. */
import { describe, expect, it } from 'vitest';
import { effectOf } from '#shared/changes/effect.ts';
import { computePlan } from '#shared/plan.ts';
import { priceOf } from '#shared/purchases/price.ts';
import { effectWords } from '../../../web/src/state/effect-words.ts';
import { closingGroups } from '../../../web/src/views/today/closing-groups.ts';
import { purchaseWords, toOrder } from '../../../web/src/views/today/orders.ts';
import { firstDays, hoursOf, plannedDays } from '../../../web/src/views/today/planned-days.ts';
import { zoneWords } from '../../../web/src/views/today/zone-words.ts';
import { EVENINGS, link, makeBuild, NOW, task, type BuildParts } from '../../support/builds.ts';

const DEPTHS = ['metal', 'wires', 'panel'];
const parts: BuildParts = {
  people: [{ key: 'a', name: 'A', week: EVENINGS }],
  depths: DEPTHS,
  zones: ['L', 'R'].map((key) => ({ key, name: key, depths: DEPTHS })),
  tasks: [
    task('cable', 180, { places: [{ zone: 'L', depth: 'wires' }] }),
    task('panel', 60, {
      places: [
        { zone: 'L', depth: 'panel', hides: 'wires' },
        { zone: 'R', depth: 'panel', hides: 'wires' },
      ],
    }),
  ],
  links: [link('cable', 'panel')],
};
const file = makeBuild(parts);
const plan = computePlan(file, { now: NOW });

describe('planned sittings', () => {
  const days = plannedDays(file, plan, 14);

  it('should stand under the day they are worked, in the order of the clock', () => {
    expect(days.map(({ day, sittings }) => [day, ...sittings.map((one) => one.task.key)])).toEqual([
      ['2026-06-02', 'cable'],
      ['2026-06-04', 'cable', 'panel'],
    ]);
    expect(days[0]!.sittings[0]!.bars).toEqual([[18 * 60 + 30, 21 * 60]]);
  });

  it('should be started only once, and say which zones close with that', () => {
    const [first, second] = days[1]!.sittings;
    expect(days[0]!.sittings[0]!.first).toBe(true);
    expect(first!.first).toBe(false);
    expect(second!.closes).toEqual(['L', 'R']);
  });

  it('should add up to each person’s hours', () => {
    expect(hoursOf(days)).toEqual([{ person: 'a', minutes: 240 }]);
  });

  it('should leave out what is past, and what lies beyond the days asked for', () => {
    expect(plannedDays(file, plan, 2).map(({ day }) => day)).toEqual(['2026-06-02']);
    const later = { ...file, build: { ...file.build, asOf: '2026-06-02T20:00' } };
    const [today] = plannedDays(later, computePlan(later, { now: NOW }), 14);
    expect(today!.sittings[0]!.bars[0]![0]).toBeGreaterThanOrEqual(20 * 60);
  });

  it('should be folded by whole days, the first one always shown', () => {
    expect(firstDays(days, 0)).toHaveLength(1);
    expect(firstDays(days, 3)).toHaveLength(2);
  });
});

describe('closings', () => {
  it('should be one event where one task closes several zones', () => {
    const groups = closingGroups(plan.closings);
    expect(groups).toHaveLength(1);
    expect(groups[0]!.closings.map(({ zone }) => zone)).toEqual(['L', 'R']);
    expect(groups[0]!.missing).toEqual(['cable']);
  });
});

describe('names of zones', () => {
  it('should say a face once', () => {
    expect(zoneWords(['floor, front', 'floor, middle', 'floor, rear'])).toBe('floor, front, middle and rear');
    expect(zoneWords(['bulkhead'])).toBe('bulkhead');
    expect(zoneWords(['bulkhead', 'left wall, rear'])).toBe('bulkhead and left wall, rear');
  });
});

describe('what to order', () => {
  const purchase = (key: string, leadDays: number, more: object = {}) => ({
    key,
    leadDays,
    lines: [{ key: 'x', name: key, neededBy: ['panel'], quantity: 2, unitPrice: 1000 }],
    ...more,
  });
  const bought = makeBuild({
    ...parts,
    purchases: [purchase('soon', 1), purchase('late', 9), purchase('came', 5, { state: 'received' })],
  });

  it('should come soonest first, with the task that needs it and how many days are left', () => {
    const orders = toOrder(bought, computePlan(bought, { now: NOW }));
    expect(orders.map(({ purchase: { key } }) => key)).toEqual(['late', 'soon']);
    expect(orders[0]).toMatchObject({ task: 'panel' });
    expect(orders[0]!.inDays).toBeLessThan(orders[1]!.inDays);
  });

  it('should be called by its first line', () => {
    expect(purchaseWords(bought.purchases[0]!)).toBe('soon');
    expect(purchaseWords({ ...bought.purchases[0]!, lines: [] })).toBe('a purchase without lines');
  });

  it('should cost its lines with tax, charges and shipping, less the discount', () => {
    const [one] = makeBuild({
      ...parts,
      purchases: [
        purchase('x', 1, {
          shipping: 500,
          discount: 100,
          rate: 2,
          charges: [{ name: 'duty', amount: 100, taxPercent: 0, taxIncluded: true }],
          lines: [
            { key: 'a', name: 'a', quantity: 2, unitPrice: 1000, taxPercent: 20, taxIncluded: false },
            { key: 'b', name: 'b', quantity: 1 },
          ],
        }),
      ],
    }).purchases;
    expect(priceOf(one!)).toEqual({ amount: 2 * (2400 + 100 + 500 - 100), unpriced: 1 });
  });
});

describe('an effect', () => {
  it('should say that nothing moves', () => {
    expect(effectWords(effectOf(plan, plan), NOW)).toBe('Neither the finish nor a closing moves.');
  });

  it('should say where the finish and the first closing go', () => {
    const longer = {
      ...file,
      tasks: file.tasks.map((one) =>
        one.key === 'cable' ? { ...one, minutes: { low: 600, likely: 600, high: 600 } } : one,
      ),
    };
    const words = effectWords(effectOf(plan, computePlan(longer, { now: NOW })), NOW);
    expect(words).toMatch(
      /^The finish moves to \w{3} \d+ Jun, \d+ d later\. L closes \w{3} \d+ Jun, \d+ d later and 1 more closing moves\.$/,
    );
  });
});
