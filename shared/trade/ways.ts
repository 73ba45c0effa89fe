/**
 * What leads to what in the plan's network. Questions about all tasks of a rule are answered for all of them in one
 * sweep (`spread`), those about one finding by a walk that is remembered. Walks are counted: a plan with thousands of
 * findings gets them without repairs rather than late.
 */
import type { CompiledGraph } from '../graph/compile.ts';
import { topologicalOrder } from '../graph/order.ts';

/** Walks before findings go without repairs. */
const MOST_WALKS = 300;

export interface Network {
  readonly graph: CompiledGraph;
  /** Topological, without the arcs that are left out; nodes in a knot that no repair undoes are not in it. */
  readonly order: Uint32Array;
  readonly inOrder: Uint8Array;
  /** 1 for arcs by which the one ends before the other starts: covers and finish-to-start links, unless left out. */
  readonly holds: Uint8Array;
}

/** @param left 1 per arc that the suggested repairs leave out */
export function networkOf(graph: CompiledGraph, left: Uint8Array): Network {
  const order = topologicalOrder(graph, left);
  const inOrder = new Uint8Array(graph.size);
  for (const v of order) inOrder[v] = 1;
  const holds = Uint8Array.from(graph.origins, (origin, arc) =>
    left[arc] === 0 && (!('stated' in origin) || origin.stated.kind === 'FS') ? 1 : 0,
  );
  return { graph, order, inOrder, holds };
}

/**
 * Marks carried along the arcs that hold: forward to all that comes after, backward to all that comes before.
 * @param marks `words` words per node, changed in place. O(arcs × words)
 */
export function spread(
  { graph, order, holds }: Network,
  marks: Uint32Array,
  words: number,
  direction: 'forward' | 'backward',
): void {
  const { offsets, targets } = graph;
  for (let i = 0; i < order.length; i++) {
    const v = order[direction === 'forward' ? i : order.length - 1 - i]!;
    for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) {
      if (holds[arc] === 0) continue;
      const w = targets[arc]!;
      const [from, to] = direction === 'forward' ? [v * words, w * words] : [w * words, v * words];
      for (let k = 0; k < words; k++) marks[to + k]! |= marks[from + k]!;
    }
  }
}

export class Ways {
  readonly #net: Network;
  readonly #held = new Map<number, Uint8Array>();
  readonly #any = new Map<number, Uint8Array>();
  #walks = 0;

  constructor(net: Network) {
    this.#net = net;
  }

  /** Does `from` end before `to` starts, whatever the dates? Null: too many questions. */
  holds(from: number, to: number): boolean | null {
    const reached = this.#from(from, this.#held, (arc) => this.#net.holds[arc] === 1);
    return reached === null ? null : reached[to] === 1;
  }

  /** Does any chain of links lead from the one to the other, also one that is left out? A link back would be a circle. */
  leads(from: number, to: number): boolean | null {
    const reached = this.#from(from, this.#any, () => true);
    return reached === null ? null : reached[to] === 1;
  }

  /** As `leads`, as if the links stated from the one to the other were not there. */
  leadsOtherwise(from: number, to: number): boolean | null {
    if (++this.#walks > MOST_WALKS) return null;
    const { graph } = this.#net;
    return (
      this.#walk(
        from,
        (arc, v) => v !== from || graph.targets[arc] !== to || !('stated' in graph.origins[arc]!),
      )[to] === 1
    );
  }

  #from(from: number, kept: Map<number, Uint8Array>, follows: (arc: number) => boolean): Uint8Array | null {
    const known = kept.get(from);
    if (known !== undefined) return known;
    if (++this.#walks > MOST_WALKS) return null;
    const reached = this.#walk(from, follows);
    kept.set(from, reached);
    return reached;
  }

  /** 1 per node that comes after; the node itself only if it lies on a circle. */
  #walk(from: number, follows: (arc: number, source: number) => boolean): Uint8Array {
    const { offsets, targets, size } = this.#net.graph;
    const reached = new Uint8Array(size);
    const waiting = [from];
    for (let v = waiting.pop(); v !== undefined; v = waiting.pop())
      for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) {
        const w = targets[arc]!;
        if (reached[w] === 1 || !follows(arc, v)) continue;
        reached[w] = 1;
        waiting.push(w);
      }
    return reached;
  }
}
