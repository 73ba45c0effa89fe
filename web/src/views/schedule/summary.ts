/** A folded row's marks: stretches of its tasks, run together. */
import type { Bar } from './bars.ts';
import type { PhaseGroup } from './rows.ts';

export type Stretch = readonly [number, number];

export interface Summary {
  /** Open work, the driving part of it, and what is done. */
  readonly open: readonly Stretch[];
  readonly chain: readonly Stretch[];
  readonly done: readonly Stretch[];
  /** Days on which something of it is closed. */
  readonly closes: readonly number[];
  readonly wrong: boolean;
}

export function summaryOf(groups: readonly PhaseGroup[], bars: ReadonlyMap<string, Bar>): Summary {
  const open: Stretch[] = [];
  const chain: Stretch[] = [];
  const done: Stretch[] = [];
  const closes = new Set<number>();
  let wrong = false;
  for (const { tasks } of groups)
    for (const { key } of tasks) {
      const bar = bars.get(key);
      if (bar === undefined) continue;
      const stretch: Stretch = [bar.start, bar.end];
      (bar.state === 'finished' ? done : bar.chain ? chain : open).push(stretch);
      if (bar.closes !== '') closes.add(bar.start);
      wrong ||= bar.wrong && bar.state !== 'finished';
    }
  return { open: merged(open), chain: merged(chain), done: merged(done), closes: [...closes], wrong };
}

/** Overlapping and touching stretches as one. */
export function merged(stretches: readonly Stretch[]): Stretch[] {
  const out: [number, number][] = [];
  for (const [from, to] of stretches.toSorted((a, b) => a[0] - b[0])) {
    const last = out.at(-1);
    if (last !== undefined && from <= last[1]) last[1] = Math.max(last[1], to);
    else out.push([from, to]);
  }
  return out;
}
