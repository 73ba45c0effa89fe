/** A frozen plan behind the bars: where each task lay when it was frozen, in days since 1970-01-01. */
import type { Baseline } from '#shared/contract/log.ts';
import { dayNumber } from '#shared/time/days.ts';

export interface Ghost {
  readonly start: number;
  /** The day after its last. */
  readonly end: number;
}

export type Ghosts = ReadonlyMap<string, Ghost>;

export const NO_GHOSTS: Ghosts = new Map();

/** By task key. */
export function ghostsOf({ tasks }: Baseline): Ghosts {
  const day = (instant: string) => dayNumber(instant.slice(0, 10));
  return new Map(
    Object.entries(tasks).map(([key, { start, finish }]) => [
      key,
      { start: day(start), end: day(finish) + 1 },
    ]),
  );
}

/** From the first to the last of some tasks; null where none of them was frozen. */
export function spanOf(ghosts: Ghosts, keys: Iterable<string>): Ghost | null {
  let span: Ghost | null = null;
  for (const key of keys) {
    const ghost = ghosts.get(key);
    if (ghost === undefined) continue;
    span =
      span === null
        ? ghost
        : { start: Math.min(span.start, ghost.start), end: Math.max(span.end, ghost.end) };
  }
  return span;
}
