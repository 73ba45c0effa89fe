/** How many tasks are in a zone or group of zones over time, as steps, against how many fit. */

export class Room {
  /** How many tasks fit in at once. */
  readonly capacity: number;
  /** Step i holds from times[i] to times[i + 1]; before the first step the room is empty. */
  readonly #times: number[] = [];
  readonly #counts: number[] = [];
  readonly #inside: { readonly holder: number; readonly from: number; readonly to: number }[] = [];

  constructor(capacity: number) {
    this.capacity = capacity;
  }

  /** The instant from which there is room again after the first moment of `[from, to)` without; -1 if it all fits. */
  fullUntil(from: number, to: number): number {
    let i = Math.max(0, this.#stepAt(from));
    while (i < this.#times.length && this.#times[i]! < to) {
      if (this.#counts[i]! >= this.capacity && this.#endOf(i) > from) {
        while (this.#counts[i]! >= this.capacity) i++;
        return this.#times[i]!;
      }
      i++;
    }
    return -1;
  }

  /** The instant up to which there is room before the last moment of `[from, to)` without; -1 if it all fits. */
  fullSince(from: number, to: number): number {
    for (let i = this.#stepAt(to - 1); i >= 0 && this.#endOf(i) > from; i--) {
      if (this.#counts[i]! < this.capacity) continue;
      while (i > 0 && this.#counts[i - 1]! >= this.capacity) i--;
      return this.#times[i]!;
    }
    return -1;
  }

  /** One of those that leave at that instant. */
  leavingAt(instant: number): number {
    const found = this.#inside.filter(({ to }) => to === instant).map(({ holder }) => holder);
    return found.length === 0 ? -1 : found.reduce((a, b) => Math.min(a, b));
  }

  clear(): void {
    this.#times.length = 0;
    this.#counts.length = 0;
    this.#inside.length = 0;
  }

  enter(from: number, to: number, holder: number): void {
    if (from >= to) return;
    this.#inside.push({ holder, from, to });
    this.#add(from, to, 1);
  }

  leave(holder: number): void {
    for (let i = this.#inside.length - 1; i >= 0; i--) {
      const { holder: one, from, to } = this.#inside[i]!;
      if (one !== holder) continue;
      this.#inside.splice(i, 1);
      this.#add(from, to, -1);
    }
  }

  #add(from: number, to: number, by: number): void {
    const first = this.#split(from);
    const end = this.#split(to);
    for (let i = first; i < end; i++) this.#counts[i]! += by;
  }

  /** The step that begins at that instant, cut where there is none. */
  #split(instant: number): number {
    const before = this.#stepAt(instant);
    if (before >= 0 && this.#times[before] === instant) return before;
    this.#times.splice(before + 1, 0, instant);
    this.#counts.splice(before + 1, 0, before < 0 ? 0 : this.#counts[before]!);
    return before + 1;
  }

  /** The last step that begins at or before the instant; -1 before the first. */
  #stepAt(instant: number): number {
    let low = 0;
    let high = this.#times.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#times[middle]! <= instant) low = middle + 1;
      else high = middle;
    }
    return low - 1;
  }

  #endOf(step: number): number {
    return this.#times[step + 1] ?? Infinity;
  }
}
