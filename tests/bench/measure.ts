/**
 * Times that can be compared: contestants take turns within one loop, so that whatever else the machine does hits them
 * alike; medians, so that a collected heap or a busy neighbour does not count; and a checksum, so that nothing is
 * optimised away.
 */

/** Does the work once and returns a number that depends on the result. */
export type Run = () => number;

export interface Effort {
  /** Milliseconds one sample lasts at least: short work is repeated within it. */
  readonly sample?: number;
  /** Samples of each contestant, after as many milliseconds of warming up. */
  readonly samples?: number;
  readonly warmUp?: number;
}

/** Per contestant: milliseconds per run, one entry per sample; entries of one index were taken side by side. */
export type Samples<Name extends string> = Readonly<Record<Name, readonly number[]>>;

let sink = 0;

export function alternate<Name extends string>(
  runs: Readonly<Record<Name, Run>>,
  { sample = 4, samples = 101, warmUp = 400 }: Effort = {},
): Samples<Name> {
  const names = Object.keys(runs) as Name[];
  const batch = {} as Record<Name, number>;
  for (const name of names) batch[name] = batchFor(runs[name], sample, warmUp);
  const taken = Object.fromEntries(names.map((name) => [name, [] as number[]])) as Record<Name, number[]>;
  for (let i = 0; i < samples; i++)
    // Nobody always comes first: who does pays for the caches the last one left.
    for (let j = 0; j < names.length; j++) {
      const name = names[(i + j) % names.length]!;
      taken[name].push(timeOf(runs[name], batch[name]));
    }
  return taken;
}

export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** The median of the ratios of samples taken side by side. */
export function ratio(over: readonly number[], under: readonly number[]): number {
  return median(over.map((value, i) => value / under[i]!));
}

/** What all runs added up to: printed at the end, so that every result has been used. */
export function checksum(): number {
  return sink;
}

// Helpers

/** Warms a contestant up, then says how many of its runs make one sample. */
function batchFor(run: Run, sample: number, warmUp: number): number {
  const from = performance.now();
  let runs = 0;
  do {
    sink = (sink + run()) % 1_000_003;
    runs++;
  } while (performance.now() - from < warmUp);
  const few = Math.max(1, Math.min(runs, 5));
  return Math.max(1, Math.ceil(sample / timeOf(run, few)));
}

/** Milliseconds per run. */
function timeOf(run: Run, batch: number): number {
  const from = performance.now();
  for (let i = 0; i < batch; i++) sink = (sink + run()) % 1_000_003;
  return (performance.now() - from) / batch;
}
