/**
 * The dates people can keep: serial generation over a priority list. Each task in turn, once all before it have dates,
 * gets its earliest feasible place: one fixed team, nobody in two places, tools and rooms free. (Serial schedule
 * generation, J. E. Kelley 1963; R. Kolisch, S. Hartmann 1999.)
 */
import type { WorkingSet } from '../../time/working-set.ts';
import { instantOf } from '../../time/clock.ts';
import type { Basis } from '../basis.ts';
import { readyOfFinished } from '../build-network.ts';
import { boundsOf, release, UNPLACED, type Dates } from '../forward.ts';
import { NOT_BEGUN, type Network } from '../network.ts';
import { earliestSpot, leaveSpot, takeSpot, type Request, type Spot } from './place.ts';
import { Resources } from './resources.ts';
import { teamsFor, type Team } from './teams.ts';

export interface Levelled extends Dates {
  /** Per task node: the place it got; null where there is none. */
  readonly spots: readonly (Spot | null)[];
  /** Per node: the bounds it was placed under. */
  readonly lower: Int32Array;
  readonly lowerFinish: Int32Array;
  /** The end of the last wait; null if a task has no dates. */
  readonly end: number | null;
}

/**
 * @param ids task keys by node
 * @param list every task node, first to last
 * @param floor the build cannot end before this; null when there is none, UNPLACED when it never ends
 */
export function generate(
  basis: Basis,
  net: Network,
  sets: readonly WorkingSet[],
  ids: readonly string[],
  list: readonly number[],
  floor: number | null,
): Levelled {
  const resources = new Resources(basis);
  holdRoomsOfFinished(basis, resources);
  const start = new Int32Array(net.size).fill(UNPLACED);
  const finish = new Int32Array(net.size).fill(UNPLACED);
  const ready = new Int32Array(net.size).fill(UNPLACED);
  const spots: (Spot | null)[] = Array.from({ length: net.taskCount }, () => null);
  const bounds = boundsOf(net);
  const rank = ranks(net, list);
  const waiting = new RankQueue(rank);
  const teams = Array.from({ length: net.taskCount }, (_, v) => teamsFor(basis, basis.taskOf.get(ids[v]!)!));
  const reserved = reserveFixed(basis, net, sets, ids, teams, resources);

  for (let head = 0; ;) {
    while (head < bounds.tail) {
      const v = bounds.queue[head++]!;
      if (v < net.taskCount) waiting.push(v);
      else settle(v, bounds.lower[v]!, bounds.lower[v]!, bounds.lower[v]!);
    }
    const v = waiting.pop();
    if (v === -1) break;
    const spot = placeOf(v);
    if (spot === null) continue;
    spots[v] = spot;
    settle(v, spot.start, spot.finish, spot.ready);
  }
  const { lower, lowerFinish } = bounds;
  return { start, finish, ready, spots, lower, lowerFinish, end: endOf(net, ready, floor) };

  function settle(v: number, s: number, f: number, r: number): void {
    start[v] = s;
    finish[v] = f;
    if (r === UNPLACED) return;
    ready[v] = r;
    release(net, sets, v, s, f, r, bounds);
  }

  function placeOf(v: number): Spot | null {
    const request = requestOf(v);
    if (request.lower >= UNPLACED || request.lowerFinish >= UNPLACED) return null;
    const kept = reserved.get(v);
    if (kept !== undefined) {
      // Its date stands if nothing before it has come to lie behind it.
      if (request.lower <= kept.spot.start && request.lowerFinish <= kept.spot.finish) return kept.spot;
      leaveSpot(resources, kept.request, kept.spot);
    }
    const best = bestSpot(net, sets, resources, request, teams[v]!);
    if (best !== null) takeSpot(resources, request, best);
    return best;
  }

  function requestOf(v: number): Request {
    const task = basis.taskOf.get(ids[v]!)!;
    return {
      v,
      task,
      minutes: net.minutes[v]!,
      sitting: net.sitting[v]!,
      lower: bounds.lower[v]!,
      lowerFinish: bounds.lowerFinish[v]!,
      // An unsigned check keeps a finished task in the network, but nobody is in the zone for it.
      rooms: task.state === 'finished' ? [] : resources.roomsOf(task),
    };
  }
}

