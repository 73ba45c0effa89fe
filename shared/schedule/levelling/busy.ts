/** When a person or a single tool is taken: disjoint stretches in order, each with the task that takes it. */

export type Stretch = readonly [from: number, to: number];

export class Busy {
  readonly #starts: number[] = [];
  readonly #ends: number[] = [];
  readonly #holders: number[] = [];
  #history: Stretch[] = [];

  /** The stretches in the order they were taken. It only grows; once one is given back there is another list. */
  get history(): readonly Stretch[] {
    return this.#history;
  }

  /** The stretch that covers that minute; -1 if it is free. */
  at(minute: number): number {
    const i = this.#firstEndingAfter(minute);
    return i < this.#starts.length && this.#starts[i]! <= minute ? i : -1;
  }

  endOf(stretch: number): number {
    return this.#ends[stretch]!;
  }

  holderOf(stretch: number): number {
    return this.#holders[stretch]!;
  }

  /** @param pieces disjoint, free, in order */
  take(pieces: readonly Stretch[], holder: number): void {
    for (const piece of pieces) {
      const [from, to] = piece;
      const at = this.#firstEndingAfter(from);
      this.#starts.splice(at, 0, from);
      this.#ends.splice(at, 0, to);
      this.#holders.splice(at, 0, holder);
      this.#history.push(piece);
    }
  }

  release(holder: number): void {
    for (let i = this.#holders.length - 1; i >= 0; i--) {
      if (this.#holders[i] !== holder) continue;
      this.#starts.splice(i, 1);
      this.#ends.splice(i, 1);
      this.#holders.splice(i, 1);
    }
    this.#history = this.#starts.map((from, i) => [from, this.#ends[i]!]);
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
