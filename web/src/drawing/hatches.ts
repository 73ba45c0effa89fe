/** The hatches as pattern tiles: one function, drawn at four heights. Tile size and path, stroked with currentColor. */
import type { Hatch } from '#shared/contract/shell.ts';

export type HatchName = Hatch | 'ordered';

export interface Tile {
  readonly width: number;
  readonly height: number;
  readonly body: string;
  /** Filled instead of stroked. */
  readonly filled?: boolean;
}

/** @param h height of the band it fills, px: 11, 17, 29 or 44 */
export function tileOf(hatch: HatchName, h: number): Tile | null {
  switch (hatch) {
    case 'metal': {
      const s = h > 30 ? 7 : h < 14 ? 3.6 : 4.4;
      return {
        width: s,
        height: s,
        body: `M${-s * 0.25} ${s * 0.25}L${s * 0.25} ${-s * 0.25}M0 ${s}L${s} 0M${s * 0.75} ${s * 1.25}L${s * 1.25} ${s * 0.75}`,
      };
    }
    case 'opening': {
      const w = h > 30 ? 40 : 18;
      const [x, y, r] = [w * 0.2, h * 0.2, h * 0.16];
      const [iw, ih] = [w * 0.6 - 2 * r, h * 0.6 - 2 * r];
      return {
        width: w,
        height: h,
        body: `M${x + r} ${y}h${iw}a${r} ${r} 0 0 1 ${r} ${r}v${ih}a${r} ${r} 0 0 1 ${-r} ${r}h${-iw}a${r} ${r} 0 0 1 ${-r} ${-r}v${-ih}a${r} ${r} 0 0 1 ${r} ${-r}z`,
      };
    }
    case 'damping': {
      const s = h > 30 ? 7 : 4;
      return {
        width: s,
        height: h,
        body: `M${s * 0.25} ${h * 0.12}V${h * 0.48}M${s * 0.75} ${h * 0.52}V${h * 0.88}`,
      };
    }
    case 'fixing': {
      const w = h > 30 ? 30 : 15;
      const r = h > 30 ? 5 : h * 0.2;
      const [x, y] = [w / 2, h / 2];
      return {
        width: w,
        height: h,
        body: `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0M${x - r * 1.9} ${y}H${x + r * 1.9}M${x} ${y - r * 1.9}V${y + r * 1.9}`,
      };
    }
    case 'wire': {
      const w = h > 30 ? 44 : h < 14 ? 20 : 28;
      const [c, t, g, x] = [h / 2, h * 0.24, h > 30 ? 5 : 2.6, w * 0.5];
      const strokes = [-1, 0, 1]
        .map((i) => `M${x + i * g - t * 0.45} ${c + t}L${x + i * g + t * 0.45} ${c - t}`)
        .join('');
      return { width: w, height: h, body: `M0 ${c}H${w}${strokes}` };
    }
    case 'fill': {
      const w = Math.round(h * 0.6);
      const [a, b] = [h * 0.84, h * 0.14];
      const loop = (o: number) =>
        `M${o} ${a}C${o + w * 0.66} ${a} ${o + w * 1.06} ${b} ${o + w * 0.5} ${b}C${o - w * 0.06} ${b} ${o + w * 0.34} ${a} ${o + w} ${a}`;
      return { width: w, height: h, body: loop(0) + loop(-w) + loop(w) };
    }
    case 'sheet': {
      const s = h < 14 ? 4.2 : h > 30 ? 7 : 5.2;
      const dot = (x: number, y: number) => `M${x - 0.8} ${y}a.8 .8 0 1 0 1.6 0a.8 .8 0 1 0 -1.6 0`;
      return { width: s, height: s, body: dot(s * 0.25, s * 0.25) + dot(s * 0.75, s * 0.75), filled: true };
    }
    case 'film':
      return { width: 15, height: h, body: `M0 ${h / 2}H9M11.5 ${h / 2}H12.5` };
    case 'batten': {
      const w = 72;
      return {
        width: w,
        height: h,
        body: `M0 ${h * 0.14}C20 ${h * 0.06} 48 ${h * 0.22} ${w} ${h * 0.14}M0 ${h * 0.34}C18 ${h * 0.3} 30 ${h * 0.46} ${w} ${h * 0.34}M0 ${h * 0.54}C10 ${h * 0.54} 18 ${h * 0.6} 30 ${h * 0.6}M40 ${h * 0.55}C52 ${h * 0.5} 62 ${h * 0.54} ${w} ${h * 0.54}M0 ${h * 0.74}C22 ${h * 0.82} 46 ${h * 0.66} ${w} ${h * 0.74}`,
      };
    }
    case 'rail':
      return { width: 30, height: h, body: `M0 ${h * 0.3}H30M0 ${h * 0.7}H30M15 ${h * 0.3}V${h * 0.7}` };
    case 'ply': {
      const s = h < 14 ? 3 : h > 30 ? 6 : 4;
      return {
        width: s,
        height: h,
        body: `M0 ${h / 3}H${s}M0 ${(h * 2) / 3}H${s}M${s / 2} ${h / 3 + 1}V${(h * 2) / 3 - 1}`,
      };
    }
    case 'trim':
      return { width: 3.5, height: h, body: `M1.75 0V${h}` };
    case 'wax':
      return { width: 12, height: 6, body: 'M1 1.5H7M7 4.5H13M-5 4.5H1' };
    case 'cells':
      return { width: 8, height: h / 2, body: `M.5 0V${h / 2}M0 .5H8` };
    case 'ordered':
      return { width: 20, height: 2.75, body: 'M0 1.4H20' };
    case 'furniture':
    case 'plain':
      return null;
  }
}

