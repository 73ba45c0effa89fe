/** The rules of the order guard in the words of the workshop, and a stable name for each error, for addresses. */
import type { Hint, OrderError } from '#shared/contract/plan.ts';
import { RULE_COUNTS } from '../../state/error-counts.ts';

/** What each rule means, in the order they are told. */
export const RULE_MEANS: Readonly<Record<OrderError['rule'], string>> = {
  'wrong-order': 'A link asks for an order that cannot be kept.',
  'covers-in-a-circle': 'Covers hide each other, so none of them can come first.',
  'closed-too-early': 'It was covered before all behind it was in.',
  'covered-unchecked': 'A check behind a cover was never signed.',
  'part-too-late': 'A part arrives after the date that needs it.',
  'never-runs': 'No day allows it.',
  'fixed-start-missed': 'It cannot start on the day it is fixed to.',
};

export function ruleWords(rule: OrderError['rule']): string {
  return RULE_COUNTS[rule][0];
}

export const HINT_WORDS: Readonly<
  Record<Hint['rule'], { readonly one: string; readonly many: string; readonly means: string }>
> = {
  'out-of-sequence': {
    one: 'begun out of turn',
    many: 'begun out of turn',
    means: 'Work began before what a link puts first. What is left keeps the order.',
  },
  'started-unchecked': {
    one: 'begun unchecked',
    many: 'begun unchecked',
    means: 'A check comes before the work, but the work has begun.',
  },
  'undecided-coats': {
    one: 'pair of coats without an order',
    many: 'pairs of coats without an order',
    means: 'Each would hide the other: a link says which comes first.',
  },
  'nothing-hides-it': {
    one: 'place nothing covers',
    many: 'places nothing covers',
    means: 'Other work stands in front of it in the same zone: is a covering task missing?',
  },
  'hides-nothing': {
    one: 'cover with nothing behind it',
    many: 'covers with nothing behind them',
    means: 'The task covers a depth at which nobody works.',
  },
  'empty-zone': {
    one: 'zone without work',
    many: 'zones without work',
    means: 'No task has a place there yet.',
  },
  'implied-link': {
    one: 'link that follows from others',
    many: 'links that follow from others',
    means: 'They change no date. Keep those whose reason you want to read; drop the rest.',
  },
};

export interface Named<T> {
  readonly name: string;
  readonly value: T;
}

/** Names that stay while the error stays: its rule and tasks; told apart by a number where two have the same. */
export function named(errors: readonly OrderError[]): Named<OrderError>[] {
  const seen = new Map<string, number>();
  return errors.map((value) => {
    const name = [value.rule, ...value.tasks].join('.');
    const number = (seen.get(name) ?? 0) + 1;
    seen.set(name, number);
    return { name: number === 1 ? name : `${name}.${number}`, value };
  });
}

/** Groups of the same rule, in the order of the rules. */
export function byRule<R extends string, T>(
  items: readonly T[],
  ruleOf: (item: T) => R,
  order: readonly R[],
): { rule: R; items: T[] }[] {
  return order
    .map((rule) => ({ rule, items: items.filter((item) => ruleOf(item) === rule) }))
    .filter((group) => group.items.length > 0);
}
