/** Lists records so that links run down the list, otherwise as they stood: the extra ones come where they are needed. */
import type { CatalogueLink } from './catalogue.ts';

/**
 * @param links those with an end elsewhere do not count
 * @returns every record; quadratic in those free at a time. @throws RangeError if the links go in a circle
 */
export function inOrder<T extends { readonly key: string }>(
  records: readonly T[],
  links: readonly CatalogueLink[],
): T[] {
  const place = new Map(records.map(({ key }, i) => [key, i]));
  const next = records.map((): number[] => []);
  const waits = new Int32Array(records.length);
  for (const { from, to } of links) {
    const [a, b] = [place.get(from), place.get(to)];
    if (a === undefined || b === undefined) continue;
    next[a]!.push(b);
    waits[b]!++;
  }
  const free = records.flatMap((_, i) => (waits[i] === 0 ? [i] : []));
  const listed: T[] = [];
  while (free.length > 0) {
    const first = free.reduce((a, b) => Math.min(a, b));
    free.splice(free.indexOf(first), 1);
    listed.push(records[first]!);
    for (const to of next[first]!) if (--waits[to]! === 0) free.push(to);
  }
  if (listed.length < records.length) throw new RangeError('the links go in a circle');
  return listed;
}
