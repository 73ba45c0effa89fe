/**
 * The smallest set of arcs to leave out so that a knot comes undone, among those that may be left out. Every such set
 * has an arc on every cycle, so trying the arcs of one cycle after another misses none (the last of them in one linear
 * sweep). Sets of one and two are found exactly in any knot, larger ones while few arcs come into question; beyond
 * that, greedily. (The general problem, minimum feedback arc set, is NP-hard: R. M. Karp, 1972.)
 */
import type { Digraph } from './compile.ts';
import { knots } from './components.ts';
import { arcSources, feedbackArcs } from './feedback-arcs.ts';
import { isAcyclic } from './order.ts';
import { shortestPath } from './shortest-path.ts';

/** Exact search beyond pairs while no more arcs than these may be left out. */
const EXACT_UP_TO = 20;
/** How many arcs are tried when a short cycle is looked for. */
const CYCLES_TRIED = 24;

export interface RepairSet {
  readonly arcs: readonly number[];
  /** No smaller set would do, and none of the same size is preferred. */
  readonly exact: boolean;
}

/**
 * @param dread per arc: what leaving it out costs in preference; Infinity where it may not be left out. Of several
 *   smallest sets the one with the least sum wins, then the one whose arcs come first.
 * @returns null if some cycle has no arc that may be left out
 */
export function smallestRepair(graph: Digraph, dread: Float64Array): RepairSet | null {
  const search = new Search(graph, dread);
  if (!search.possible()) return null;
  const few = dread.filter((value) => value < Infinity).length <= EXACT_UP_TO;
  for (let size = 1; size <= (few ? EXACT_UP_TO : 2); size++) {
    const found = search.best(size);
    if (found !== null) return { arcs: found, exact: true };
  }
  return { arcs: search.greedy(), exact: false };
}

class Search {
  readonly #graph: Digraph;
  readonly #dread: Float64Array;
  readonly #sources: Int32Array;
  readonly #left: Uint8Array;
  #found: { arcs: number[]; dread: number } | null = null;
  #tried = new Set<string>();

  constructor(graph: Digraph, dread: Float64Array) {
    this.#graph = graph;
    this.#dread = dread;
    this.#sources = arcSources(graph);
    this.#left = new Uint8Array(graph.targets.length);
  }

  /** Without every arc that may go, is there an order? */
  possible(): boolean {
    return isAcyclic(
      this.#graph,
      Uint8Array.from(this.#dread, (value) => (value < Infinity ? 1 : 0)),
    );
  }

  /** The best set of just this size, or null. */
  best(size: number): number[] | null {
    this.#found = null;
    this.#tried.clear();
    this.#branch(size, []);
    return this.#found === null ? null : (this.#found as { arcs: number[] }).arcs;
  }

  #branch(size: number, chosen: number[]): void {
    const cycle = this.#shortCycle();
    if (cycle === null) return;
    if (size === 1) {
      const ends = feedbackArcs(this.#graph, cycle, this.#sources, this.#left);
      cycle.forEach((arc, i) => {
        if (ends[i] === true && this.#dread[arc]! < Infinity) this.#offer([...chosen, arc]);
      });
      return;
    }
    for (const arc of cycle) {
      if (this.#dread[arc] === Infinity) continue;
      const next = [...chosen, arc];
      const name = next.toSorted((a, b) => a - b).join();
      if (this.#tried.has(name)) continue;
      this.#tried.add(name);
      this.#left[arc] = 1;
      this.#branch(size - 1, next);
      this.#left[arc] = 0;
    }
  }

  #offer(chosen: number[]): void {
    const arcs = chosen.sort((a, b) => a - b);
    const dread = arcs.reduce((sum, arc) => sum + this.#dread[arc]!, 0);
    const found = this.#found;
    if (found === null || dread < found.dread || (dread === found.dread && before(arcs, found.arcs)))
      this.#found = { arcs, dread };
  }

  /** Takes, on one cycle after another, the arc that unties most; then puts back what was not needed. */
  greedy(): number[] {
    const chosen: number[] = [];
    for (let cycle = this.#shortCycle(); cycle !== null; cycle = this.#shortCycle()) {
      let best = -1;
      let bestKnotted = Infinity;
      for (const arc of this.#byDread(cycle).slice(0, CYCLES_TRIED)) {
        this.#left[arc] = 1;
        const knotted = knots(this.#graph, this.#left).reduce((sum, knot) => sum + knot.length, 0);
        this.#left[arc] = 0;
        if (knotted < bestKnotted) [best, bestKnotted] = [arc, knotted];
      }
      this.#left[best] = 1;
      chosen.push(best);
    }
    const needed = chosen.filter((arc) => {
      this.#left[arc] = 0;
      if (isAcyclic(this.#graph, this.#left)) return false;
      this.#left[arc] = 1;
      return true;
    });
    this.#left.fill(0);
    return needed.sort((a, b) => a - b);
  }

  /** A short cycle of what is left, as arcs; null if there is none. */
  #shortCycle(): number[] | null {
    const [knot] = knots(this.#graph, this.#left);
    if (knot === undefined) return null;
    const within = new Uint8Array(this.#graph.size);
    for (const node of knot) within[node] = 1;
    const inside: number[] = [];
    for (const v of knot)
      for (let arc = this.#graph.offsets[v]!; arc < this.#graph.offsets[v + 1]!; arc++)
        if (this.#left[arc] === 0 && within[this.#graph.targets[arc]!] === 1) inside.push(arc);
    let shortest: number[] | null = null;
    for (const arc of this.#byDread(inside).slice(0, CYCLES_TRIED)) {
      const [from, to] = [this.#graph.targets[arc]!, this.#sources[arc]!];
      const way = shortestPath(this.#graph, this.#graph.size, from, to, this.#left, within);
      if (way !== null && (shortest === null || way.length + 1 < shortest.length)) shortest = [arc, ...way];
      if (shortest !== null && shortest.length === 2) break;
    }
    return shortest;
  }

  /** Those that may be left out, the least dreaded first. */
  #byDread(arcs: readonly number[]): number[] {
    return arcs
      .filter((arc) => this.#dread[arc]! < Infinity)
      .sort((a, b) => this.#dread[a]! - this.#dread[b]! || a - b);
  }
}

function before(a: readonly number[], b: readonly number[]): boolean {
  const i = a.findIndex((value, index) => value !== b[index]);
  return i >= 0 && a[i]! < b[i]!;
}
