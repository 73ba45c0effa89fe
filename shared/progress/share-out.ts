/**
 * A whole number shared out by weights, in whole numbers that add up to it exactly: each gets its share rounded down,
 * and what is left goes one by one to the largest remainders (the way seats are given out after an election).
 */

/**
 * @param total 0 or more
 * @param weights 0 or more each; all zero: everyone the same
 * @returns one part per weight, in their order; equal remainders go to the earlier one
 */
export function shareOut(total: number, weights: readonly number[]): number[] {
  if (weights.length === 0) return [];
  const sum = weights.reduce((a, b) => a + b, 0);
  const exact = weights.map((weight) => (sum === 0 ? total / weights.length : (total * weight) / sum));
  const parts = exact.map((value) => Math.floor(value + 1e-9));
  const byRemainder = exact
    .map((value, i) => ({ i, left: value - parts[i]! }))
    .toSorted((a, b) => (Math.abs(a.left - b.left) < 1e-9 ? a.i - b.i : b.left - a.left));
  let left = total - parts.reduce((a, b) => a + b, 0);
  for (let k = 0; left > 0; k++, left--) parts[byRemainder[k % parts.length]!.i]!++;
  return parts;
}
