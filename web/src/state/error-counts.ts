/** How many errors of each kind, in words. */
import type { OrderError } from '#shared/contract/plan.ts';

/** One and many, in the order they are told. */
export const RULE_COUNTS: Readonly<Record<OrderError['rule'], readonly [string, string]>> = {
  'wrong-order': ['wrong order', 'wrong orders'],
  'covers-in-a-circle': ['covers in a circle', 'covers in circles'],
  'closed-too-early': ['closed too early', 'closed too early'],
  'covered-unchecked': ['covered unchecked', 'covered unchecked'],
  'part-too-late': ['part too late', 'parts too late'],
  'never-runs': ['without dates', 'without dates'],
  'fixed-start-missed': ['misses its fixed date', 'miss their fixed dates'],
};

/** "2 wrong orders, 1 closed too early"; '' for none. */
export function errorCounts(errors: readonly OrderError[]): string {
  return (Object.keys(RULE_COUNTS) as OrderError['rule'][])
    .map((rule) => [rule, errors.filter((error) => error.rule === rule).length] as const)
    .filter(([, number]) => number > 0)
    .map(([rule, number]) => `${number} ${RULE_COUNTS[rule][number === 1 ? 0 : 1]}`)
    .join(', ');
}
