/** When a check counts as signed: the latest attempt decides. */
import { describe, expect, it } from 'vitest';
import { isSigned } from '#shared/covers/checks.ts';
import type { Attempt, HoldPoint } from '#shared/contract/task.ts';

describe('a check', () => {
  it.each([
    ['nobody made', [], false],
    ['failed', [['10:00', false]], false],
    [
      'failed, then passed',
      [
        ['10:00', false],
        ['11:00', true],
      ],
      true,
    ],
    [
      'passed, then failed',
      [
        ['10:00', true],
        ['11:00', false],
      ],
      false,
    ],
    [
      'passed later than the failure that was written down after it',
      [
        ['11:00', true],
        ['10:00', false],
      ],
      true,
    ],
    [
      'failed and passed within a minute',
      [
        ['10:00', false],
        ['10:00', true],
      ],
      true,
    ],
    [
      'passed and failed within a minute',
      [
        ['10:00', true],
        ['10:00', false],
      ],
      false,
    ],
  ] as const)('that %s should be signed or not by its latest attempt', (_words, attempts, signed) => {
    expect(isSigned(checkWith(attempts))).toBe(signed);
  });
});

// Helpers

function checkWith(attempts: readonly (readonly [string, boolean])[]): HoldPoint {
  const made = attempts.map(([at, pass]): Attempt => ({
    at: `2027-03-09T${at}`,
    by: 'ines',
    pass,
    reading: null,
    photo: null,
  }));
  return { key: 'c', kind: 'visual', when: 'exit', name: 'C', expect: null, attempts: made };
}
