/**
 * Where a builder stands who comes to the plan in the middle of the work: the depths that are in, zone by zone. Whoever
 * works at or behind such a depth is done, and so is all that has to come before it; nobody knows any more what it took.
 * Checks are not signed by this: one that lies behind a cover without a signature stays an error of the plan.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Task } from '../contract/task.ts';
import { nodeId, taskGraph, type TaskGraph } from '../graph/task-graph.ts';
import { basisOf, waitSet, type Basis } from '../schedule/basis.ts';
import { instantText, type Clock } from '../time/clock.ts';
import { backFrom, NEVER_BEFORE } from '../time/working-set.ts';
import { finishEdges, guessedFinishes } from './guessed-finishes.ts';

/** A depth of a zone that is in, and with it all behind it. */
export interface BandIn {
  readonly zone: string;
  readonly depth: string;
}

export interface WhereOptions {
  /** The as-of instant: nothing is finished after it. */
  readonly asOf: string;
  /** Tasks the builder says are still to do; they and all that has to come after them stay as they are. */
  readonly stillToDo?: readonly string[];
}

export interface WhereYouAre {
  /** Keys of the tasks newly taken as finished, first to last. */
  readonly finished: readonly string[];
  /** The build with them finished. */
  readonly after: BuildFile;
}

/**
 * @param bands depths of zones of this build; those it does not have say nothing
 * @returns more bands never finish fewer tasks. Linear in tasks, depths and links
 */
export function whereAreYou(
  file: BuildFile,
  bands: readonly BandIn[],
  { asOf, stillToDo = [] }: WhereOptions,
): WhereYouAre {
  const drawn = taskGraph(file);
  const taskOf = new Map(file.tasks.map((task) => [task.key, task]));
  const isOpen = (key: string) => taskOf.get(key)!.state !== 'finished';
  const needed = withAllBefore(drawn, workedBehind(drawn, bands).filter(isOpen), isOpen);
  const held = withAllAfter(
    drawn,
    stillToDo.filter((key) => needed.has(key)),
    needed,
  );
  const taken = new Set([...needed].filter((key) => !held.has(key)));
  const basis = basisOf(file, asOf);
  const { clock } = basis;
  const dates = guessedFinishes(drawn, taken, taskOf, clock, basis.asOf, (task, instant) =>
    finishBy(basis, task, instant),
  );
  const tasks = file.tasks.map((task) =>
    taken.has(task.key) ? finishedAt(task, dates.get(task.key)!, clock) : task,
  );
  return { finished: [...dates.keys()], after: taken.size === 0 ? file : { ...file, tasks } };
}

/** Where the calendar does not reach back far enough, its wait is taken as going by the clock. */
function finishBy(basis: Basis, task: Task, instant: number): number {
  const set = waitSet(basis, task);
  const back = set === null ? NEVER_BEFORE : backFrom(basis.calendar.sets[set]!, instant, task.waitMinutes);
  return back === NEVER_BEFORE ? instant - task.waitMinutes : back;
}

/** Tasks that lie, with all they do in a zone, at or behind a depth that is in there. */
function workedBehind({ stacks }: TaskGraph, bands: readonly BandIn[]): string[] {
  return stacks.flatMap(({ zone, depths, entries }) => {
    const inUpTo = Math.max(
      -1,
      ...bands.filter((band) => band.zone === zone).map(({ depth }) => depths.indexOf(depth)),
    );
    return entries.filter(({ front }) => front <= inUpTo).map(({ task }) => task.key);
  });
}

/** Those tasks and all open ones that must end before them. What is finished already is taken as it is. */
function withAllBefore(
  { graph }: TaskGraph,
  keys: readonly string[],
  isOpen: (key: string) => boolean,
): Set<string> {
  const found = new Set<string>(keys);
  const seen = new Set(keys.map(nodeId));
  for (const node of seen)
    for (const edge of finishEdges(graph.inEdges(node), graph)) {
      const label = graph.node(edge.v)!;
      if ('gate' in label) seen.add(edge.v);
      else if (isOpen(label.task)) {
        seen.add(edge.v);
        found.add(label.task);
      }
    }
  return found;
}

/** Those tasks and all of `among` that must come after them. */
function withAllAfter(
  { graph }: TaskGraph,
  keys: readonly string[],
  among: ReadonlySet<string>,
): Set<string> {
  const found = new Set<string>(keys);
  const seen = new Set(keys.map(nodeId));
  for (const node of seen)
    for (const edge of finishEdges(graph.outEdges(node), graph)) {
      const label = graph.node(edge.w)!;
      if ('gate' in label) seen.add(edge.w);
      else if (among.has(label.task)) {
        seen.add(edge.w);
        found.add(label.task);
      }
    }
  return found;
}

/** A task under way keeps the moment it was begun; of one that was not, only an end is known, and that is a guess. */
function finishedAt(task: Task, at: number, clock: Clock): Task {
  const on = instantText(clock, at);
  return {
    ...task,
    state: 'finished',
    startedAt: task.startedAt ?? on,
    finishedAt: on,
    hoursKnown: false,
    remainingMinutes: null,
  };
}
