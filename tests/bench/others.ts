/** What others take for the same dates: a graph library's own order and two passes, and a linear program. */
import { alg, Graph } from '@dagrejs/graphlib';
import type { Digraph } from '#shared/graph/compile.ts';
import { forward } from '#shared/schedule/forward.ts';
import { earliestProgram, loadSolver } from '../support/linear-program.ts';
import { bothPasses, makeCase, same, turns } from './kernel.ts';
import { alternate, median, ratio } from './measure.ts';
import { seeded } from './networks.ts';
import { atLeast, digits, printTable, times } from './table.ts';

/** A graph library and a linear program on the same 1,000 tasks. */
export async function benchOthers(): Promise<void> {
  const size = 1000;
  const cases = Array.from({ length: 4 }, (_, i) => makeCase(size, [], seeded(i + 1)));
  const graphs = cases.map(({ graph, net }) => libraryGraph(graph, net.minutes));
  cases.forEach(({ net }, i) => {
    const { early, late } = bothPasses(net, []);
    libraryPasses(graphs[i]!);
    for (let v = 0; v < size; v++) {
      const { start, latest } = graphs[i]!.node(String(v))!;
      same(start, early.start[v]!, 'the graph library');
      same(latest, late.start[v]!, 'the graph library');
    }
  });
  const next = turns(cases.length);
  const taken = alternate({
    ours: () => bothPasses(cases[next('ours')]!.net, []).end,
    library: () => libraryPasses(graphs[next('library')]!),
  });
  const faster = ratio(taken.library, taken.ours);

  const { graph, net } = cases[0]!;
  const solve = await loadSolver();
  const text = earliestProgram(asProject(graph, net.minutes));
  const { start } = forward(net, []);
  // The best of three: the first still compiles the solver.
  const solved = [0, 1, 2].map(() => {
    const from = performance.now();
    const starts = solve(text, size);
    const took = performance.now() - from;
    for (let v = 0; v < size; v++) same(starts[v]!, start[v]!, 'the linear program');
    return took;
  });
  const program = Math.min(...solved);
  const ours = median(taken.ours);
  printTable(
    'Others on the same 1,000 tasks, their dates the same',
    ['', 'ms', 'ours ms', 'ours is faster', 'aim'],
    [
      [
        'graph library: topsort and two passes',
        digits(median(taken.library)),
        digits(ours),
        times(faster),
        atLeast(20, faster),
      ],
      [
        'linear program, earliest dates, proven optimal',
        digits(program),
        digits(ours),
        times(program / ours),
        atLeast(1000, program / ours),
      ],
    ],
  );
}

// Helpers

type Library = Graph<string, Label, string>;

interface Label {
  readonly minutes: number;
  start: number;
  latest: number;
}

function libraryGraph({ size, offsets, targets }: Digraph, minutes: Int32Array): Library {
  const graph = new Graph<string, Label, string>({ directed: true });
  for (let v = 0; v < size; v++) graph.setNode(String(v), { minutes: minutes[v]!, start: 0, latest: 0 });
  for (let v = 0; v < size; v++)
    for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) graph.setEdge(String(v), String(targets[arc]!));
  return graph;
}

/** The library's own order, then the passes over its nodes and neighbours. */
function libraryPasses(graph: Library): number {
  const order = alg.topsort(graph as unknown as Graph);
  let end = 0;
  for (const id of order) {
    const label = graph.node(id)!;
    let start = 0;
    for (const before of graph.predecessors(id) ?? []) {
      const { start: from, minutes } = graph.node(before)!;
      if (from + minutes > start) start = from + minutes;
    }
    label.start = start;
    if (start + label.minutes > end) end = start + label.minutes;
  }
  for (let i = order.length - 1; i >= 0; i--) {
    const label = graph.node(order[i]!)!;
    let finish = end;
    for (const after of graph.successors(order[i]!) ?? []) {
      const { latest } = graph.node(after)!;
      if (latest < finish) finish = latest;
    }
    label.latest = finish - label.minutes;
  }
  return end;
}

function asProject({ size, offsets, targets }: Digraph, minutes: Int32Array) {
  const ties: { from: number; to: number; kind: 'FS'; lag: number }[] = [];
  for (let v = 0; v < size; v++)
    for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++)
      ties.push({ from: v, to: targets[arc]!, kind: 'FS', lag: 0 });
  return { activities: Array.from(minutes, (one) => ({ minutes: one, wait: 0 })), ties };
}
