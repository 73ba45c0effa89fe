/**
 * Logarithm and exponential from the four operations alone. The language leaves the last digit of its own to the engine,
 * and a draw that is refused in one browser and taken in another would change every figure after it; these come out the
 * same bit by bit wherever floating point is IEEE 754. Right to some 1e-14 of their value.
 */

const { LN2, SQRT1_2 } = Math;
const STEP = 2 ** 16;

/** Of the series of artanh s / s in s²: 1/23 down to 1/3. */
const ARTANH = Float64Array.from({ length: 11 }, (_, i) => 1 / (23 - 2 * i));
/** Of the series of the exponential: 1/9! down to 1/1!. */
const POWERS = Float64Array.from({ length: 9 }, (_, i) => 1 / factorial(9 - i));

/** Natural logarithm. @param x above 0 and finite */
export function logarithm(x: number): number {
  // x = m · 2^e with m around 1; ln m = 2 artanh s with s = (m − 1) / (m + 1), at most 0.172 in size.
  let m = x;
  let e = 0;
  for (; m >= STEP * SQRT1_2; e += 16) m /= STEP;
  for (; m >= 2 * SQRT1_2; e++) m /= 2;
  for (; m < SQRT1_2 / STEP; e -= 16) m *= STEP;
  for (; m < SQRT1_2; e--) m *= 2;
  const s = (m - 1) / (m + 1);
  const q = s * s;
  let sum = 0;
  for (let i = 0; i < ARTANH.length; i++) sum = (sum + ARTANH[i]!) * q;
  return e * LN2 + 2 * s * (1 + sum);
}

/** e to the x; 0 far below zero. @param x at most 700 */
export function exponential(x: number): number {
  if (x < -700) return 0;
  // x = k ln 2 + 4 r with r at most 0.087 in size, where a short series will do.
  const k = Math.floor(x / LN2 + 0.5);
  const r = (x - k * LN2) / 4;
  let sum = 0;
  for (let i = 0; i < POWERS.length; i++) sum = (sum + POWERS[i]!) * r;
  sum = (1 + sum) * (1 + sum);
  sum *= sum;
  let left = k;
  for (; left >= 16; left -= 16) sum *= STEP;
  for (; left <= -16; left += 16) sum /= STEP;
  for (; left > 0; left--) sum *= 2;
  for (; left < 0; left++) sum /= 2;
  return sum;
}

function factorial(n: number): number {
  return n < 2 ? 1 : n * factorial(n - 1);
}