/** The team that finishes first; of several the first by key. A task without minutes needs nobody. */
function bestSpot(
  net: Network,
  sets: readonly WorkingSet[],
  resources: Resources,
  request: Request,
  teams: readonly Team[],
): Spot | null {
  if (request.minutes === 0)
    return earliestSpot(net, sets, resources, request, { people: [], set: -1 }, UNPLACED);
  let best: Spot | null = null;
  for (const team of teams) {
    const spot = earliestSpot(
      net,
      sets,
      resources,
      request,
      team,
      best === null ? UNPLACED : best.finish - 1,
    );
    if (spot !== null) best = spot;
  }
  return best;
}

/** What the builder fixed to a date takes its people, tools and rooms first, in the order of the dates. */
function reserveFixed(
  basis: Basis,
  net: Network,
  sets: readonly WorkingSet[],
  ids: readonly string[],
  teams: readonly (readonly Team[])[],
  resources: Resources,
): Map<number, { request: Request; spot: Spot }> {
  const reserved = new Map<number, { request: Request; spot: Spot }>();
  const fixed = Array.from({ length: net.taskCount }, (_, v) => v)
    .filter((v) => basis.taskOf.get(ids[v]!)!.fixedStart !== null && net.begun[v] === NOT_BEGUN)
    .map((v) => ({ v, at: instantOf(basis.clock, basis.taskOf.get(ids[v]!)!.fixedStart!) }))
    .sort((a, b) => a.at - b.at || a.v - b.v);
  for (const { v, at } of fixed) {
    const task = basis.taskOf.get(ids[v]!)!;
    const request: Request = {
      v,
      task,
      minutes: net.minutes[v]!,
      sitting: net.sitting[v]!,
      lower: net.lower[v]!,
      lowerFinish: net.lowerFinish[v]!,
      rooms: resources.roomsOf(task),
    };
    const spot = bestSpot(net, sets, resources, request, teams[v]!);
    if (spot === null || spot.start > at) continue;
    takeSpot(resources, request, spot);
    reserved.set(v, { request, spot });
  }
  return reserved;
}

/** A finished task whose wait still shuts its zones. */
function holdRoomsOfFinished(basis: Basis, resources: Resources): void {
  for (const task of basis.tasks) {
    if (task.state !== 'finished' || !task.waitHoldsZones || task.waitMinutes === 0) continue;
    const from = instantOf(basis.clock, task.finishedAt!);
    for (const { room } of resources.roomsOf(task)) room.enter(from, readyOfFinished(basis, task), -1);
  }
}

/** Work under way goes on before anything new begins; the rest in the order of the list. */
function ranks(net: Network, list: readonly number[]): Int32Array {
  const rank = new Int32Array(net.taskCount);
  list.forEach((v, i) => (rank[v] = net.begun[v] === NOT_BEGUN ? net.taskCount + i : i));
  return rank;
}

function endOf(net: Network, ready: Int32Array, floor: number | null): number | null {
  if (floor === UNPLACED) return null;
  let end = floor;
  for (let v = 0; v < net.taskCount; v++) {
    if (ready[v] === UNPLACED) return null;
    end = end === null ? ready[v]! : Math.max(end, ready[v]!);
  }
  return end;
}

/** A binary heap of nodes by rank. */
class RankQueue {
  readonly #rank: Int32Array;
  readonly #heap: number[] = [];

  constructor(rank: Int32Array) {
    this.#rank = rank;
  }

  push(v: number): void {
    const heap = this.#heap;
    let i = heap.push(v) - 1;
    for (let up = (i - 1) >> 1; i > 0 && this.#before(v, heap[up]!); i = up, up = (i - 1) >> 1)
      heap[i] = heap[up]!;
    heap[i] = v;
  }

  /** The first in rank; -1 when empty. */
  pop(): number {
    const heap = this.#heap;
    if (heap.length === 0) return -1;
    const first = heap[0]!;
    const last = heap.pop()!;
    const size = heap.length;
    if (size > 0) {
      let i = 0;
      for (let down = 1; down < size; down = 2 * i + 1) {
        if (down + 1 < size && this.#before(heap[down + 1]!, heap[down]!)) down++;
        if (!this.#before(heap[down]!, last)) break;
        heap[i] = heap[down]!;
        i = down;
      }
      heap[i] = last;
    }
    return first;
  }

  #before(a: number, b: number): boolean {
    return this.#rank[a]! < this.#rank[b]!;
  }
}
