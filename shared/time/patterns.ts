/**
 * Day patterns: the open stretches of one day, as minutes `[from, to, from, to, …]`, sorted, apart from each other.
 * Each distinct pattern gets a number, and what two patterns give together is worked out once and remembered:
 * ten years of days are then a few table look-ups each.
 */

/** Sorted, disjoint, non-touching stretches within 0..1440: `[from, to, from, to, …]`. */
type Stretches = readonly number[];

export const NEVER = 0;
export const ALL_DAY = 1;

export class Patterns {
  readonly #list: Stretches[] = [[], [0, 1440]];
  readonly #known = new Map<string, number>([
    ['', NEVER],
    ['0,1440', ALL_DAY],
  ]);
  readonly #both = new Map<number, number>();
  readonly #either = new Map<number, number>();

  /** The number of the pattern made of these windows; they may overlap and come in any order. */
  of(windows: readonly (readonly [number, number])[]): number {
    return this.#intern(union(windows.flat()));
  }

  at(pattern: number): Stretches {
    return this.#list[pattern]!;
  }

  /** Open in both. */
  both(a: number, b: number): number {
    if (a === b || b === ALL_DAY) return a;
    if (a === ALL_DAY) return b;
    if (a === NEVER || b === NEVER) return NEVER;
    return this.#remembered(this.#both, a, b, intersection);
  }

  /** Open in one of them at least. */
  either(a: number, b: number): number {
    if (a === b || b === NEVER) return a;
    if (a === NEVER) return b;
    if (a === ALL_DAY || b === ALL_DAY) return ALL_DAY;
    return this.#remembered(this.#either, a, b, (x, y) => union([...x, ...y]));
  }

  #remembered(
    table: Map<number, number>,
    a: number,
    b: number,
    combine: (x: Stretches, y: Stretches) => Stretches,
  ): number {
    const id = a < b ? a * 0x100000 + b : b * 0x100000 + a;
    let found = table.get(id);
    if (found === undefined) {
      found = this.#intern(combine(this.at(a), this.at(b)));
      table.set(id, found);
    }
    return found;
  }

  #intern(stretches: Stretches): number {
    const name = stretches.join();
    let id = this.#known.get(name);
    if (id === undefined) {
      id = this.#list.push(stretches) - 1;
      this.#known.set(name, id);
    }
    return id;
  }
}

/** Flat pairs in any order, overlapping or touching → sorted and merged. */
function union(pairs: readonly number[]): Stretches {
  const sorted: [number, number][] = [];
  for (let i = 0; i < pairs.length; i += 2) sorted.push([pairs[i]!, pairs[i + 1]!]);
  sorted.sort((a, b) => a[0] - b[0]);
  const out: number[] = [];
  for (const [from, to] of sorted) {
    const last = out.length - 1;
    if (last > 0 && from <= out[last]!) out[last] = Math.max(out[last]!, to);
    else if (from < to) out.push(from, to);
  }
  return out;
}

function intersection(a: Stretches, b: Stretches): Stretches {
  const out: number[] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length;) {
    const from = Math.max(a[i]!, b[j]!);
    const to = Math.min(a[i + 1]!, b[j + 1]!);
    if (from < to) out.push(from, to);
    if (a[i + 1]! < b[j + 1]!) i += 2;
    else j += 2;
  }
  return out;
}
