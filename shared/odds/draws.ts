/**
 * Draws from the distributions of the odds, each exact and from a stream of its own, so that a task more or a price less
 * leaves all other draws of the same seed as they were.
 */
import type { OddsDistribution } from '../contract/plan-odds.ts';
import { seededRandom } from '../search/random.ts';
import { exponential, logarithm } from './elementary.ts';

/** The next value. */
export type Draw = () => number;

const WORD = 2 ** 32;

/** Numbers between 0 and 1, neither included. @param name what the stream is for */
export function stream(seed: number, name: string): Draw {
  const random = seededRandom((seed ^ hash(name)) >>> 0);
  return () => (random(WORD) + 0.5) / WORD;
}

/** FNV-1a (G. Fowler, L. C. Noll, K.-P. Vo, 1991), 32 bits. */
function hash(text: string): number {
  let h = 0x811c_9dc5;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x0100_0193);
  return h;
}

/** Three points of one estimate; low ≤ likely ≤ high. */
export interface Points {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export function hasSpread({ low, high }: Points): boolean {
  return low < high;
}

/** A constant where the three points are one. */
export function drawOf(kind: OddsDistribution, points: Points, uniform: Draw): Draw {
  if (!hasSpread(points)) return () => points.likely;
  return kind === 'triangular' ? triangular(points, uniform) : betaPert(points, uniform);
}

/**
 * Beta-PERT of shape 4: mean (l + 4m + h) / 6, variance (mean − l)(h − mean) / 7 (D. G. Malcolm et al., Operations
 * Research 7, 1959, for the mean; D. Vose, Risk Analysis, 2008, for the shape).
 */
export function betaPert({ low, likely, high }: Points, uniform: Draw): Draw {
  const range = high - low;
  const beta = betaOf(1 + (4 * (likely - low)) / range, 1 + (4 * (high - likely)) / range, uniform);
  return () => low + range * beta();
}

/** Triangular, by inversion. */
export function triangular({ low, likely, high }: Points, uniform: Draw): Draw {
  const range = high - low;
  const rising = (likely - low) / range;
  return () => {
    const u = uniform();
    return u < rising
      ? low + Math.sqrt(u * range * (likely - low))
      : high - Math.sqrt((1 - u) * range * (high - likely));
  };
}

/**
 * Beta with both shapes at least 1, as beta-PERT has them: algorithm BB (R. C. H. Cheng, "Generating beta variates with
 * nonintegral shape parameters", Communications of the ACM 21:4, 1978); by inversion where one shape is 1.
 */
export function betaOf(p: number, q: number, uniform: Draw): Draw {
  if (p <= 1) return () => 1 - exponential(logarithm(uniform()) / q);
  if (q <= 1) return () => exponential(logarithm(uniform()) / p);
  const a = Math.min(p, q);
  const b = Math.max(p, q);
  const sum = a + b;
  const scale = Math.sqrt((sum - 2) / (2 * a * b - sum));
  const slope = a + 1 / scale;
  return () => {
    for (;;) {
      const u = uniform();
      const v = scale * logarithm(u / (1 - u));
      const w = a * exponential(v);
      const z = u * u * uniform();
      const r = slope * v - LN4;
      const s = a + r - w;
      // The first two tests only save the logarithm and the third.
      if (s + ONE_LN5 < 5 * z) {
        const t = logarithm(z);
        if (s < t && r + sum * logarithm(sum / (b + w)) < t) continue;
      }
      return p === a ? w / (b + w) : b / (b + w);
    }
  };
}

const LN4 = 2 * Math.LN2;
const ONE_LN5 = 2.609_437_912_434_1;

/** Standard normal: the polar method (G. Marsaglia, T. A. Bray, SIAM Review 6, 1964), the second of each pair unused. */
export function normal(uniform: Draw): Draw {
  return () => {
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const r = x * x + y * y;
      if (r > 0 && r < 1) return x * Math.sqrt((-2 * logarithm(r)) / r);
    }
  };
}

/** Log-normal with median 1. @param sigma standard deviation of the logarithm; 0: always 1 */
export function aroundOne(sigma: number, uniform: Draw): Draw {
  if (sigma === 0) return () => 1;
  const draw = normal(uniform);
  // Far outside any pace, and inside what the exponential takes.
  return () => exponential(Math.max(-20, Math.min(20, sigma * draw())));
}
