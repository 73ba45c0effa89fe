import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BuildHead } from '#shared/contract/build.ts';
import { isOneLine } from '#shared/contract/formats.ts';
import { NOUN_NAMES, NOUNS } from '#shared/contract/nouns.ts';
import { KEY_PATTERN } from '#shared/contract/common.ts';
import { faultsOf } from '#shared/contract/faults.ts';
import {
  blankOf,
  fieldsOf,
  keyFor,
  shifted,
  type Field,
  type Node,
} from '../../../web/src/controls/form-model.ts';

const NOW = { day: '2027-03-09', instant: '2027-03-09T19:00' };

describe('a form made of a schema', () => {
  it('should know every field of every noun by its kind', () => {
    const kinds = (fields: readonly Field[]) =>
      Object.fromEntries(fields.map(({ name, is }) => [name, is.kind]));
    expect(kinds(fieldsOf(NOUNS.purchases.schema, 'purchases'))).toMatchObject({
      key: 'fixed',
      supplier: 'line',
      state: 'choice',
      leadDays: 'measure',
      rate: 'decimal',
      orderedOn: 'day',
      lines: 'list',
    });
    expect(kinds(fieldsOf(NOUNS.people.schema, 'people'))).toMatchObject({
      week: 'week',
      rate: 'measure',
      byNameOnly: 'flag',
      exceptions: 'list',
    });
    expect(kinds(fieldsOf(NOUNS.conditions.schema, 'conditions'))).toMatchObject({
      hours: 'window',
      notYearly: 'list',
      overrides: 'list',
    });
    expect(kinds(fieldsOf(NOUNS.tasks.schema, 'tasks'))).toMatchObject({
      phase: 'key',
      who: 'keys',
      kinds: 'words',
      minutes: 'object',
      note: 'text',
    });
    expect(kinds(fieldsOf(BuildHead, 'build'))).toMatchObject({
      asOf: 'instant',
      limits: 'object',
      moneyIn: 'list',
    });
  });

  it('should tell cents, minutes, waits, grams and millimetres apart', () => {
    const measure = (noun: 'purchases' | 'tasks' | 'weighings', name: string) => {
      const { is } = fieldsOf(NOUNS[noun].schema, noun).find((field) => field.name === name)!;
      return is.kind === 'measure' ? is.measure : is.kind;
    };
    expect(measure('purchases', 'shipping')).toBe('money');
    expect(measure('purchases', 'leadDays')).toBe('whole');
    expect(measure('tasks', 'shortestSitting')).toBe('minutes');
    expect(measure('tasks', 'waitMinutes')).toBe('wait');
    expect(measure('weighings', 'front')).toBe('grams');
  });

  it('should name the list a key leads to', () => {
    const hours = fieldsOf(NOUNS.hours.schema, 'hours');
    const of = (name: string) => hours.find((field) => field.name === name)!.is;
    expect(of('task')).toEqual({ kind: 'key', of: 'tasks' });
    expect(of('person')).toEqual({ kind: 'key', of: 'people' });
    expect(hours.map(({ name }) => name)).not.toContain('key');
  });

  it('should begin a record that lacks only what must be typed or chosen', () => {
    for (const noun of NOUN_NAMES) {
      const blank = blankOf(NOUNS[noun].schema as unknown as Node, NOW);
      for (const { detail } of faultsOf(NOUNS[noun].schema, blank)) expect(detail).toMatch(/^is (""|0):/);
    }
  });

  it('should make keys of names that are keys and free', () => {
    expect(keyFor('Überzug, 2. Lage', [])).toBe('uberzug-2-lage');
    expect(keyFor('Floor', ['floor', 'floor-2'])).toBe('floor-3');
    expect(keyFor('防水', [])).toBe('new');
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', maxLength: 80 }),
        fc.array(fc.constantFrom('new', 'a', 'new-2')),
        (name, taken) => {
          const key = keyFor(name, taken);
          expect(key).toMatch(new RegExp(KEY_PATTERN));
          expect(isOneLine(key)).toBe(true);
          expect(taken).not.toContain(key);
        },
      ),
    );
  });

  it('should move an item of a list and lose none', () => {
    expect(shifted(['a', 'b', 'c'], 0, 1)).toEqual(['b', 'a', 'c']);
    expect(shifted(['a', 'b', 'c'], 2, -2)).toEqual(['c', 'a', 'b']);
    expect(shifted(['a', 'b'], 0, -1)).toEqual(['a', 'b']);
  });
});
