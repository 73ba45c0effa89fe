/** What a delay costs: only what is written down as costing by time, and only while work still needs it. */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { EVENINGS, makeBuild, NOW, task } from '../support/builds.ts';

const DONE = { state: 'finished', startedAt: '2026-05-02T09:00', finishedAt: '2026-05-02T10:00' };

describe('what a delay costs', () => {
  it('should be what a week more of the hire in hand costs, and its part of each hour worked', () => {
    const { hires, perWeek, perHour } = standing([hire({ unit: 'day', unitPrice: 2000 })]);
    expect(hires).toEqual([{ purchase: 'p0', line: 'a', perWeek: 14_000, isHere: true, tasks: ['still'] }]);
    // Two evenings of 2 h 30 and a Saturday of 7 h are 12 h.
    expect([perWeek, perHour]).toEqual([14_000, 1167]);
  });

  it('should read prices by day, week and month, with their tax, in the currency of the build', () => {
    const perWeek = (line: object, purchase: object = {}) => standing([hire(line, purchase)]).perWeek;
    expect(perWeek({ unit: 'week', unitPrice: 3000 })).toBe(3000);
    expect(perWeek({ unit: 'Months', unitPrice: 36_500 })).toBe(8400);
    expect(perWeek({ unit: 'days', unitPrice: 1000, taxPercent: 20, taxIncluded: false })).toBe(8400);
    expect(perWeek({ unit: 'week', unitPrice: 1000 }, { currency: 'GBP', rate: 1.5 })).toBe(1500);
  });

  it('should count hire only once it is here, and name it before', () => {
    const { hires, perWeek } = standing([hire({ unit: 'week' }, { state: 'wanted', deliveries: [] })]);
    expect(hires).toMatchObject([{ isHere: false, perWeek: 1000 }]);
    expect(perWeek).toBe(0);
  });

  it('should be nothing for hire at a fixed price, of another kind, without a price, done with, or sent back', () => {
    for (const [line, purchase] of [
      [{ unit: 'hire' }, {}],
      [{ category: 'tool' }, {}],
      [{ unitPrice: null }, {}],
      [{ neededBy: ['done'] }, {}],
      [{ neededBy: [] }, {}],
      [{}, { returns: [{ on: '2026-05-20', line: 'a', quantity: 3 }] }],
      [{}, { state: 'returned' }],
    ])
      expect(standing([hire(line!, purchase)])).toEqual({ hires: [], perWeek: 0, perHour: 0 });
  });

  it('should say no figure an hour where nobody has hours', () => {
    expect(standing([hire({})], {}).perHour).toBeNull();
  });
});

// Helpers

/** Three days of hire that are here. */
function hire(line: object, purchase: object = {}): object {
  return {
    state: 'received',
    lines: [
      {
        key: 'a',
        name: 'scaffold',
        category: 'hire',
        quantity: 3,
        unit: 'day',
        unitPrice: 1000,
        neededBy: ['done', 'still'],
        ...line,
      },
    ],
    deliveries: [{ on: '2026-05-10', line: 'a', quantity: 3 }],
    ...purchase,
  };
}

function standing(purchases: readonly object[], week: object = EVENINGS) {
  const file = makeBuild({
    people: [
      { key: 'a', name: 'A', week },
      { key: 'b', name: 'B', byNameOnly: true, week: { mon: ['08:00-16:00'] } },
    ],
    tasks: [task('done', 60, DONE), task('still', 60)],
    purchases: purchases.map((one, i) => ({ key: `p${i}`, ...one })),
  });
  return computePlan(file, { now: NOW }).money.standing;
}
