/** Numbers that look random and come again with the same seed: xoshiro128** (D. Blackman, S. Vigna, ACM TOMS 47, 2021). */

/** Whole numbers 0 ≤ n < below. */
export type Random = (below: number) => number;

/** @param seed a whole number; its lower 32 bits count */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  // splitmix32 spreads the seed, so that neighbouring seeds have nothing in common.
  const word = () => {
    state = (state + 0x9e37_79b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85eb_ca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2_ae35);
    return z ^ (z >>> 16);
  };
  let a = word();
  let b = word();
  let c = word();
  let d = word();
  return (below) => {
    const scrambled = Math.imul(rotated(Math.imul(b, 5), 7), 9) >>> 0;
    const t = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= t;
    d = rotated(d, 11);
    return Math.floor((scrambled / 0x1_0000_0000) * below);
  };
}

function rotated(x: number, by: number): number {
  return (x << by) | (x >>> (32 - by));
}
