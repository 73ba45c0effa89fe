/** A record typed here and stored anew elsewhere. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { merge, textOf } from '#shared/changes/merge.ts';

const base = { name: 'Ines', rate: 0, week: { mon: ['18:00-21:00'] } };

describe('a record changed in two places', () => {
  it('should have the fields each of them changed', () => {
    const { value, clash } = merge(base, { ...base, name: 'Ines A' }, { ...base, rate: 1700 });
    expect(value).toEqual({ ...base, name: 'Ines A', rate: 1700 });
    expect(clash).toEqual([]);
  });

  it('should name the fields both changed, and keep what was typed in them', () => {
    const { value, clash } = merge(
      base,
      { ...base, name: 'A', rate: 5 },
      { ...base, name: 'B', week: { mon: [] } },
    );
    expect(value).toEqual({ name: 'A', rate: 5, week: { mon: [] } });
    expect(clash).toEqual(['name']);
  });

  it('should find nothing to quarrel about where both say the same', () => {
    expect(merge(base, { ...base, name: 'A' }, { ...base, name: 'A' }).clash).toEqual([]);
  });

  it('should count a number that cannot be read as typed', () => {
    const { value, clash } = merge<{ at: number | null }>({ at: null }, { at: NaN }, { at: 3 });
    expect(value.at).toBeNaN();
    expect(clash).toEqual(['at']);
    expect(textOf({ at: NaN })).not.toBe(textOf({ at: null }));
  });

  it('should never lose what was typed, and never what only the other changed', () => {
    const records = fc.record({
      a: fc.integer({ max: 2, min: 0 }),
      b: fc.constantFrom('x', 'y'),
      c: fc.array(fc.nat(1), { maxLength: 2 }),
    });
    fc.assert(
      fc.property(records, records, records, (was, mine, theirs) => {
        const { value, clash } = merge(was, mine, theirs);
        for (const name of ['a', 'b', 'c'] as const) {
          const isMine = textOf(mine[name]) !== textOf(was[name]);
          const isTheirs = textOf(theirs[name]) !== textOf(was[name]);
          expect(value[name]).toEqual(isMine ? mine[name] : theirs[name]);
          expect(clash.includes(name)).toBe(
            isMine && isTheirs && textOf(mine[name]) !== textOf(theirs[name]),
          );
        }
      }),
    );
  });
});
