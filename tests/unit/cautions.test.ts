import { describe, expect, it } from 'vitest';
import { CAUTIONS } from '#shared/contract/task.ts';
import { CAUTION_WORDS } from '#shared/trade/cautions.ts';

describe('caution words', () => {
  it('should exist for every caution, as one sentence', () => {
    for (const caution of CAUTIONS) {
      const { name, words } = CAUTION_WORDS[caution];
      expect(name).not.toBe('');
      expect(words.match(/\./g)).toHaveLength(1);
      expect(words).toMatch(/\.$/);
    }
  });

  it('should leave the rules to local code and the work to those licensed or approved for it', () => {
    for (const caution of CAUTIONS) {
      expect(CAUTION_WORDS[caution].words).toMatch(/local code/);
      expect(CAUTION_WORDS[caution].words).toMatch(/licensed/);
    }
  });

  it('should never call anything safe, legal or allowed', () => {
    for (const caution of CAUTIONS)
      expect(CAUTION_WORDS[caution].words).not.toMatch(/\b(safe|safely|legal|allowed|harmless|permitted)\b/i);
  });
});
