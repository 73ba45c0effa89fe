import { describe, expect, it } from 'vitest';
import type { Answers } from '#shared/starter/answers.ts';
import { fileOf, sizeOf } from '../../support/starter.ts';

/** Less, then more: answers that only add something. */
const STEPS: readonly (readonly [Partial<Answers>, ...Partial<Answers>[]])[] = [
  [{ van: 'short' }, { van: 'medium' }, { van: 'long' }],
  [{ inside: 'bare' }, { inside: 'converted' }],
  [{ windows: 'none' }, { windows: 'sides' }, { windows: 'all' }],
  [{ roofVent: 'none' }, { roofVent: 'fan' }, { roofVent: 'fan-and-light' }],
  [{ cooling: 'none' }, { cooling: 'roof-unit' }],
  [{ roofRack: 'no' }, { roofRack: 'yes' }],
  [{ solar: 'none' }, { solar: 'one' }, { solar: 'two' }],
  [{ awning: 'no' }, { awning: 'yes' }],
  [{ rearCarrier: 'no' }, { rearCarrier: 'yes' }],
  [{ lights: 'none' }, { lights: 'outside' }, { lights: 'outside-and-work' }],
  [{ heater: 'none' }, { heater: 'diesel' }],
  [{ heater: 'none' }, { heater: 'gas' }],
  [{ cooking: 'none' }, { cooking: 'induction' }],
  [{ cooking: 'none' }, { cooking: 'gas' }],
  [{ hotWater: 'none' }, { hotWater: 'engine' }],
  [{ hotWater: 'none' }, { hotWater: 'gas' }],
  [{ freshWater: 'none' }, { freshWater: 'inside' }],
  [{ freshWater: 'none' }, { freshWater: 'below' }],
  [{ wasteWater: 'none' }, { wasteWater: 'inside' }],
  [{ wasteWater: 'none' }, { wasteWater: 'below' }],
  [
    { mains: 'no', cooking: 'none' },
    { mains: 'yes', cooking: 'none' },
  ],
  [{ mains: 'no' }, { mains: 'yes' }],
  [{ seats: 'cab' }, { seats: 'swivel' }, { seats: 'belted' }],
  [{ toilet: 'no' }, { toilet: 'yes' }],
  [{ suspension: 'as-is' }, { suspension: 'helper-springs' }],
  [{ suspension: 'as-is' }, { suspension: 'raised' }],
];

/** What is bought at the weighbridge or the tip weighs nothing in the van. */
const WITHOUT_MASS = new Set(['inside']);

describe('an answer that only adds something', () => {
  for (const [less, ...more] of STEPS)
    it(`should add hours, cost and mass: ${[less, ...more].map((step) => Object.values(step).join(' ')).join(', then ')} (${Object.keys(less)[0]})`, () => {
      let before = sizeOf(fileOf(less));
      for (const step of more) {
        const after = sizeOf(fileOf(step));
        expect(after.hours).toBeGreaterThan(before.hours);
        expect(after.cost).toBeGreaterThan(before.cost);
        if (!WITHOUT_MASS.has(Object.keys(step)[0]!)) expect(after.mass).toBeGreaterThan(before.mass);
        before = after;
      }
    });
});
