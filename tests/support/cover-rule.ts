/** The cover rule as it reads, pair by pair: the oracle for gates, errors and closings. Shares no code with them. */
import type { BuildFile } from '#shared/contract/build-file.ts';

export interface CoverPair {
  readonly inner: string;
  readonly cover: string;
  readonly zone: string;
}

/** Every pair of tasks and zone of which the one must come before the other because it is hidden by it. */
export function coverPairs(file: BuildFile): CoverPair[] {
  const pairs: CoverPair[] = [];
  for (const zone of file.zones) {
    const position = (depth: string) => zone.depths.indexOf(depth);
    const placesOf = (key: string) =>
      file.tasks.find((task) => task.key === key)!.places.filter((place) => place.zone === zone.key);
    const hides = (cover: string, inner: string) =>
      placesOf(cover).some(
        (over) =>
          over.hides !== null &&
          placesOf(inner).some((under) => position(under.depth) <= position(over.hides!)),
      );
    for (const a of file.tasks)
      for (const b of file.tasks) {
        if (a === b || !hides(b.key, a.key) || hides(a.key, b.key)) continue;
        if (file.exceptions.some(({ inner, cover }) => inner === a.key && cover === b.key)) continue;
        pairs.push({ inner: a.key, cover: b.key, zone: zone.key });
      }
  }
  return pairs;
}

/** Everything that comes after each task by the given pairs of "before, after". */
export function closure(
  keys: readonly string[],
  pairs: readonly (readonly [string, string])[],
): Map<string, Set<string>> {
  const after = new Map<string, Set<string>>(keys.map((key) => [key, new Set()]));
  for (const [from, to] of pairs) after.get(from)!.add(to);
  for (const middle of keys)
    for (const from of keys)
      if (after.get(from)!.has(middle)) for (const to of after.get(middle)!) after.get(from)!.add(to);
  return after;
}
