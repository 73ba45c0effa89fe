/**
 * Sums and maxima of independent times by numerical convolution on a grid: the oracle of the odds. It knows the
 * distributions from their densities alone and shares no code with the draws.
 */

/** A distribution on a grid: `mass[i]` is the chance of the cell around `(first + i) · step`. */
export interface Cells {
  readonly step: number;
  readonly first: number;
  readonly mass: readonly number[];
}

/** Beta-PERT of shape 4, from the density x^(a−1) (1 − x)^(b−1), each cell by 20 midpoints. */
export function pertCells(low: number, likely: number, high: number, step: number): Cells {
  const a = 1 + (4 * (likely - low)) / (high - low);
  const b = 1 + (4 * (high - likely)) / (high - low);
  return cellsOf(low, high, step, (x) => x ** (a - 1) * (1 - x) ** (b - 1));
}

export function triangularCells(low: number, likely: number, high: number, step: number): Cells {
  const mode = (likely - low) / (high - low);
  return cellsOf(low, high, step, (x) => (x < mode ? x / mode : (1 - x) / (1 - mode)));
}

/** @param density of the share of the way from low to high, up to a factor */
function cellsOf(low: number, high: number, step: number, density: (x: number) => number): Cells {
  const PARTS = 20;
  const first = Math.floor(low / step + 0.5);
  const last = Math.floor(high / step + 0.5);
  const mass = Array.from({ length: last - first + 1 }, (_, i) => {
    let sum = 0;
    for (let part = 0; part < PARTS; part++) {
      const x = ((first + i - 0.5 + (part + 0.5) / PARTS) * step - low) / (high - low);
      if (x > 0 && x < 1) sum += density(x);
    }
    return sum;
  });
  const total = mass.reduce((sum, value) => sum + value, 0);
  return { step, first, mass: mass.map((value) => value / total) };
}

/** One after the other. */
export function inTurn(a: Cells, b: Cells): Cells {
  const mass = Array.from({ length: a.mass.length + b.mass.length - 1 }, () => 0);
  a.mass.forEach((p, i) => b.mass.forEach((q, j) => (mass[i + j]! += p * q)));
  return { step: a.step, first: a.first + b.first, mass };
}

/** Side by side: when the later one is over. */
export function laterOf(a: Cells, b: Cells): Cells {
  const first = Math.min(a.first, b.first);
  const last = Math.max(a.first + a.mass.length, b.first + b.mass.length);
  const mass: number[] = [];
  let before = 0;
  for (let cell = first; cell < last; cell++) {
    const upTo = chanceUpTo(a, cell * a.step) * chanceUpTo(b, cell * b.step);
    mass.push(upTo - before);
    before = upTo;
  }
  return { step: a.step, first, mass };
}

/** The chance of a cell at or before that time. */
export function chanceUpTo({ step, first, mass }: Cells, time: number): number {
  let sum = 0;
  for (let i = 0; i < mass.length && (first + i) * step <= time + 1e-9; i++) sum += mass[i]!;
  return sum;
}

export function meanOf({ step, first, mass }: Cells): number {
  return mass.reduce((sum, p, i) => sum + p * (first + i) * step, 0);
}

export function varianceOf(cells: Cells): number {
  const mean = meanOf(cells);
  const { step, first, mass } = cells;
  return mass.reduce((sum, p, i) => sum + p * ((first + i) * step - mean) ** 2, 0);
}

/** The first time by which at least that share is over. */
export function quantileOf({ step, first, mass }: Cells, share: number): number {
  let sum = 0;
  for (let i = 0; i < mass.length; i++) {
    sum += mass[i]!;
    if (sum >= share) return (first + i) * step;
  }
  return (first + mass.length) * step;
}

/** The standard normal distribution function (Abramowitz and Stegun 26.2.17, right to 7.5e-8). */
export function normalUpTo(z: number): number {
  const t = 1 / (1 + 0.231_641_9 * Math.abs(z));
  const series =
    t *
    (0.319_381_53 + t * (-0.356_563_782 + t * (1.781_477_937 + t * (-1.821_255_978 + t * 1.330_274_429))));
  const tail = (series * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
  return z > 0 ? 1 - tail : tail;
}
