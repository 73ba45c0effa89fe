/**
 * When a person or a single tool is taken. Taking only writes down; the stretches are put in order when someone asks who
 * has it at some minute, which a search for good dates never does.
 */

export type Stretch = readonly [from: number, to: number];

export class Busy {
  #history: Stretch[] = [];
  #givenTo: number[] = [];
  /** In order: the history up to #sorted. */
  #starts: number[] = [];
  #ends: number[] = [];
  #holders: number[] = [];
  #sorted = 0;

  /** The stretches as they were taken. It only grows; once one is given back there is another list. */
  get history(): readonly Stretch[] {
    return this.#history;
  }

  /** The stretch that covers that minute; -1 if it is free. */
  at(minute: number): number {
    this.#sort();
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
      this.#history.push(piece);
      this.#givenTo.push(holder);
    }
  }

  release(holder: number): void {
    const kept = this.#history.map((_, i) => i).filter((i) => this.#givenTo[i] !== holder);
    const history = kept.map((i) => this.#history[i]!);
    const givenTo = kept.map((i) => this.#givenTo[i]!);
    this.clear();
    this.#history = history;
    this.#givenTo = givenTo;
  }

  clear(): void {
    this.#history = [];
    this.#givenTo = [];
    this.#starts = [];
    this.#ends = [];
    this.#holders = [];
    this.#sorted = 0;
  }

  #sort(): void {
    for (; this.#sorted < this.#history.length; this.#sorted++) {
      const [from, to] = this.#history[this.#sorted]!;
      const at = this.#firstEndingAfter(from);
      this.#starts.splice(at, 0, from);
      this.#ends.splice(at, 0, to);
      this.#holders.splice(at, 0, this.#givenTo[this.#sorted]!);
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
