/** The history's field by field: what changed, by the names and in the units a builder reads. */
import { describe, expect, it } from 'vitest';
import {
  changedFields,
  fieldWords,
  valueWords,
  type Naming,
} from '../../../web/src/views/history/changed-fields.ts';

const NAMES: Record<string, string> = {
  cable: 'Cable',
  tor: 'Tor',
  L2: 'left wall, middle',
  wires: 'wires and pipes',
};
const naming: Naming = { currency: 'EUR', units: 'metric', nameOf: (_field, key) => NAMES[key] ?? key };
const changed = (before: object, after: object) =>
  changedFields(before as Record<string, unknown>, after as Record<string, unknown>, naming);

describe('changed fields', () => {
  it('should be none where nothing changed, or where a record came or went', () => {
    expect(changed({ name: 'a' }, { name: 'a' })).toEqual([]);
    expect(changedFields(null, { name: 'a' }, naming)).toEqual([]);
    expect(changedFields({ name: 'a' }, null, naming)).toEqual([]);
  });

  it('should say hours as hours, part by part', () => {
    expect(
      changed(
        { minutes: { low: 60, likely: 90, high: 120 } },
        { minutes: { low: 60, likely: 150, high: 120 } },
      ),
    ).toEqual([{ field: 'hours, likely', before: '1 h 30', after: '2 h 30' }]);
  });

  it('should say money as money and days as days', () => {
    expect(changed({ budget: null }, { budget: 123_450 })[0]).toEqual({
      field: 'budget',
      before: 'nothing',
      after: '€\u20091\u2009234.50',
    });
    expect(changed({ orderedOn: null }, { orderedOn: '2027-03-09' })[0]).toEqual({
      field: 'ordered',
      before: 'nothing',
      after: 'Tue 9 Mar 2027',
    });
    expect(changed({ fixedStart: '2027-03-09T18:30' }, { fixedStart: null })[0]!.before).toBe(
      'Tue 9 Mar 2027, 18:30',
    );
  });

  it('should say masses and lengths in the units of the build', () => {
    const change = [
      { mass: 8100, size: [300, 200, 100], front: 1_200_000 },
      { mass: 8250, size: [318, 200, 100], front: 1_200_000 },
    ] as const;
    expect(changedFields(...change, naming).map(({ after }) => after)).toEqual(['8.25 kg', '318 mm']);
    expect(changedFields(...change, { ...naming, units: 'imperial' }).map(({ after }) => after)).toEqual([
      '18.188 lb',
      '12.5 in',
    ]);
  });

  it('should say what was put into a list and what was taken out', () => {
    expect(changed({ who: ['tor'] }, { who: ['ines', 'kim'] })).toEqual([
      { field: 'who may do it', before: 'Tor', after: 'ines and kim' },
    ]);
  });

  it('should name a place that was added', () => {
    const place = { zone: 'L2', depth: 'wires', hides: null };
    expect(changed({ places: [] }, { places: [place] })).toEqual([
      { field: 'place left wall, middle, wires and pipes', before: '', after: 'added' },
    ]);
  });

  it('should look into records of a list by their key', () => {
    const line = { key: 'x', name: 'batts', unitPrice: 1000 };
    expect(changed({ lines: [line] }, { lines: [{ ...line, unitPrice: 1500 }] })).toEqual([
      { field: 'line “batts”, price', before: '€\u200910.00', after: '€\u200915.00' },
    ]);
  });

  it('should show a signature with who read what', () => {
    const hold = { key: 'h', name: 'leak test', attempts: [] };
    const signed = {
      ...hold,
      attempts: [{ at: '2027-03-09T18:30', by: 'tor', pass: true, reading: 'dry', photo: null }],
    };
    expect(changed({ holdPoints: [hold] }, { holdPoints: [signed] })).toEqual([
      { field: 'check “leak test”, signed Tue 9 Mar 2027, 18:30 by Tor, dry', before: '', after: 'added' },
    ]);
  });

  it('should say that a list only changed its order', () => {
    expect(changed({ order: ['a', 'b'] }, { order: ['b', 'a'] })[0]!.before).toBe('in another order');
  });
});

describe('words for fields and values', () => {
  it('should take unknown names apart', () => {
    expect(fieldWords('shelfLifeDays')).toBe('shelf life days');
  });

  it('should never show an instant as it is stored', () => {
    expect(valueWords('asOf', '2027-03-09T18:30', naming)).not.toContain('T18');
    expect(valueWords('x', true, naming)).toBe('yes');
    expect(valueWords('x', undefined, naming)).toBe('nothing');
  });
});
