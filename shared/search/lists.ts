/** What is done to lists: sorted by a schedule, crossed, shaken. Each keeps every arc if what it was given does. */
import type { Digraph } from '../graph/compile.ts';
import type { Random } from './random.ts';

/** Sorts by key, the least first; alike stay as they were. O(size + pairs out of order): lists are nearly sorted. */
export function sortByRising(list: Int32Array, key: Int32Array): void {
  for (let i = 1; i < list.length; i++) {
    const v = list[i]!;
    const own = key[v]!;
    let j = i - 1;
    for (; j >= 0 && key[list[j]!]! > own; j--) list[j + 1] = list[j]!;
    list[j + 1] = v;
  }
}

/** The greatest first. */
export function sortByFalling(list: Int32Array, key: Int32Array): void {
  for (let i = 1; i < list.length; i++) {
    const v = list[i]!;
    const own = key[v]!;
    let j = i - 1;
    for (; j >= 0 && key[list[j]!]! < own; j--) list[j + 1] = list[j]!;
    list[j + 1] = v;
  }
}

export function areAlike(a: Int32Array, b: Int32Array): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** Moves on lists of one length, with the memory they need. */
export class ListMoves {
  readonly #random: Random;
  readonly #taken: Uint8Array;
  readonly #place: Float64Array;

  constructor(size: number, random: Random) {
    this.#random = random;
    this.#taken = new Uint8Array(size);
    this.#place = new Float64Array(size);
  }

  /**
   * The two-point crossover: the first list but for a stretch of a quarter to three quarters, where what is left comes in
   * the order of the second (S. Hartmann, "A competitive genetic algorithm for resource-constrained project scheduling",
   * Naval Research Logistics 45, 1998).
   */
  cross(child: Int32Array, outer: Int32Array, inner: Int32Array): void {
    const size = child.length;
    const taken = this.#taken.fill(0);
    const stretch = (size >> 2) + this.#random((size >> 1) + 1);
    const from = this.#random(size - stretch + 1);
    let place = 0;
    for (; place < from; place++) taken[(child[place] = outer[place]!)] = 1;
    for (let i = 0; place < from + stretch; i++) {
      const v = inner[i]!;
      if (taken[v] === 1) continue;
      taken[v] = 1;
      child[place++] = v;
    }
    for (let i = from; place < size; i++) {
      const v = outer[i]!;
      if (taken[v] === 0) child[place++] = v;
    }
  }

  /**
   * Each activity of a stretch falls back by up to `reach` places, none behind what has to follow it.
   * @param before the arcs turned round, seen along the list
   */
  shake(list: Int32Array, before: Digraph, reach: number, stretch = list.length): void {
    const { offsets, targets } = before;
    const place = this.#place;
    const from = stretch < list.length ? this.#random(list.length - stretch + 1) : 0;
    const to = Math.min(from + stretch, list.length);
    // Only what stands in the stretch can be before something in it and yet fall behind it.
    for (let i = 0; i < from; i++) place[list[i]!] = -1;
    for (let i = from; i < to; i++) {
      const v = list[i]!;
      let own = i + (this.#random(FINE) / FINE) * reach;
      for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++)
        if (place[targets[arc]!]! > own) own = place[targets[arc]!]!;
      place[v] = own;
    }
    for (let i = from + 1; i < to; i++) {
      const v = list[i]!;
      let j = i - 1;
      for (; j >= from && place[list[j]!]! > place[v]!; j--) list[j + 1] = list[j]!;
      list[j + 1] = v;
    }
  }
}

const FINE = 1 << 20;