export const HATCH_HEIGHTS = { s: 11, m: 17, l: 29, xl: 44 } as const;
export type HatchSize = keyof typeof HATCH_HEIGHTS;
export type HatchInk = 'done' | 'ink' | 'amber';

/** The id of a hatch's pattern for `fill="url(#…)"`; null where the hatch is a plain tint. */
export function hatchId(hatch: HatchName, size: HatchSize, ink: HatchInk): string | null {
  return tileOf(hatch, HATCH_HEIGHTS[size]) === null ? null : `hatch-${hatch}-${size}-${ink}`;
}

export interface Hatching {
  readonly d: string;
  readonly filled: boolean;
}

/** Bands of one width and hatch are many, and every plan asks for them again. */
const drawn = new Map<string, Hatching | null>();
const MOST_DRAWN = 400;

/** A hatch over a rectangle; null where it is a plain tint. */
export function hatched(hatch: HatchName, size: HatchSize, w: number, h: number): Hatching | null {
  const name = `${hatch} ${size} ${w} ${h}`;
  const known = drawn.get(name);
  if (known !== undefined) return known;
  const tile = tileOf(hatch, HATCH_HEIGHTS[size]);
  const made = tile === null ? null : { d: hatchPath(tile, w, h), filled: tile.filled === true };
  if (drawn.size >= MOST_DRAWN) drawn.clear();
  drawn.set(name, made);
  return made;
}

/** The tile over and over, as one path that covers a rectangle; what reaches over its edges is to be clipped. */
export function hatchPath({ width, height, body }: Tile, w: number, h: number): string {
  let path = '';
  for (let y = 0; y < h; y += height) for (let x = 0; x < w; x += width) path += moved(body, x, y);
  return path;
}

/** A path moved: its absolute commands (M, L, H, V, C) shifted, its relative ones left. */
function moved(path: string, dx: number, dy: number): string {
  if (dx === 0 && dy === 0) return path;
  return path.replace(/([A-Za-z])([^A-Za-z]*)/g, (whole, command: string, values: string) => {
    if (!'MLHVC'.includes(command)) return whole;
    const numbers = (values.match(/-?(?:\d+\.?\d*|\.\d+)(?:e-?\d+)?/g) ?? []).map(Number);
    const shifted = numbers.map((value, i) =>
      round(value + (command === 'H' || (command !== 'V' && i % 2 === 0) ? dx : dy)),
    );
    return command + shifted.join(' ');
  });
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
