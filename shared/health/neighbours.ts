/**
 * What comes right before and after a task, by stated links and by the cover rule; gates are looked through. Finished
 * tasks count: a task that followed one is linked, whatever has become of it.
 */
import { nodeId, type NodeLabel, type Origin, type TaskGraph } from '../graph/task-graph.ts';

interface Edge {
  readonly v: string;
  readonly w: string;
}

export class Neighbours {
  readonly #graph: TaskGraph['graph'];
  /** Gates, by node, that have a task before or after them, however many gates between. */
  readonly #fed = new Set<string>();
  readonly #feeding = new Set<string>();

  constructor({ graph }: TaskGraph) {
    this.#graph = graph;
    const gates = graph.nodes().filter((node) => !isTask(graph.node(node)));
    // The gates of a zone were added from the metal up, each leading to the next.
    for (const gate of gates)
      if (this.#into(gate).some(({ v }) => isTask(graph.node(v)) || this.#fed.has(v))) this.#fed.add(gate);
    for (const gate of gates.toReversed())
      if (this.#outOf(gate).some(({ w }) => isTask(graph.node(w)) || this.#feeding.has(w)))
        this.#feeding.add(gate);
  }

  /** Does something drive its start? A link to its finish alone leaves the start dangling (GAO-16-89G). */
  startIsLinked(task: string): boolean {
    return this.#into(nodeId(task)).some(
      (edge) => this.#endsAt(edge, 'S') && (isTask(this.#graph.node(edge.v)) || this.#fed.has(edge.v)),
    );
  }

  /** Does its finish drive something? */
  finishIsLinked(task: string): boolean {
    return this.#outOf(nodeId(task)).some(
      (edge) => this.#beginsAt(edge, 'F') && (isTask(this.#graph.node(edge.w)) || this.#feeding.has(edge.w)),
    );
  }

  /** The tasks right before it that `counts`, at most so many: gates lead to all the work behind them. */
  before(task: string, counts: (key: string) => boolean, most: number): Set<string> {
    const found = new Set<string>();
    const open = [nodeId(task)];
    const seen = new Set(open);
    while (open.length > 0 && found.size < most) {
      for (const { v } of this.#into(open.pop()!)) {
        if (seen.has(v)) continue;
        seen.add(v);
        const label = this.#graph.node(v)!;
        if (!('task' in label)) open.push(v);
        else if (counts(label.task)) found.add(label.task);
      }
    }
    return found;
  }

  #endsAt(edge: Edge, end: 'S' | 'F'): boolean {
    return kindOf(this.#graph.edge(edge)!)[1] === end;
  }

  #beginsAt(edge: Edge, end: 'S' | 'F'): boolean {
    return kindOf(this.#graph.edge(edge)!)[0] === end;
  }

  #into(node: string): readonly Edge[] {
    return this.#graph.inEdges(node) ?? [];
  }

  #outOf(node: string): readonly Edge[] {
    return this.#graph.outEdges(node) ?? [];
  }
}

function isTask(label: NodeLabel | undefined): boolean {
  return label !== undefined && 'task' in label;
}

/** A cover comes after the whole of what it hides. */
function kindOf(origin: Origin): string {
  return 'stated' in origin ? origin.stated.kind : 'FS';
}
