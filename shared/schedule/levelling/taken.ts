/**
 * What a team's working set has left: the stretches that its people and tools are taken, counted in the worked minutes
 * of the set. There a run is one interval, whatever windows lie in it, and evenings filled to the brim are one stretch;
 * so the first place that holds a run is a scan over a short list of gaps.
 */
import { firstStartIndex, lastStartIndex, workedBefore, type WorkingSet } from '../../time/working-set.ts';
import type { Busy, Stretch } from './busy.ts';

export class Taken {
  readonly #set: WorkingSet;
  readonly #sources: readonly Busy[];
  /** Per source: the history read, and how much of it. */
  #histories: (readonly Stretch[])[] = [];
  #read: number[] = [];
  /** Worked minutes: disjoint stretches in order, none touching the next. */
  #from: number[] = [];
  #to: number[] = [];

  /** @param sources the people of the team and the tools they use */
  constructor(set: WorkingSet, sources: readonly Busy[]) {
    this.#set = set;
    this.#sources = sources;
  }

  /**
   * The first worked minute, not before number `index`, from which `minutes` are free and `sitting` are left.
   * @returns its number; -1 if there is none. `last` is the worked minute in the way of any start before it, -1 if
   *   the first start allowed at all is free
   */
  firstFree(index: number, minutes: number, sitting: number): { index: number; last: number } {
    this.#catchUp();
    const set = this.#set;
    const from = this.#from;
    const to = this.#to;
    const first = firstStartIndex(set, index, minutes, sitting);
    let at = first;
    let j = this.#firstEndingAfter(at);
    while (at >= 0 && j < from.length && from[j]! < at + minutes) {
      // On to the first gap that is long enough, then to the first start in or after it.
      while (j + 1 < from.length && from[j + 1]! - to[j]! < minutes) j++;
      at = firstStartIndex(set, to[j]!, minutes, sitting);
      while (j < to.length && to[j]! <= at) j++;
    }
    if (at < 0) return { index: -1, last: -1 };
    return { index: at, last: at === first ? -1 : this.#lastInTheWay(j - 1, at, minutes, sitting) };
  }

  /**
   * The last worked minute, up to number `index`, from which `minutes` are free and `sitting` are left.
   * @returns its number; -1 if there is none
   */
  lastFree(index: number, minutes: number, sitting: number): number {
    this.#catchUp();
    const from = this.#from;
    let at = lastStartIndex(this.#set, index, sitting);
    let j = this.#firstEndingAfter(at + minutes - 1);
    if (j === from.length || from[j]! >= at + minutes) j--;
    while (at >= 0 && j >= 0 && this.#to[j]! > at) {
      at = lastStartIndex(this.#set, from[j]! - minutes, sitting);
      while (j >= 0 && from[j]! >= at + minutes) j--;
    }
    return at;
  }

  /** Back over those that a start too late in its sitting has passed anyway. */
  #lastInTheWay(before: number, at: number, minutes: number, sitting: number): number {
    let j = before;
    while (j > 0 && firstStartIndex(this.#set, this.#to[j - 1]!, minutes, sitting) === at) j--;
    return this.#to[j]! - 1;
  }

  #catchUp(): void {
    if (this.#sources.some((source, i) => source.history !== this.#histories[i])) {
      this.#histories = this.#sources.map((source) => source.history);
      this.#read = this.#sources.map(() => 0);
      this.#from = [];
      this.#to = [];
    }
    for (let i = 0; i < this.#histories.length; i++) {
      const history = this.#histories[i]!;
      this.#addAll(history, this.#read[i]!);
      this.#read[i] = history.length;
    }
  }

  /** The evenings of one task mostly touch once they are counted in worked minutes: they go in as one. */
  #addAll(history: readonly Stretch[], first: number): void {
    let from = 0;
    let to = 0;
    for (let k = first; k < history.length; k++) {
      const [start, end] = history[k]!;
      const next = workedBefore(this.#set, start);
      const last = workedBefore(this.#set, end);
      if (next === last) continue;
      if (next === to) to = last;
      else {
        if (from < to) this.#add(from, to);
        from = next;
        to = last;
      }
    }
    if (from < to) this.#add(from, to);
  }

  #add(from: number, to: number): void {
    // Those it overlaps or touches become one with it.
    const first = this.#firstEndingAfter(from - 1);
    let last = first;
    while (last < this.#from.length && this.#from[last]! <= to) last++;
    if (first === last) {
      this.#from.splice(first, 0, from);
      this.#to.splice(first, 0, to);
      return;
    }
    this.#from[first] = Math.min(from, this.#from[first]!);
    this.#to[first] = Math.max(to, this.#to[last - 1]!);
    if (last - first > 1) {
      this.#from.splice(first + 1, last - first - 1);
      this.#to.splice(first + 1, last - first - 1);
    }
  }

  #firstEndingAfter(index: number): number {
    let low = 0;
    let high = this.#to.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#to[middle]! <= index) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}
