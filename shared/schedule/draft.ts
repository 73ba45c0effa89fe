/**
 * A draft of the plan: the order guard's findings, the critical path and the levelled schedule over one network, as
 * arrays by node. Everything after this only puts it into words and records.
 */
import type { BuildFile } from '../contract/build-file.ts';
import { namesOf, type Names } from '../covers/names.ts';
import { orderFindings, type OrderFindings } from '../covers/wrong-order.ts';
import { compileGraph, type CompiledGraph } from '../graph/compile.ts';
import { taskGraph, type TaskGraph } from '../graph/task-graph.ts';
import { DAY, dayStart } from '../time/clock.ts';
import { UNKNOWN } from './backward.ts';
import { basisOf, liveTasks, type Basis } from './basis.ts';
import { buildNetwork, readyOfFinished, type BuiltNetwork } from './build-network.ts';
import { criticalPath, type CriticalPath } from './critical-path.ts';
import { UNPLACED } from './forward.ts';
import { Generator, type Levelled } from './levelling/generate.ts';
import { priorityList } from './levelling/priority.ts';

/** What follows from links, places and the calendar alone: all of the draft that needs no dates. */
export interface Logic extends BuiltNetwork {
  readonly basis: Basis;
  readonly names: Names;
  readonly drawn: TaskGraph;
  readonly graph: CompiledGraph;
  readonly findings: OrderFindings;
  readonly path: CriticalPath;
}

export interface Draft extends Logic {
  /** Task nodes, first to last in the kept list. */
  readonly list: readonly number[];
  readonly levelled: Levelled;
}

/** How far before the build's start the calendar reaches once a target lies so far back that late dates do too. */
const FAR_BACK_DAYS = 3653;

/** @param asOf the as-of instant as written */
export function draftOf(file: BuildFile, asOf: string): Draft {
  const logic = logicOf(file, asOf);
  const { basis, graph, net, path } = logic;
  const list = priorityList(graph, path, file.order);
  const generator = new Generator(basis, net, graph.ids);
  const levelled = generator.generate(list, { floor: floorOf(basis), explain: true });
  return { ...logic, list, levelled };
}

/** @param asOf the as-of instant as written */
export function logicOf(file: BuildFile, asOf: string): Logic {
  const drawn = taskGraph(file);
  const names = namesOf(file);
  const graph = compileGraph(drawn, liveTasks(file.tasks));
  const findings = orderFindings(graph, drawn, names);
  let { basis, built, path } = criticalOf(file, asOf, drawn, graph, findings, 0);
  if (reachesTooFarBack(path, graph))
    ({ basis, built, path } = criticalOf(file, asOf, drawn, graph, findings, FAR_BACK_DAYS));
  return { basis, names, drawn, graph, findings, ...built, path };
}

function criticalOf(
  file: BuildFile,
  asOf: string,
  drawn: TaskGraph,
  graph: CompiledGraph,
  findings: OrderFindings,
  back: number,
) {
  const basis = basisOf(file, asOf, back);
  const built = buildNetwork(basis, drawn, graph, findings.left);
  const { targetFinishOn } = file.build;
  const target = targetFinishOn === null ? null : dayStart(basis.clock, targetFinishOn) + DAY;
  return { basis, built, path: criticalPath(built.net, basis.calendar.sets, floorOf(basis), target) };
}

/** Every task has an early date and yet one has no late date: it lies before the calendar begins. */
function reachesTooFarBack({ early, late, end }: CriticalPath, { taskCount }: CompiledGraph): boolean {
  if (late === null || end === null) return false;
  for (let v = 0; v < taskCount; v++)
    if (early.start[v] !== UNPLACED && late.start[v] === UNKNOWN) return true;
  return false;
}

/** The end of the last wait of what is finished. */
export function floorOf(basis: Basis): number | null {
  const ends = basis.tasks
    .filter((task) => task.state === 'finished')
    .map((task) => readyOfFinished(basis, task));
  return ends.length === 0 ? null : ends.reduce((a, b) => Math.max(a, b));
}
