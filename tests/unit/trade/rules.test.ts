/** The table of rules and the list of kinds: every word a rule uses exists, and every row of the trade's table is answered for. */
import { describe, expect, it } from 'vitest';
import { CAUTIONS } from '#shared/contract/task.ts';
import { CATALOGUE_TASKS } from '#shared/starter/catalogue.ts';
import { EXTRA_TASKS } from '#shared/starter/extras.ts';
import { KINDS, kindName, kindOf, OTHER } from '#shared/trade/kinds.ts';
import { TRADE_RULES, type Side, type TradeRule } from '#shared/trade/rules.ts';

/** Rows of the trade's table of constraints. */
const ROWS = Array.from({ length: 112 }, (_, i) => `C${String(i + 1).padStart(3, '0')}`);

/** Rows no rule stands for, and what does instead. */
const NOT_COVERED: Readonly<Record<string, string>> = {
  C005: 'primer and top coat are both paint: the wait and the links of the task carry it',
  C006: 'a wait: sealer is hard before the paint',
  C011: 'which sheets are cut at the bench is not a kind: the sub-floor is linked to its own',
  C018: 'a wait with a condition: the wax above its temperature',
  C028: 'steps within one task: deburr, prime, then seal',
  C034: 'steps within one task: deburr, then set',
  C042: 'the order flips with the insulation: sheet comes before the conduits, wool and foam after, and kinds do not tell',
  C043: 'a wait: foam gasses out',
  C051: 'a decision: where hoses run',
  C059: 'which panels are finished at the bench is not a kind: each is linked to its own',
  C061: 'a decision: where the hatches are',
  C066: 'a wait within one opening: adaptor, then flange',
  C067: 'a condition: a dry day above the limit of the sealant',
  C068: 'steps within one task: sweep, then bed',
  C070: 'a wait: the bond before the road',
  C089: 'a wait: the glass before doors are slammed',
  C100: 'a purchase: the appliance in hand before the sheets are cut',
};

describe('trade kinds', () => {
  it('should have each key once, with words and a meaning', () => {
    expect(new Set(KINDS.map(({ key }) => key)).size).toBe(KINDS.length);
    for (const { name, meaning, cautions } of KINDS) {
      expect(name).not.toBe('');
      expect(meaning).toMatch(/\.$/);
      for (const caution of cautions) expect(CAUTIONS).toContain(caution);
    }
    expect(kindOf(OTHER)).not.toBeNull();
  });

  it('should have every kind that the catalogue uses', () => {
    const used = new Set([...CATALOGUE_TASKS, ...EXTRA_TASKS].flatMap(({ kinds }) => kinds));
    expect([...used].filter((kind) => kindOf(kind) === null)).toEqual([]);
  });

  it('should write a kind of the builder’s own in words', () => {
    expect(kindName('ice-box')).toBe('ice box');
    expect(kindName('cut-opening')).toBe('cutting of an opening');
  });
});

describe('trade rules', () => {
  it('should speak only of kinds there are', () => {
    for (const rule of TRADE_RULES)
      for (const { kinds, unless = [] } of sidesOf(rule))
        expect(
          [...kinds, ...unless].filter((kind) => kindOf(kind) === null),
          rule.key,
        ).toEqual([]);
  });

  it('should have a key of its own, short enough to be kept with the print of its tasks', () => {
    expect(new Set(TRADE_RULES.map(({ key }) => key)).size).toBe(TRADE_RULES.length);
    for (const { key } of TRADE_RULES) expect(key.length).toBeLessThanOrEqual(60);
  });

  it('should say a reason in a full sentence, and never that something is safe or legal', () => {
    for (const { reason, title } of TRADE_RULES) {
      expect(reason).toMatch(/^[A-Z].*\.$/);
      expect(`${title} ${reason}`).not.toMatch(/\b(is|are) (safe|legal|allowed)\b/i);
    }
  });

  it('should add a task of the catalogue, or one of a kind it needs', () => {
    const entries = new Map([...CATALOGUE_TASKS, ...EXTRA_TASKS].map((entry) => [entry.key, entry.kinds]));
    for (const rule of TRADE_RULES)
      if (rule.shape !== 'order') {
        const kinds = entries.get(rule.adds) ?? [rule.adds];
        expect(
          kinds.some((kind) => rule.need.kinds.includes(kind)),
          rule.key,
        ).toBe(true);
      }
  });

  it('should stand for every row of the table, or say why not', () => {
    const covered = new Set(TRADE_RULES.flatMap(({ from }) => from));
    expect(ROWS.filter((row) => !covered.has(row))).toEqual(Object.keys(NOT_COVERED).sort());
    expect([...covered].filter((row) => !ROWS.includes(row))).toEqual([]);
  });
});

// Helpers

function sidesOf(rule: TradeRule): readonly Side[] {
  if (rule.shape === 'order') return [rule.first, rule.later];
  return rule.shape === 'before'
    ? [rule.later, rule.need, { kinds: rule.where ?? [] }]
    : [rule.of, rule.need, rule.before];
}
