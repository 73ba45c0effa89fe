/**
 * What the trials say beyond the finish itself: how often each task drove it, what that task's start then waited for, and
 * how much of the finish's variance goes with each thing that was drawn (r², the square of the correlation).
 */

const KINDS = 5;

/** Sums of pairs, for one correlation per subject. */
export class Correlations {
  readonly #sum: Float64Array;
  readonly #squares: Float64Array;
  readonly #products: Float64Array;
  #count = 0;
  #ySum = 0;
  #ySquares = 0;

  constructor(size: number) {
    this.#sum = new Float64Array(size);
    this.#squares = new Float64Array(size);
    this.#products = new Float64Array(size);
  }

  /** @param xs one per subject, around 0 rather than far from it. @param y the same for the finish */
  add(xs: Float64Array, y: number): void {
    this.#count++;
    this.#ySum += y;
    this.#ySquares += y * y;
    for (let i = 0; i < xs.length; i++) {
      const x = xs[i]!;
      this.#sum[i]! += x;
      this.#squares[i]! += x * x;
      this.#products[i]! += x * y;
    }
  }

  /** 0 where either of the two never changes. Chance alone gives about one over the number of trials: that much is taken off. */
  explained(i: number): number {
    const n = this.#count;
    if (n < 3) return 0;
    const xVariance = this.#squares[i]! - this.#sum[i]! ** 2 / n;
    const yVariance = this.#ySquares - this.#ySum ** 2 / n;
    if (xVariance <= 0 || yVariance <= 0) return 0;
    const covariance = this.#products[i]! - (this.#sum[i]! * this.#ySum) / n;
    const share = (covariance * covariance) / (xVariance * yVariance);
    return Math.min(1, Math.max(0, share - (1 - share) / (n - 2)));
  }
}

/** Counts of the trials in which a node drove the finish. */
export class Drives {
  readonly #times: Int32Array;
  readonly #by: Int32Array;
  readonly #gap: Float64Array;

  constructor(size: number) {
    this.#times = new Int32Array(size);
    this.#by = new Int32Array(size * KINDS);
    this.#gap = new Float64Array(size);
  }

  /** @param gap minutes between what it waited for and its start */
  add(v: number, by: number, gap: number): void {
    this.#times[v]!++;
    this.#by[v * KINDS + by]!++;
    this.#gap[v]! += gap;
  }

  times(v: number): number {
    return this.#times[v]!;
  }

  /** The share of those trials in which it waited for that. */
  share(v: number, by: number): number {
    return this.#times[v] === 0 ? 0 : this.#by[v * KINDS + by]! / this.#times[v]!;
  }

  /** Mean minutes between what it waited for and its start. */
  gap(v: number): number {
    return this.#times[v] === 0 ? 0 : this.#gap[v]! / this.#times[v]!;
  }
}
