/**
 * What has been published about the sets J30, J60 and J120 of PSPLIB after 1,000, 5,000 and 50,000 schedules: mean percent
 * above the optimum (J30) or the critical path (J60, J120), over whole sets. `memory`: not read but remembered, mostly from
 * R. Kolisch, S. Hartmann, "Experimental investigation of heuristics for resource-constrained project scheduling: an
 * update", EJOR 174, 2006; `read`: in L. Wang, C. Fang, Expert Systems with Applications 39, 2012, tables 7 and 10.
 */

export interface Row {
  readonly method: string;
  /** After 1,000, 5,000 and 50,000; null where none is given. */
  readonly percent: readonly (number | null)[];
  readonly known: string;
}

export const COUNTS = [1000, 5000, 50_000] as const;

/** Mean percent above the best known, by count: what has to be reached, and what is aimed at. */
export const GOALS: Readonly<
  Record<string, { readonly must: readonly number[]; readonly aim: readonly number[] }>
> = {
  J30: { must: [0.35, 0.15, 0.05], aim: [0.1, 0.03, 0.01] },
  J60: { must: [1.4, 0.9, 0.5], aim: [0.9, 0.5, 0.2] },
  J120: { must: [5, 3.5, 2.2], aim: [3.6, 2.5, 1.3] },
};

/** Mean percent of the best known above the critical path, over the whole sets. */
export const BEST_ABOVE_PATH: Readonly<Record<string, number>> = { J30: 13.37, J60: 10.37, J120: 28.91 };

export const PUBLISHED: Readonly<Record<string, readonly Row[]>> = {
  J30: [
    row('Kochetov, Stolyar 2003', 0.1, 0.04, 0, 'memory'),
    row('Debels, Vanhoucke 2007', 0.12, 0.04, 0.02, 'memory'),
    row('Gonçalves, Resende, Mendes 2011', 0.32, 0.02, 0.01, 'memory'),
    row('Valls, Ballestín, Quintanilla 2008', 0.27, 0.06, 0.02, 'memory'),
    row('Debels et al. 2006', 0.27, 0.11, 0.01, 'memory'),
    row('Wang, Fang 2012', 0.38, 0.14, null, 'read'),
    row('sampling by late finish, serial (Kolisch 1996)', 0.83, 0.53, 0.27, 'memory'),
  ],
  J60: [
    row('Debels, Vanhoucke 2007', 11.31, 10.95, 10.68, 'memory'),
    row('Gonçalves, Resende, Mendes 2011', 11.56, 10.57, 10.49, 'memory'),
    row('Valls, Ballestín, Quintanilla 2008', 11.56, 11.1, 10.73, 'memory'),
    row('Kochetov, Stolyar 2003', 11.71, 11.17, 10.74, 'memory'),
    row('Debels et al. 2006', 11.73, 11.1, 10.71, 'memory'),
    row('Wang, Fang 2012', 11.97, 11.43, null, 'read'),
    row('sampling by late finish, serial (Kolisch 1996)', 13.96, 13.53, 12.97, 'memory'),
  ],
  J120: [
    row('Debels, Vanhoucke 2007', 33.55, 32.18, 30.69, 'read; 50,000 memory'),
    row('Valls, Ballestín, Quintanilla 2008', 34.07, 32.54, 31.24, 'read; 50,000 memory'),
    row('Debels et al. 2006', 35.22, 33.1, 31.57, 'read; 50,000 memory'),
    row('Gonçalves, Resende, Mendes 2011', 35.94, 32.76, 30.08, 'memory'),
    row('Wang, Fang 2012', 35.44, 33.61, null, 'read'),
    row('Alcaraz et al. 2004', 36.53, 33.91, 31.49, 'read; 50,000 memory'),
    row('sampling by late finish, serial (Kolisch 1996)', 42.84, 41.84, 40.63, 'memory'),
  ],
};

// Helpers

function row(
  method: string,
  first: number,
  second: number,
  third: number | null,
  known: 'memory' | 'read' | 'read; 50,000 memory',
): Row {
  return { method, percent: [first, second, third], known };
}
