/** Who works on several builds, in words. */
import { list } from '../../drawing/words.ts';
import type { BuildSummary } from './build-summary.ts';

/**
 * "Tor works here and on Wagtail", one sentence a person who is shared.
 *
 * @param others builds at work
 */
export function sharedWords(build: BuildSummary, others: readonly BuildSummary[]): string[] {
  return build.people.flatMap(({ name, sharedAs }) => {
    const also = others.filter(
      (other) => other.id !== build.id && other.people.some((one) => one.sharedAs === sharedAs),
    );
    return sharedAs === null || also.length === 0
      ? []
      : [`${name} works here and on ${list(also.map((other) => other.name))}`];
  });
}
