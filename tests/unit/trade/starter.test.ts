/** The starter's own plans pass the trade check: every choice alone, and many at once. */
import { describe, expect, it } from 'vitest';
import { CHOICES, readAnswers, readStarterHead } from '#shared/starter/answers.ts';
import { starterBuild } from '#shared/starter/starter-build.ts';
import { computePlan } from '#shared/plan.ts';
import { ALL_WEEK } from '../../support/builds.ts';

const START = '2026-06-06';
const HEAD = readStarterHead({
  name: 'Van',
  startOn: START,
  currency: 'EUR',
  people: [{ name: 'Ines', week: ALL_WEEK }],
});

const ONE_CHOICE = Object.entries(CHOICES).flatMap(([field, choices]) =>
  choices.map((choice) => ({ [field]: choice })),
);
/** The n-th choice of each field, round and round: all differ from the default together. */
const MANY_CHOICES = [1, 2, 3, 4, 5].map((step) =>
  Object.fromEntries(
    Object.entries(CHOICES).map(([field, choices], i) => [
      field,
      choices[(step * (i + 1)) % choices.length]!,
    ]),
  ),
);

describe('the trade check of a starter plan', () => {
  it.each([{}, ...ONE_CHOICE, ...MANY_CHOICES])('should find nothing for %j', (answers) => {
    const file = starterBuild(readAnswers(answers), HEAD);
    const { findings } = computePlan(file, { now: `${START}T00:00` }).trade;
    expect(findings.map(({ rule, sentence }) => `${rule}: ${sentence}`)).toEqual([]);
  });
});
