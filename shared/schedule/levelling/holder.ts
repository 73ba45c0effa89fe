/**
 * Which task before another sets the bound it was placed under. Of several that set the same one, the first by key, a
 * stated link before a cover; so the order of records never shows.
 */
import { LINK_KINDS, type Link, type LinkKind } from '../../contract/task.ts';
import type { CompiledGraph } from '../../graph/compile.ts';
import { keyOf, nodeId, type Origin, type TaskGraph } from '../../graph/task-graph.ts';
import type { Basis } from '../basis.ts';
import { boundOfFinished, readyOfFinished } from '../build-network.ts';
import type { Dates } from '../forward.ts';
import { arcBound, incomingOf, type Incoming } from '../incoming.ts';
import { FF, kindOf, SF, type Network } from '../network.ts';

export interface Holder {
  /** The key of the task. */
  readonly task: string;
  /** Finished, and only what comes after its finish still holds. */
  readonly finished: boolean;
  readonly by: 'cover' | 'link';
  readonly kind: LinkKind;
  /** Bound by its finish, with its wait; not by a link of another kind or a lag. */
  readonly plain: boolean;
  /** Why the builder linked them; empty for a cover. */
  readonly reason: string;
}

export class Holders {
  readonly #basis: Basis;
  readonly #drawn: TaskGraph['graph'];
  readonly #graph: CompiledGraph;
  readonly #net: Network;
  readonly #dates: Dates;
  readonly #incoming: Incoming;

  constructor(basis: Basis, drawn: TaskGraph, graph: CompiledGraph, net: Network, dates: Dates) {
    this.#basis = basis;
    this.#drawn = drawn.graph;
    this.#graph = graph;
    this.#net = net;
    this.#dates = dates;
    this.#incoming = incomingOf(net);
  }

  /**
   * @param bound on the start of node `v`, or with `onFinish` on its finish
   * @returns null when no task sets it
   */
  of(v: number, bound: number, onFinish: boolean): Holder | null {
    const found = [...this.#unfinished(v, bound, onFinish), ...this.#finished(v, bound, onFinish)];
    return found.sort(byTask)[0] ?? null;
  }

  #unfinished(v: number, bound: number, onFinish: boolean): Holder[] {
    const { taskCount } = this.#net;
    const { arcs, sources } = this.#incoming;
    return arcs[v]!.flatMap((arc) => {
      const u = sources[arc]!;
      const kind = kindOf(this.#net.codes[arc]!);
      if ((kind === FF || kind === SF) !== onFinish) return [];
      if (arcBound(this.#net, this.#basis.calendar.sets, this.#dates, u, arc) !== bound) return [];
      if (u >= taskCount) return this.#behindGate(u, bound).map((task) => coverBy(task, false));
      const task = this.#graph.ids[u]!;
      const plain = kind === 0 && this.#dates.ready[u] === bound;
      const stated = this.#stated(task, v, LINK_KINDS[kind]!);
      return [stated === null ? coverBy(task, false) : linkBy(task, false, plain, stated)];
    });
  }

  /** The stated link of that kind; null when there is none and the arc is a cover. */
  #stated(from: string, v: number, kind: LinkKind): Link | null {
    const origin = this.#drawn.edge(nodeId(from), nodeId(this.#graph.ids[v]!), kind);
    return origin !== undefined && 'stated' in origin ? origin.stated : null;
  }

  /** The tasks, behind however many gates, whose wait ends at that instant. */
  #behindGate(gate: number, bound: number): string[] {
    const { arcs, sources } = this.#incoming;
    const seen = new Set([gate]);
    for (const w of seen)
      for (const arc of arcs[w]!) {
        const u = sources[arc]!;
        if (this.#dates.ready[u] === bound && (u < this.#net.taskCount || w >= this.#net.taskCount))
          seen.add(u);
      }
    return [...seen].filter((u) => u < this.#net.taskCount).map((u) => this.#graph.ids[u]!);
  }

  /** Finished tasks just before it, or behind gates: they are no nodes, their dates are bounds. */
  #finished(v: number, bound: number, onFinish: boolean): Holder[] {
    const found: Holder[] = [];
    const seen = new Set([v]);
    for (const w of seen)
      for (const edge of this.#drawn.inEdges(nodeId(this.#graph.ids[w]!)) ?? []) {
        const key = keyOf(edge.v);
        const u = this.#graph.indexOf.get(key);
        if (u !== undefined && u >= this.#net.taskCount) seen.add(u);
        const task = this.#basis.taskOf.get(key);
        if (u !== undefined || task?.state !== 'finished') continue;
        const origin = this.#drawn.edge(edge)!;
        const set = boundOfFinished(this.#basis, this.#net, task, w, origin);
        if (set.bound !== bound || set.onFinish !== onFinish) continue;
        found.push(holderOf(key, origin, readyOfFinished(this.#basis, task) === bound));
      }
    return found;
  }
}

function holderOf(task: string, origin: Origin, endsThen: boolean): Holder {
  if (!('stated' in origin)) return coverBy(task, true);
  return linkBy(task, true, origin.stated.kind === 'FS' && endsThen, origin.stated);
}

function coverBy(task: string, finished: boolean): Holder {
  return { task, finished, by: 'cover', kind: 'FS', plain: true, reason: '' };
}

function linkBy(task: string, finished: boolean, plain: boolean, { kind, reason }: Link): Holder {
  return { task, finished, by: 'link', kind, plain, reason: reason.trim() };
}

function byTask(a: Holder, b: Holder): number {
  if (a.task !== b.task) return a.task < b.task ? -1 : 1;
  return a.by === b.by ? 0 : a.by === 'link' ? -1 : 1;
}
