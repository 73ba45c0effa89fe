/**
 * Earned value, as in ANSI/EIA-748 practice: how far the work and its cost stand from a baseline. A denominator that is
 * zero, missing or negative gives null, "no figure yet", never an infinite index.
 */

export interface EarnedInput {
  /** The whole baseline, what of it is planned by now, what is earned by what is done, what was spent. One unit. */
  readonly bac: number;
  readonly pv: number;
  readonly ev: number;
  readonly ac: number;
}

export interface EarnedValue extends EarnedInput {
  /** Schedule and cost variance: negative is behind, dearer. */
  readonly sv: number;
  readonly cv: number;
  readonly spi: number | null;
  readonly cpi: number | null;
  /** Estimate at completion: spent, and what is left at the cost index so far. */
  readonly eac: number | null;
  /** Variance at completion: negative is over the baseline. */
  readonly vac: number | null;
  /** The cost index the rest must keep to end on the baseline. */
  readonly tcpi: number | null;
}

/** Not rounded. */
export function earnedValue({ bac, pv, ev, ac }: EarnedInput): EarnedValue {
  // AC + (BAC − EV) / CPI, written so that the quotient is taken last.
  const eac = ev > 0 && ac > 0 ? ac + ((bac - ev) * ac) / ev : null;
  return {
    bac,
    pv,
    ev,
    ac,
    sv: ev - pv,
    cv: ev - ac,
    spi: quotient(ev, pv),
    cpi: quotient(ev, ac),
    eac,
    vac: eac === null ? null : bac - eac,
    tcpi: quotient(bac - ev, bac - ac),
  };
}

function quotient(over: number, under: number): number | null {
  return under > 0 ? over / under : null;
}
