/** Guessing kinds: names a builder would write, and the catalogue's own names as a check from outside the clues. */
import { describe, expect, it } from 'vitest';
import { CATALOGUE_TASKS } from '#shared/starter/catalogue.ts';
import { cautionsOfKinds, guessKinds, kindQuestions } from '#shared/trade/guess-kinds.ts';
import { kindOf } from '#shared/trade/kinds.ts';
import { van, work } from './van.ts';

describe('the guess of kinds', () => {
  it.each([
    ['Hose test of all windows', ['leak-test']],
    ['Cut the roof fan', ['cut-opening']],
    ['Pull cables, left wall', ['cable']],
    ['Spray foam the pillars', ['foam']],
    ['Check that the belts run free', ['belt-check']],
    ['Line the walls', ['lining']],
    ['Lay the vinyl', ['floor-covering']],
    ['First power', ['first-power']],
    ['Insulate the ceiling', ['insulation']],
    ['Insulation resistance of all circuits', ['cable-test']],
    ['Pressure test of the water hoses', ['pressure-test', 'hose']],
    ['Build the kitchen', ['furniture']],
  ])('should read “%s”', (name, kinds) => {
    expect(guess(name)!.kinds).toEqual(kinds);
  });

  it('should have no guess for a name without a clue', () => {
    expect(guess('Order a mug')).toBeNull();
  });

  it('should be less sure of a name that can mean more, and ask by the depth where the name says nothing', () => {
    expect(guess('Cut the roof fan')!.sure).toBe(true);
    expect(guess('Install the roof fan')!.sure).toBe(false);
    const place = { zone: 'L', depth: 'd', hides: null };
    expect(guessKinds({ name: 'The grey stuff', places: [place] }, () => 'film')).toEqual({
      kinds: ['vapour-film'],
      sure: false,
    });
  });

  it('should be right wherever it is sure, and mostly else, on the names of the catalogue', () => {
    const guesses = CATALOGUE_TASKS.flatMap(({ name, kinds }) => {
      const said = guess(name);
      return said === null ? [] : [{ ...said, right: said.kinds.some((kind) => kinds.includes(kind)), name }];
    });
    expect(guesses.filter(({ sure, right }) => sure && !right).map(({ name }) => name)).toEqual([]);
    expect(guesses.filter(({ right }) => right).length).toBeGreaterThanOrEqual(CATALOGUE_TASKS.length * 0.75);
    for (const { kinds } of guesses) for (const kind of kinds) expect(kindOf(kind)).not.toBeNull();
  });

  it('should ask only about tasks without kinds, those that are done last', () => {
    const done = { state: 'finished', startedAt: '2026-06-01T00:00', finishedAt: '2026-06-01T00:00' };
    const file = van({
      tasks: [
        work('a', [], [], { name: 'Lay the vinyl', ...done }),
        work('b', [], [], { name: 'Line the walls' }),
        work('c', ['other'], [], { name: 'Line the ceiling' }),
        work('d', [], [], { name: 'Order a mug' }),
      ],
    });
    expect(kindQuestions(file).map(({ task }) => task)).toEqual(['b', 'a']);
  });

  it('should suggest the cautions that come with a kind and are not there yet', () => {
    expect(cautionsOfKinds(['gas', 'gas-test'], [])).toEqual(['gas']);
    expect(cautionsOfKinds(['cut-opening'], ['drilling'])).toEqual(['sharp-edges']);
    expect(cautionsOfKinds(['other', 'ice-box'], [])).toEqual([]);
  });
});

// Helpers

function guess(name: string) {
  return guessKinds({ name, places: [] }, () => 'plain');
}
