/** Figures of a sample: quantiles, mean, standard deviation and the standard errors of both. */

export interface Figures {
  readonly p10: number | null;
  readonly p50: number | null;
  readonly p80: number | null;
  readonly p90: number | null;
  readonly mean: number | null;
  readonly sd: number | null;
  readonly meanError: number | null;
  readonly sdError: number | null;
}

/** Rising. Infinity stands for "never" and comes last. */
export type Sorted = Float64Array;

/** The least value that at least that share of the sample does not pass (the empirical quantile). Null: none, or never. */
export function quantile(sorted: Sorted, share: number): number | null {
  if (sorted.length === 0) return null;
  const at = Math.max(0, Math.ceil(share * sorted.length - 1e-9) - 1);
  const value = sorted[at]!;
  return Number.isFinite(value) ? value : null;
}

/** Point i of 101: the quantile at i %. */
export function curve(sorted: Sorted): (number | null)[] {
  if (sorted.length === 0) return [];
  return Array.from({ length: 101 }, (_, i) => quantile(sorted, i / 100));
}

/** The share of the sample that does not pass `value`. Null for an empty one. */
export function shareUpTo(sorted: Sorted, value: number): number | null {
  if (sorted.length === 0) return null;
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! <= value) low = middle + 1;
    else high = middle;
  }
  return low / sorted.length;
}

/**
 * Mean and standard deviation are null where the sample has a "never". The error of the standard deviation comes from
 * the fourth moment, because a finish is not normal (C. R. Rao, Linear Statistical Inference, 1973, 6e).
 */
export function figuresOf(sorted: Sorted): Figures {
  return {
    p10: quantile(sorted, 0.1),
    p50: quantile(sorted, 0.5),
    p80: quantile(sorted, 0.8),
    p90: quantile(sorted, 0.9),
    ...momentsOf(sorted),
  };
}

function momentsOf(sorted: Sorted): Pick<Figures, 'mean' | 'sd' | 'meanError' | 'sdError'> {
  const n = sorted.length;
  if (n === 0 || !Number.isFinite(sorted[n - 1]!))
    return { mean: null, sd: null, meanError: null, sdError: null };
  // From the first value on, so that no digits are lost to a common size.
  const origin = sorted[0]!;
  let sum = 0;
  for (const value of sorted) sum += value - origin;
  const shift = sum / n;
  let second = 0;
  let fourth = 0;
  for (const value of sorted) {
    const square = (value - origin - shift) ** 2;
    second += square;
    fourth += square * square;
  }
  const mean = origin + shift;
  if (n === 1) return { mean, sd: 0, meanError: null, sdError: null };
  const variance = second / (n - 1);
  const sd = Math.sqrt(variance);
  const spare = Math.max(0, fourth / n - (second / n) ** 2);
  return { mean, sd, meanError: sd / Math.sqrt(n), sdError: sd === 0 ? 0 : Math.sqrt(spare / n) / (2 * sd) };
}
