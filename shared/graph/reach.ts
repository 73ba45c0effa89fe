/**
 * Which nodes can be reached from which, by bit sets in blocks of columns: how many tasks follow each task, and which
 * links others already imply. O(nodes × arcs / 32), memory one block.
 */
import type { Digraph } from './compile.ts';

/** Columns per block: 128 words of 32 nodes. */
const WORDS = 128;
const COLUMNS = WORDS * 32;

/** For each block of columns: `reach` holds, per node, the bits of the nodes of the block that follow it. */
function eachBlock(
  graph: Digraph,
  order: Uint32Array,
  follows: (arc: number) => boolean,
  visit: (firstColumn: number, reach: Uint32Array) => void,
): void {
  const reach = new Uint32Array(graph.size * WORDS);
  for (let first = 0; first < graph.size; first += COLUMNS) {
    reach.fill(0);
    for (let i = order.length - 1; i >= 0; i--) {
      const v = order[i]!;
      const row = v * WORDS;
      for (let arc = graph.offsets[v]!; arc < graph.offsets[v + 1]!; arc++) {
        if (!follows(arc)) continue;
        const w = graph.targets[arc]!;
        const from = w * WORDS;
        for (let k = 0; k < WORDS; k++) reach[row + k]! |= reach[from + k]!;
        const column = w - first;
        if (column >= 0 && column < COLUMNS) reach[row + (column >> 5)]! |= 1 << (column & 31);
      }
    }
    visit(first, reach);
  }
}

/** Per node: how many of the first `taskCount` nodes come after it. @param order topological, of every node counted */
export function successorCounts(graph: Digraph, order: Uint32Array, taskCount: number): Uint32Array {
  const counts = new Uint32Array(graph.size);
  eachBlock(
    graph,
    order,
    () => true,
    (first, reach) => {
      const words = Math.min(WORDS, Math.max(0, Math.ceil((taskCount - first) / 32)));
      const lastBits = taskCount - first - (words - 1) * 32;
      for (let v = 0; v < graph.size; v++)
        for (let k = 0; k < words; k++) {
          const word = reach[v * WORDS + k]!;
          counts[v]! += ones(k === words - 1 && lastBits < 32 ? word & ((1 << lastBits) - 1) : word);
        }
    },
  );
  return counts;
}

/**
 * The arcs that other arcs already imply, among those `follows` counts as "the one ends before the other starts".
 * @returns per arc of the graph, 1 where some other way of such arcs leads to its target
 */
export function impliedArcs(
  graph: Digraph,
  order: Uint32Array,
  follows: (arc: number) => boolean,
): Uint8Array {
  const implied = new Uint8Array(graph.targets.length);
  const place = new Uint32Array(graph.size);
  order.forEach((v, i) => (place[v] = i));
  // Nearest target first: whatever leads to a target stands before it in the order.
  const sorted = Array.from({ length: graph.size }, (_, v) => {
    const arcs: number[] = [];
    for (let arc = graph.offsets[v]!; arc < graph.offsets[v + 1]!; arc++) if (follows(arc)) arcs.push(arc);
    return arcs.sort((a, b) => place[graph.targets[a]!]! - place[graph.targets[b]!]! || a - b);
  });
  const seen = new Uint32Array(WORDS);
  eachBlock(graph, order, follows, (first, reach) => {
    for (const v of order) {
      const arcs = sorted[v]!;
      if (arcs.length < 2) continue;
      seen.fill(0);
      for (const arc of arcs) {
        const w = graph.targets[arc]!;
        const column = w - first;
        if (column >= 0 && column < COLUMNS) {
          const bit = 1 << (column & 31);
          if ((seen[column >> 5]! & bit) !== 0) implied[arc] = 1;
          seen[column >> 5]! |= bit;
        }
        for (let k = 0; k < WORDS; k++) seen[k]! |= reach[w * WORDS + k]!;
      }
    }
  });
  return implied;
}

function ones(word: number): number {
  let x = word - ((word >>> 1) & 0x5555_5555);
  x = (x & 0x3333_3333) + ((x >>> 2) & 0x3333_3333);
  return (((x + (x >>> 4)) & 0x0f0f_0f0f) * 0x0101_0101) >>> 24;
}
