import { describe, expect, it } from 'vitest';
import { PlanError } from '#shared/errors.ts';
import {
  Answers,
  CHOICES,
  CLIMATES,
  readAnswers,
  readStarterHead,
  type ChoiceField,
} from '#shared/starter/answers.ts';
import { CLIMATE_WORDS, QUESTIONS, RHYTHMS, settled } from '#shared/starter/questions.ts';
import { head } from '../../support/starter.ts';

describe('answers', () => {
  it('should have a default each, so that none at all are enough', () => {
    const answers = readAnswers({});
    expect(Object.keys(answers).toSorted()).toEqual(Object.keys(Answers.properties).toSorted());
    expect(answers).toMatchObject({ van: 'medium', insulation: 'sheet', climate: 'north-mild' });
    expect(readAnswers({ van: 'long' })).toEqual({ ...answers, van: 'long' });
  });

  it('should be refused with the field and what would be right', () => {
    expect(faults(() => readAnswers({ insulation: 'straw' }))).toEqual([
      { pointer: '/insulation', detail: expect.stringContaining('one of: sheet, foam, wool') },
    ]);
    expect(faults(() => readAnswers({ sunroof: 'yes' }))).toEqual([
      { pointer: '/sunroof', detail: expect.stringContaining('is not a field here') },
    ]);
    expect(faults(() => readAnswers(null))).toHaveLength(1);
  });

  it('should take twelve monthly means for a climate, no fewer and none beyond what air can be', () => {
    const own = [1, 2, 5, 9, 13, 16, 18, 18, 14, 10, 5, 2];
    expect(readAnswers({ climate: own }).climate).toEqual(own);
    expect(faults(() => readAnswers({ climate: own.slice(1) }))[0]!.pointer).toBe('/climate');
    expect(faults(() => readAnswers({ climate: own.with(3, 90) }))[0]!.pointer).toMatch(/^\/climate/);
    expect(faults(() => readAnswers({ climate: 'tropical' }))).toHaveLength(1);
  });

  it('should count as the first choice where a question is not asked', () => {
    const dry = settled(readAnswers({ freshWater: 'none', wasteWater: 'below', hotWater: 'engine' }));
    expect(dry).toMatchObject({ freshWater: 'none', wasteWater: 'none', hotWater: 'none' });
    const wet = settled(readAnswers({ freshWater: 'below', wasteWater: 'below', hotWater: 'gas' }));
    expect(wet).toMatchObject({ wasteWater: 'below', hotWater: 'gas' });
  });
});

describe('the questions', () => {
  const fields = QUESTIONS.flatMap((question) => question.fields);

  it('should ask for every field once, with words for every choice', () => {
    expect(fields.map(({ key }) => key).toSorted()).toEqual(Object.keys(CHOICES).toSorted());
    for (const { key, choices } of fields) {
      expect(choices.map(({ value }) => value)).toEqual([...CHOICES[key as ChoiceField]]);
      for (const { words } of choices) expect(words.length, key).toBeGreaterThan(1);
    }
    expect(Object.keys(CLIMATE_WORDS)).toEqual([...CLIMATES]);
  });

  it('should begin with "none" where they may not be asked, because that is what counts then', () => {
    const dry = readAnswers({ freshWater: 'none' });
    for (const field of fields.filter((own) => !own.asked(dry))) expect(field.choices[0]!.value).toBe('none');
  });

  it('should say what each is for, and label the fields of those that have several', () => {
    expect(QUESTIONS.length).toBeLessThanOrEqual(20);
    for (const question of QUESTIONS) {
      expect(question.ask).toMatch(/\?$/);
      expect(question.help.length).toBeGreaterThan(20);
      if (question.fields.length > 1)
        for (const { label, key } of question.fields) expect(label, key).not.toBe('');
    }
  });

  it('should offer weeks in which a long sitting by daylight fits', () => {
    for (const { week } of RHYTHMS) {
      const windows = Object.values(week).flat();
      expect(windows.some((window) => window >= '08:00' && window < '10:00')).toBe(true);
    }
  });
});

describe('the head of a starter build', () => {
  it('should have a name, a start and somebody who builds', () => {
    expect(head()).toMatchObject({ budget: null, targetFinishOn: null, currency: 'EUR' });
    expect(
      faults(() => readStarterHead({ name: ' ', startOn: '2026-02-30', people: [] })).map(
        ({ pointer }) => pointer,
      ),
    ).toEqual(['/name', '/startOn', '/people']);
  });

  it('should not aim at a day before it starts', () => {
    expect(faults(() => head({ targetFinishOn: '2020-01-01' }))[0]!.pointer).toBe('/targetFinishOn');
  });
});

// Helpers

function faults(read: () => unknown): readonly { pointer: string; detail: string }[] {
  try {
    read();
  } catch (error) {
    if (error instanceof PlanError && error.failure.code === 'bad-request') return error.failure.errors;
    throw error;
  }
  throw new Error('nothing was refused');
}
