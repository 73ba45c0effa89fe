/** Whole plans: ten thousand tasks behind covers in fifteen zones, step by step, and the demo build as a screen asks for it. */
import { Session } from 'node:inspector/promises';
import { wagtail } from '#shared/demo/wagtail.ts';
import { compileGraph } from '#shared/graph/compile.ts';
import { topologicalOrder } from '#shared/graph/order.ts';
import { taskGraph } from '#shared/graph/task-graph.ts';
import { computePlan } from '#shared/plan.ts';
import { backward } from '#shared/schedule/backward.ts';
import { basisOf } from '#shared/schedule/basis.ts';
import { buildNetwork } from '#shared/schedule/build-network.ts';
import { draftOf } from '#shared/schedule/draft.ts';
import { forward } from '#shared/schedule/forward.ts';
import { Generator } from '#shared/schedule/levelling/generate.ts';
import { NOW } from '../support/builds.ts';
import { alternate, median } from './measure.ts';
import { seeded } from './networks.ts';
import { atMost, digits, printTable } from './table.ts';
import { coveredPairs, manyZones } from './zones.ts';

/** Dates people can keep, by size: the same kind of build, its evenings filled to the brim. */
export function benchDates(): void {
  const sizes = [1000, 10_000];
  const taken = sizes.map((size) => {
    const draft = draftOf(manyZones(size, 15, seeded(15)), NOW);
    const { basis, net, graph, list } = draft;
    const dates = () =>
      new Generator(basis, net, graph.ids).generate(list, { floor: null, explain: true }).end!;
    return median(alternate({ dates }, { samples: size > 1000 ? 7 : 21 }).dates);
  });
  const [small, large] = taken as [number, number];
  printTable(
    'Dates people can keep, four people in 15 zones',
    ['', 'ms', 'aim'],
    [
      ['1,000 tasks', digits(small), atMost(150, small, ' ms')],
      ['10,000 tasks', digits(large), atMost(3 * 10, large / small)],
    ],
  );
}

export function benchCovers(): void {
  const file = manyZones(10_000, 15, seeded(15));
  const drawn = taskGraph(file);
  const live = new Map(file.tasks.map(({ key }) => [key, true]));
  const graph = compileGraph(drawn, live);
  const from = performance.now();
  const plan = computePlan(file, { now: NOW });
  const whole = performance.now() - from;
  const placed = Object.values(plan.tasks).filter(
    ({ early, late }) => early !== null && late !== null,
  ).length;
  if (placed < file.tasks.length || plan.errors.length > 0)
    throw new Error('the large build should have dates for every task and no errors');
  const basis = basisOf(file, NOW);
  const { net } = buildNetwork(basis, drawn, graph, new Uint8Array(graph.targets.length));
  const { sets } = basis.calendar;
  const end = plan.finish.early!;
  const taken = alternate(
    {
      taskGraph: () => taskGraph(file).graph.edgeCount(),
      compileGraph: () => compileGraph(drawn, live).size,
      topologicalOrder: () => topologicalOrder(graph).length,
      passes: () => backward(net, sets, forward(net, sets), end).start[0]!,
    },
    { samples: 21 },
  );
  const covers = graph.origins.filter((origin) => 'cover' in origin).length;
  const pairs = coveredPairs(file);
  printTable(
    `${file.tasks.length.toLocaleString('en-GB')} tasks in ${file.zones.length} zones, ${file.links.length.toLocaleString('en-GB')} stated links, with covers`,
    ['', 'ms'],
    [
      ['draw the graph', digits(median(taken.taskGraph))],
      ['compile it to arrays', digits(median(taken.compileGraph))],
      ['order', digits(median(taken.topologicalOrder))],
      ['order and two passes, on calendars', digits(median(taken.passes))],
      ['the whole plan, once, dates people can keep included', digits(whole)],
    ],
  );
  // Each task into its gate, each gate into the next, each cover out of one.
  const most = file.tasks.length + (graph.size - graph.taskCount) + file.tasks.length / 20;
  printTable(
    'Covers as arcs',
    ['', 'number', 'aim'],
    [
      ['pairs the cover rule means', pairs.toLocaleString('en-GB'), ''],
      ['arcs through gates', covers.toLocaleString('en-GB'), atMost(most, covers, '')],
    ],
  );
}

/** The demo, warm, and where its time goes. */
export async function benchDemo(): Promise<void> {
  const file = wagtail();
  const plan = () => computePlan(file, { now: NOW }).order.length;
  const taken = alternate({ plan }, { samples: 301, sample: 0, warmUp: 2000 });
  const ms = median(taken.plan);
  printTable(
    `The plan of the demo, ${file.tasks.length} tasks, warm`,
    ['', 'ms', 'aim'],
    [['computePlan', digits(ms), atMost(10, ms, ' ms')]],
  );
  const parts = await partsOf(() => {
    for (let i = 0; i < 200; i++) plan();
  });
  printTable(
    'Of which',
    ['', 'ms', 'share'],
    parts.map(({ name, share }) => [name, digits(share * ms), `${(100 * share).toFixed(0)} %`]),
  );
}

// Helpers

interface Part {
  readonly name: string;
  readonly share: number;
}

/** Functions whose parts are told apart; all others count as a whole. */
const OPENED = new Set(['computePlan', 'draftOf', 'criticalOf']);

/** What `computePlan` calls, by share of its time, sampled every tenth of a millisecond. */
async function partsOf(work: () => void): Promise<Part[]> {
  const session = new Session();
  session.connect();
  await session.post('Profiler.enable');
  await session.post('Profiler.setSamplingInterval', { interval: 100 });
  await session.post('Profiler.start');
  work();
  const { profile } = await session.post('Profiler.stop');
  session.disconnect();

  const nodeOf = new Map(profile.nodes.map((node) => [node.id, node]));
  const nameOf = (id: number) => nodeOf.get(id)!.callFrame.functionName || '(unnamed)';
  const own = new Map<number, number>();
  for (const id of profile.samples ?? []) own.set(id, (own.get(id) ?? 0) + 1);
  const samplesUnder = (id: number): number =>
    (own.get(id) ?? 0) +
    (nodeOf.get(id)!.children ?? []).reduce((sum, child) => sum + samplesUnder(child), 0);
  const parts = new Map<string, number>();
  const add = (name: string, samples: number) => parts.set(name, (parts.get(name) ?? 0) + samples);
  const open = (id: number): void => {
    add(`${nameOf(id)} itself`, own.get(id) ?? 0);
    for (const child of nodeOf.get(id)!.children ?? [])
      if (OPENED.has(nameOf(child))) open(child);
      else add(nameOf(child), samplesUnder(child));
  };
  for (const { id } of profile.nodes) if (nameOf(id) === 'computePlan') open(id);
  const total = [...parts.values()].reduce((sum, samples) => sum + samples, 0);
  return [...parts]
    .map(([name, samples]) => ({ name, share: samples / total }))
    .filter(({ share }) => share >= 0.01)
    .sort((a, b) => b.share - a.share);
}
