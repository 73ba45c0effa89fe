/** Whole minor units: rounding half away from zero, and a whole amount spread in whole parts that sum to it. */

/** Digits a product of decimals is right to; beyond them stands only what binary fractions add or lose. */
const RIGHT_DIGITS = 15;

/** Half away from zero: 60.5 → 61, −60.5 → −61; 1.005 × 100 counts as the 100.5 it is on paper. */
export function rounded(value: number): number {
  const size = Math.abs(value);
  const fromHalf = Math.abs(size - Math.floor(size) - 0.5);
  const isNearHalf = fromHalf <= size * 1e-14;
  const whole = Math.round(isNearHalf ? Number(size.toPrecision(RIGHT_DIGITS)) : size);
  return value < 0 && whole !== 0 ? -whole : whole;
}

/**
 * A whole amount in whole parts by weight: each part rounded, the last one that weighs anything takes the remainder.
 * Where all weigh nothing the parts are equal. A part never exceeds what the parts before it left, so none has the
 * other sign. @param weights 0 or more. @returns as many parts as weights; they sum to `amount` unless there are none
 */
export function spread(amount: number, weights: readonly number[]): number[] {
  if (amount < 0) return spread(-amount, weights).map((part) => (part === 0 ? 0 : -part));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const shares = total === 0 ? weights.map(() => 1) : weights;
  const all = total === 0 ? weights.length : total;
  const last = shares.findLastIndex((share) => share > 0);
  let left = amount;
  return shares.map((share, i) => {
    const part = i === last ? left : Math.min(rounded((amount * share) / all), left);
    left -= part;
    return part;
  });
}
