import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ticks } from '../../../web/src/drawing/ticks.ts';

describe('round figures along an axis', () => {
  it('should step by 1, 2, 2.5 or 5', () => {
    expect(ticks(371, 4)).toEqual([0, 100, 200, 300]);
    expect(ticks(93, 4)).toEqual([0, 25, 50, 75]);
    expect(ticks(27_000, 5)).toEqual([0, 10_000, 20_000]);
    expect(ticks(0)).toEqual([0]);
  });

  it('should reach near the greatest value with few marks', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 1e9, noNaN: true }),
        fc.integer({ min: 2, max: 10 }),
        (greatest, most) => {
          const marks = ticks(greatest, most);
          expect(marks.length).toBeLessThanOrEqual(most + 1);
          expect(marks.length).toBeGreaterThan(1);
          expect(marks.at(-1)!).toBeLessThanOrEqual(greatest * (1 + 1e-9));
        },
      ),
    );
  });
});
