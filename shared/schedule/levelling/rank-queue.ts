/** Nodes that wait to be taken, the first in rank first. */
/** A binary heap of nodes by rank. */
export class RankQueue {
  readonly #rank: Int32Array;
  readonly #heap: number[] = [];

  constructor(rank: Int32Array) {
    this.#rank = rank;
  }

  push(v: number): void {
    const heap = this.#heap;
    let i = heap.push(v) - 1;
    for (let up = (i - 1) >> 1; i > 0 && this.#before(v, heap[up]!); i = up, up = (i - 1) >> 1)
      heap[i] = heap[up]!;
    heap[i] = v;
  }

  /** The first in rank; -1 when empty. */
  pop(): number {
    const heap = this.#heap;
    if (heap.length === 0) return -1;
    const first = heap[0]!;
    const last = heap.pop()!;
    const size = heap.length;
    if (size > 0) {
      let i = 0;
      for (let down = 1; down < size; down = 2 * i + 1) {
        if (down + 1 < size && this.#before(heap[down + 1]!, heap[down]!)) down++;
        if (!this.#before(heap[down]!, last)) break;
        heap[i] = heap[down]!;
        i = down;
      }
      heap[i] = last;
    }
    return first;
  }

  #before(a: number, b: number): boolean {
    return this.#rank[a]! < this.#rank[b]!;
  }
}
