import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bridge } from '#shared/starter/bridge.ts';
import type { CatalogueLink } from '#shared/starter/catalogue.ts';
import { pairwise } from '../../support/pairwise.ts';
import { closure } from '../../support/cover-rule.ts';

describe('a task left out of an order', () => {
  it('should pass on what came before it to what came after it', () => {
    const { kept, bridged } = bridge(
      ['cut', 'fit', 'test'],
      links('cut fit', 'fit test'),
      (key) => key !== 'fit',
    );
    expect(kept).toEqual([]);
    expect(bridged).toEqual([{ from: 'cut', to: 'test', over: 'fit' }]);
  });

  it('should add no link that others say already', () => {
    const told = links('cut fit', 'fit test', 'cut swarf', 'swarf test');
    const { kept, bridged } = bridge(['cut', 'fit', 'swarf', 'test'], told, (key) => key !== 'fit');
    expect(kept).toHaveLength(2);
    expect(bridged).toEqual([]);
  });

  it('should bridge several in a row by one link', () => {
    const told = links('a x', 'x y', 'y b', 'y c', 'b c');
    const { bridged } = bridge(['a', 'x', 'y', 'b', 'c'], told, (key) => key !== 'x' && key !== 'y');
    expect(bridged).toEqual([{ from: 'a', to: 'b', over: 'x' }]);
  });

  it('should refuse links that go in a circle', () => {
    expect(() => bridge(['a', 'b'], links('a b', 'b a'), () => true)).toThrow(RangeError);
  });

  it('should keep exactly the order of those that stay, and add nothing that could be left out', () => {
    const size = 9;
    const keys = Array.from({ length: size }, (_, i) => `t${i}`);
    const arc = fc.tuple(fc.nat(size - 1), fc.nat(size - 1)).filter(([a, b]) => a < b);
    fc.assert(
      fc.property(
        fc.uniqueArray(arc, { selector: String, maxLength: 20 }),
        fc.subarray(keys),
        (arcs, staying) => {
          const told = links(...arcs.map(([a, b]) => `t${a} t${b}`));
          const stay = new Set(staying);
          const { kept, bridged } = bridge(keys, told, (key) => stay.has(key));
          const pairs = (list: readonly { from: string; to: string }[]) =>
            list.map(({ from, to }) => [from, to] as const);
          const whole = closure(keys, pairs(told));
          const left = closure(keys, pairs([...kept, ...bridged]));
          for (const a of stay) for (const b of stay) expect(left.get(a)!.has(b)).toBe(whole.get(a)!.has(b));
          for (const link of bridged) {
            const without = closure(keys, pairs([...kept, ...bridged.filter((other) => other !== link)]));
            expect(without.get(link.from)!.has(link.to)).toBe(false);
          }
        },
      ),
    );
  });
});

describe('few combinations for many fields', () => {
  it('should let every two choices of different fields meet, the same way every time', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 2, maxLength: 7 }), (sizes) => {
        const fields = Object.fromEntries(
          sizes.map((size, i) => [`f${i}`, Array.from({ length: size }, (_, c) => `c${c}`)]),
        );
        const rows = pairwise(fields);
        for (const [a, some] of Object.entries(fields))
          for (const [b, others] of Object.entries(fields))
            if (a < b)
              for (const x of some)
                for (const y of others) expect(rows.some((row) => row[a] === x && row[b] === y)).toBe(true);
        expect(pairwise(fields)).toEqual(rows);
        const [most, next] = sizes.toSorted((a, b) => b - a) as [number, number];
        expect(rows.length).toBeGreaterThanOrEqual(most * next);
      }),
    );
  });
});

// Helpers

function links(...told: readonly string[]): CatalogueLink[] {
  return told.map((pair) => {
    const [from, to] = pair.split(' ') as [string, string];
    return { from, to, why: 'needs-access', reason: '' };
  });
}
