/** When a person or a single tool is taken: disjoint stretches in order, each with the task that takes it. */

export class Busy {
  readonly #starts: number[] = [];
  readonly #ends: number[] = [];
  readonly #holders: number[] = [];

  /** The stretch that overlaps `[from, to)` first; -1 if it is free. */
  conflict(from: number, to: number): number {
    const i = this.#firstEndingAfter(from);
    return i < this.#starts.length && this.#starts[i]! < to ? i : -1;
  }

  endOf(stretch: number): number {
    return this.#ends[stretch]!;
  }

  holderOf(stretch: number): number {
    return this.#holders[stretch]!;
  }

  /** @param pieces disjoint, free, in order */
  take(pieces: readonly (readonly [number, number])[], holder: number): void {
    for (const [from, to] of pieces) {
      const at = this.#firstEndingAfter(from);
      this.#starts.splice(at, 0, from);
      this.#ends.splice(at, 0, to);
      this.#holders.splice(at, 0, holder);
    }
  }

  release(holder: number): void {
    for (let i = this.#holders.length - 1; i >= 0; i--) {
      if (this.#holders[i] !== holder) continue;
      this.#starts.splice(i, 1);
      this.#ends.splice(i, 1);
      this.#holders.splice(i, 1);
    }
  }

  #firstEndingAfter(instant: number): number {
    let low = 0;
    let high = this.#ends.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#ends[middle]! <= instant) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}
