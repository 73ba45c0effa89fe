/**
 * Axle loads against statics by hand (a beam on two supports; sums of moments about the front axle) and against the
 * totals that stand under the invented catalogue of the trade: plate 3,500 / 1,850 / 2,120 kg, wheelbase 3,640 mm,
 * everything aboard 3,401 kg, front 1,493, rear 1,909, left 1,701, right 1,700; bought parts 868.2 kg fitted.
 */
import { describe, expect, it } from 'vitest';
import { wagtail } from '#shared/demo/wagtail.ts';
import { massItems } from '#shared/mass/items.ts';
import { loadsOf } from '#shared/mass/moments.ts';
import { planMass } from '#shared/mass/plan-mass.ts';

const kg = (grams: number | null) => Math.round(grams! / 1000);

describe('axle loads against hand statics', () => {
  const BARE = { total: 2_140_000, rear: 830_000 };
  const only = (mass: number, x: number, y = 0) => loadsOf(BARE, [{ mass, x, y }], 3640, 1730);

  it('should lighten the front axle with a load that hangs behind the rear axle', () => {
    // The lever: 22 kg of table at 4,980 mm hang 1,340 mm behind the rear axle at 3,640 mm. About the front axle:
    // rear × 3,640 = 22 × 4,980, so the rear axle takes 30.099 kg; the front 22 − 30.099 = −8.099 kg.
    const { front, rear, total } = only(22_000, 4980);
    expect(rear! - BARE.rear).toBe(30_099);
    expect(front! - (BARE.total - BARE.rear)).toBe(-8_099);
    expect(total).toBe(2_162_000);
  });

  it('should give a load over an axle to that axle alone, and half to each from the middle', () => {
    expect(only(100_000, 3640).rear).toBe(930_000);
    expect(only(100_000, 0).rear).toBe(830_000);
    expect(only(100_000, 1820).rear).toBe(880_000);
    // In front of the front axle: 40 kg of winch at −800 mm: rear × 3,640 = 40 × −800, −8.791 kg.
    expect(only(40_000, -800).rear! - BARE.rear).toBe(-8_791);
  });

  it('should take off both axles what a mass taken out had put on them', () => {
    // The bulkhead: −52 kg at 1,600 mm: rear −52 × 1,600 / 3,640 = −22.857 kg, front −29.143 kg.
    const { front, rear } = only(-52_000, 1600);
    expect([front! - 1_310_000, rear! - 830_000]).toEqual([-29_143, -22_857]);
  });

  it('should load the near side more: 85 kg of water 640 mm right of the middle, on a track of 1,730 mm', () => {
    // About the middle line: left − right = 2 × 85 × −640 / 1,730; of 2,225 kg: left 1,112.5 − 31.445 = 1,081.055.
    const { left, right } = only(85_000, 3640, -640);
    expect([left, right]).toEqual([1_081_055, 1_143_945]);
  });
});

describe('the whole catalogue aboard', () => {
  const { planned } = planMass(wagtail(), '2027-03-09');

  it('should weigh 3,401 kg, 1,493 on the front axle and 1,909 on the rear', () => {
    expect([planned.gross, planned.front, planned.rear].map(({ load }) => kg(load))).toEqual([
      3401, 1493, 1909,
    ]);
    expect([kg(planned.leftSide), kg(planned.rightSide)]).toEqual([1701, 1700]);
    expect(planned.parts / 1000).toBeCloseTo(868.2, 1);
  });

  it('should have 99 kg of payload left, and be near the limits of the plate and of the rear axle', () => {
    expect(kg(planned.gross.left)).toBe(99);
    expect([planned.gross.level, planned.front.level, planned.rear.level]).toEqual(['near', 'fine', 'near']);
  });

  it('should come to the same by moments taken anew, item by item', () => {
    let moment = 830_000 * 3640;
    for (const { planned: mass, x } of massItems(wagtail())) moment += mass * x!;
    expect(planned.rear.load).toBe(Math.round(moment / 3640));
  });
});
