import { describe, expect, it } from 'vitest';
import { CHOICES, readAnswers, type Answers } from '#shared/starter/answers.ts';
import { settled } from '#shared/starter/questions.ts';
import { everyCombination, pairwise, type Fields } from '../../support/pairwise.ts';
import { fileOf, starterFaults } from '../../support/starter.ts';

/**
 * Answers whose tasks stand between each other's: all their combinations are tried, the rest by pairs (and far more of
 * them by `npm run bench -- starter`).
 */
const GROUPS: Readonly<Record<string, Fields>> = {
  'openings and roof': pick('windows', 'roofVent', 'cooling', 'roofRack', 'solar', 'lights'),
  'water, heat and gas': pick('heater', 'cooking', 'hotWater', 'freshWater', 'wasteWater', 'mains'),
  'the van itself': pick('van', 'inside', 'insulation', 'seats', 'suspension', 'bed'),
};

describe('every combination of answers', () => {
  for (const [name, fields] of Object.entries(GROUPS))
    it(`should be a build without a circle or a reference to nothing: ${name}`, () => {
      const tried = new Set<string>();
      let asked = 0;
      for (const answers of everyCombination(fields)) {
        asked++;
        // Where a question is not asked, its answers are one and the same.
        const counts = JSON.stringify(settled(readAnswers(answers)));
        if (tried.has(counts)) continue;
        tried.add(counts);
        expect(starterFaults(fileOf(answers as Partial<Answers>)), counts).toEqual([]);
      }
      expect(asked).toBe(Object.values(fields).reduce((product, { length }) => product * length, 1));
    });

  it('should be one too where any two answers meet', () => {
    const rows = pairwise(CHOICES);
    for (const answers of rows)
      expect(starterFaults(fileOf(answers as Partial<Answers>)), JSON.stringify(answers)).toEqual([]);
  });
});

// Helpers

function pick(...keys: readonly (keyof typeof CHOICES)[]): Fields {
  return Object.fromEntries(keys.map((key) => [key, CHOICES[key]]));
}
