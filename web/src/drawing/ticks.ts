/** Round figures along an axis. */

/** 0, a step, two steps … up to the greatest value; steps are 1, 2, 2.5 or 5 times a power of ten. @param most marks at most */
export function ticks(greatest: number, most = 5): number[] {
  if (greatest <= 0) return [0];
  const rough = greatest / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 2.5, 5, 10].map((times) => times * power).find((size) => size >= rough - 1e-9)!;
  return Array.from({ length: Math.floor(greatest / step + 1e-9) + 1 }, (_, i) => i * step);
}
