/** The part of a graph between some of its nodes, with its own numbering and the way back. */
import type { Digraph } from './compile.ts';

export interface Subgraph extends Digraph {
  /** The node of the whole graph behind each node. */
  readonly nodes: Int32Array;
  /** The arc of the whole graph behind each arc. */
  readonly arcs: Int32Array;
}

/** @param nodes rising. @param left 1 per arc of the whole graph that is left out */
export function subgraph(graph: Digraph, nodes: Int32Array, left: Uint8Array): Subgraph {
  const own = new Map<number, number>();
  nodes.forEach((node, i) => own.set(node, i));
  const offsets = new Int32Array(nodes.length + 1);
  const targets: number[] = [];
  const arcs: number[] = [];
  nodes.forEach((node, i) => {
    for (let arc = graph.offsets[node]!; arc < graph.offsets[node + 1]!; arc++) {
      const target = left[arc] === 0 ? own.get(graph.targets[arc]!) : undefined;
      if (target === undefined) continue;
      targets.push(target);
      arcs.push(arc);
    }
    offsets[i + 1] = targets.length;
  });
  return {
    size: nodes.length,
    offsets,
    targets: Int32Array.from(targets),
    nodes,
    arcs: Int32Array.from(arcs),
  };
}
