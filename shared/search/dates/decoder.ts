/**
 * The dates of a build as a decoder: a list of every node of the network, gates too, becomes the levelled schedule that
 * the plan would show for it. No window is ever left empty that a ready task fits: each has the earliest place there was.
 */
import { UNKNOWN } from '../../schedule/backward.ts';
import { floorOf, type Draft } from '../../schedule/draft.ts';
import { UNPLACED } from '../../schedule/forward.ts';
import { Generator, type Levelled } from '../../schedule/levelling/generate.ts';
import { RankQueue } from '../../schedule/levelling/rank-queue.ts';
import { targetOf, type Network } from '../../schedule/network.ts';
import { groupArcs } from '../arcs.ts';
import type { Decoder, Schedule } from '../decoder.ts';
import type { Digraph } from '../../graph/compile.ts';
import { BackwardGenerator } from './backward.ts';
import { finishBound } from './bound.ts';
import type { Judge } from './judge.ts';

export interface DatesDecoder extends Decoder {
  /** The tasks of a list as it is decoded: what is held still comes first. Node numbers. */
  readonly tasksOf: (list: ArrayLike<number>) => Int32Array;
  /** The list that a priority list of tasks stands for, with every node, each after all before it. */
  readonly listOf: (tasks: readonly number[]) => Int32Array;
  readonly levelledOf: (list: ArrayLike<number>) => Levelled;
}

/** @param first task nodes that are decoded first, in this order, whatever the list says */
export function datesDecoder(draft: Draft, judge: Judge, first: readonly number[]): DatesDecoder {
  const { basis, net, graph, path } = draft;
  const generator = new Generator(basis, net, graph.ids);
  const floor = floorOf(basis);
  const order = arcsBetweenReached(net, path.early.order);
  const backwards = new BackwardGenerator(draft);
  // Backward schedules end where the best so far does, so that seasons are met where they will be.
  let end = endOf(draft.levelled);
  const isStill = new Uint8Array(net.taskCount);
  for (const v of first) isStill[v] = 1;

  return {
    size: net.size,
    goals: judge.goals,
    order,
    backward: (list, into) => {
      backwards.generate(list, end, into.starts, into.finishes);
      judge.guide(end - into.starts.reduce((first, start) => Math.min(first, start), end), into.objective);
      keysBefore(net, path.early.order, into);
    },
    bound: finishBound(draft, judge),
    urgency: Float64Array.from({ length: net.size }, (_, v) => urgencyOf(draft, v)),
    forward: (list, into) => {
      const levelled = levelledOf(list);
      judge.judge(levelled, into.objective);
      end = Math.min(end, endOf(levelled));
      keysOf(net, path.early.order, levelled, into);
    },
    tasksOf,
    levelledOf,
    listOf: (tasks) => topologicalBy(order, tasks),
  };

  function tasksOf(list: ArrayLike<number>): Int32Array {
    const tasks = new Int32Array(net.taskCount);
    tasks.set(first);
    let place = first.length;
    for (let i = 0; i < list.length; i++) {
      const v = list[i]!;
      if (v < net.taskCount && isStill[v] === 0) tasks[place++] = v;
    }
    return tasks;
  }

  function levelledOf(list: ArrayLike<number>): Levelled {
    return generator.generate(tasksOf(list), { floor, explain: false });
  }
}

/** Late starts, as the plan's own list has it. */
function urgencyOf({ path: { early, late } }: Draft, v: number): number {
  return late === null || late.start[v] === UNKNOWN ? early.start[v]! : late.start[v]!;
}

/** Where a circle keeps nodes from ever getting dates, their arcs bind nobody. */
function arcsBetweenReached(net: Network, reached: Uint32Array): Digraph {
  const isReached = new Uint8Array(net.size);
  for (const v of reached) isReached[v] = 1;
  const arcs: [number, number][] = [];
  for (const v of reached)
    for (let arc = net.offsets[v]!; arc < net.offsets[v + 1]!; arc++) {
      const w = targetOf(net.codes[arc]!);
      if (isReached[w] === 1) arcs.push([v, w]);
    }
  return groupArcs(net.size, arcs);
}

/** Starts and finishes that never fall along an arc, of whatever kind, so that lists sorted by them keep every arc. */
function keysOf(
  { offsets, codes }: Network,
  order: Uint32Array,
  { start, finish }: Levelled,
  { starts, finishes }: Schedule,
): void {
  starts.set(start);
  finishes.set(finish);
  for (const v of order)
    for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) {
      const w = targetOf(codes[arc]!);
      if (starts[w]! < starts[v]!) starts[w] = starts[v]!;
      if (finishes[w]! < finishes[v]!) finishes[w] = finishes[v]!;
    }
}

/** The same for schedules made from the end back. */
function keysBefore({ offsets, codes }: Network, order: Uint32Array, { starts, finishes }: Schedule): void {
  for (let i = order.length - 1; i >= 0; i--) {
    const v = order[i]!;
    for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) {
      const w = targetOf(codes[arc]!);
      if (starts[v]! > starts[w]!) starts[v] = starts[w]!;
      if (finishes[v]! > finishes[w]!) finishes[v] = finishes[w]!;
    }
  }
}

/** When the last wait of what has dates is over. */
function endOf({ spots }: Levelled): number {
  let end = 0;
  for (const spot of spots) if (spot !== null && spot.ready < UNPLACED && spot.ready > end) end = spot.ready;
  return end;
}

/** Every node after all before it: of those that can come next a gate, then the task that stands first. */
function topologicalBy({ size, offsets, targets }: Digraph, tasks: readonly number[]) {
  const rank = new Int32Array(size).fill(-1);
  tasks.forEach((v, i) => (rank[v] = i));
  const waitingFor = new Int32Array(size);
  for (const w of targets) waitingFor[w]!++;
  const open = new RankQueue(rank);
  for (let v = 0; v < size; v++) if (waitingFor[v] === 0) open.push(v);
  const list = new Int32Array(size);
  for (let place = 0, v = open.pop(); v !== -1; v = open.pop()) {
    list[place++] = v;
    for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) {
      const w = targets[arc]!;
      waitingFor[w]!--;
      if (waitingFor[w] === 0) open.push(w);
    }
  }
  return list;
}
