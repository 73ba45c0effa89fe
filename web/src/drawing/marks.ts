/** Small drawing functions: paths for marks that several drawings set. Coordinates in px of the drawing. */

const n = (value: number) => +value.toFixed(2);

/** A slim filled arrow with its tip at (x, y). @param to where it points */
export function arrow(
  x: number,
  y: number,
  to: 'right' | 'left' | 'up' | 'down',
  length = 6.5,
  half = 1.8,
): string {
  const points = {
    right: [
      [x, y],
      [x - length, y - half],
      [x - length, y + half],
    ],
    left: [
      [x, y],
      [x + length, y - half],
      [x + length, y + half],
    ],
    up: [
      [x, y],
      [x - half, y + length],
      [x + half, y + length],
    ],
    down: [
      [x, y],
      [x - half, y - length],
      [x + half, y - length],
    ],
  }[to];
  return `M${points.map(([px, py]) => `${n(px!)} ${n(py!)}`).join('L')}Z`;
}

/** The line and arrows of a level dimension from x1 to x2; short ones have their arrows outside, pointing in. */
export function dimension(
  x1: number,
  x2: number,
  y: number,
): { readonly line: string; readonly arrows: string } {
  if (x2 - x1 > 15)
    return { line: `M${n(x1)} ${n(y)}H${n(x2)}`, arrows: arrow(x1, y, 'left') + arrow(x2, y, 'right') };
  return { line: `M${n(x1 - 8)} ${n(y)}H${n(x2 + 8)}`, arrows: arrow(x1, y, 'right') + arrow(x2, y, 'left') };
}
