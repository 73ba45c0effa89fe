/**
 * The dates people can keep: serial generation over a priority list. Each task in turn, once all before it have dates,
 * gets its earliest feasible place: one fixed team, nobody in two places, tools and rooms free. (Serial schedule
 * generation, J. E. Kelley 1963; R. Kolisch, S. Hartmann 1999.)
 */
import type { WorkingSet } from '../../time/working-set.ts';
import { instantOf } from '../../time/clock.ts';
import type { Basis } from '../basis.ts';
import { readyOfFinished } from '../build-network.ts';
import { boundsOf, release, UNPLACED, type Bounds, type Dates } from '../forward.ts';
import type { Network } from '../network.ts';
import { earliestSpot, leaveSpot, takeSpot, type Request, type Spot } from './place.ts';
import { RankQueue } from './rank-queue.ts';
import { Resources } from './resources.ts';
import type { Room } from './room.ts';
import { workOf, type Work } from './work.ts';

export interface Levelled extends Dates {
  /** Per task node: the place it got; null where there is none. */
  readonly spots: readonly (Spot | null)[];
  /** Per node: the bounds it was placed under. */
  readonly lower: Int32Array;
  readonly lowerFinish: Int32Array;
  /** The end of the last wait; null if a task has no dates. */
  readonly end: number | null;
}

export interface Wanted {
  /** The build cannot end before this; null when there is none, UNPLACED when it never ends. */
  readonly floor: number | null;
  /** Whether each place says what was in its way. */
  readonly explain: boolean;
}

interface Stay {
  readonly room: Room;
  readonly from: number;
  readonly to: number;
}

interface FixedDate {
  readonly work: Work;
  readonly at: number;
}

/** Makes dates from lists, as many as are asked for; what does not depend on the list is worked out once. */
export class Generator {
  readonly #net: Network;
  readonly #sets: readonly WorkingSet[];
  readonly #resources: Resources;
  readonly #fixed: readonly FixedDate[];
  readonly #stays: readonly Stay[];
  /** Per task node. */
  readonly work: readonly Work[];

  /** @param ids task keys by node */
  constructor(basis: Basis, net: Network, ids: readonly string[]) {
    this.#net = net;
    this.#sets = basis.calendar.sets;
    this.#resources = new Resources(basis);
    this.work = workOf(basis, net, this.#sets, ids, this.#resources);
    this.#fixed = this.work
      .filter(({ v, isBegun }) => !isBegun && basis.taskOf.get(ids[v]!)!.fixedStart !== null)
      .map((work) => ({ work, at: instantOf(basis.clock, basis.taskOf.get(ids[work.v]!)!.fixedStart!) }))
      .sort((a, b) => a.at - b.at || a.work.v - b.work.v);
    this.#stays = staysOfFinished(basis, this.#resources);
  }

  /** @param list every task node, first to last */
  generate(list: ArrayLike<number>, { floor, explain }: Wanted): Levelled {
    const net = this.#net;
    this.#resources.clear();
    for (const { room, from, to } of this.#stays) room.enter(from, to, -1);
    const start = new Int32Array(net.size).fill(UNPLACED);
    const finish = new Int32Array(net.size).fill(UNPLACED);
    const ready = new Int32Array(net.size).fill(UNPLACED);
    const spots: (Spot | null)[] = Array.from({ length: net.taskCount }, () => null);
    const bounds = boundsOf(net);
    const waiting = new RankQueue(this.#ranks(list));
    const reserved = this.#reserveFixed(explain);

    for (let head = 0; ;) {
      while (head < bounds.tail) {
        const v = bounds.queue[head++]!;
        if (v < net.taskCount) waiting.push(v);
        else
          this.#settle(
            v,
            bounds.lower[v]!,
            bounds.lower[v]!,
            bounds.lower[v]!,
            { start, finish, ready },
            bounds,
          );
      }
      const v = waiting.pop();
      if (v === -1) break;
      const request: Request = {
        work: this.work[v]!,
        lower: bounds.lower[v]!,
        lowerFinish: bounds.lowerFinish[v]!,
        explain,
      };
      const spot = this.#placeOf(request, reserved.get(v) ?? null);
      if (spot === null) continue;
      spots[v] = spot;
      this.#settle(v, spot.start, spot.finish, spot.ready, { start, finish, ready }, bounds);
    }
    const { lower, lowerFinish } = bounds;
    return { start, finish, ready, spots, lower, lowerFinish, end: endOf(net, ready, floor) };
  }

  #settle(v: number, s: number, f: number, r: number, { start, finish, ready }: Dates, bounds: Bounds): void {
    start[v] = s;
    finish[v] = f;
    if (r === UNPLACED) return;
    ready[v] = r;
    release(this.#net, this.#sets, v, s, f, r, bounds);
  }

  #placeOf(request: Request, kept: Spot | null): Spot | null {
    const { work, lower, lowerFinish } = request;
    if (lower >= UNPLACED || lowerFinish >= UNPLACED) return null;
    if (kept !== null) {
      // Its date stands if nothing before it has come to lie behind it.
      if (lower <= kept.start && lowerFinish <= kept.finish) return kept;
      leaveSpot(work, kept);
    }
    const best = this.#bestSpot(request);
    if (best !== null) takeSpot(work, best);
    return best;
  }

  /** The team that finishes first; of several the first by key. */
  #bestSpot(request: Request): Spot | null {
    const { minutes, crews } = request.work;
    if (minutes === 0) return earliestSpot(this.#net, this.#sets, request, null, UNPLACED);
    let best: Spot | null = null;
    for (const crew of crews) {
      const stopAfter: number = best === null ? UNPLACED : best.finish - 1;
      best = earliestSpot(this.#net, this.#sets, request, crew, stopAfter) ?? best;
    }
    return best;
  }

  /** What the builder fixed to a date takes its people, tools and rooms first, in the order of the dates. */
  #reserveFixed(explain: boolean): Map<number, Spot> {
    const reserved = new Map<number, Spot>();
    for (const { work, at } of this.#fixed) {
      const { v } = work;
      const { lower, lowerFinish } = this.#net;
      const spot = this.#bestSpot({ work, lower: lower[v]!, lowerFinish: lowerFinish[v]!, explain });
      if (spot === null || spot.start > at) continue;
      takeSpot(work, spot);
      reserved.set(v, spot);
    }
    return reserved;
  }

  /** Work under way goes on before anything new begins; the rest in the order of the list. */
  #ranks(list: ArrayLike<number>): Int32Array {
    const count = this.work.length;
    const rank = new Int32Array(count);
    for (let i = 0; i < list.length; i++) rank[list[i]!] = this.work[list[i]!]!.isBegun ? i : count + i;
    return rank;
  }
}

/** Finished tasks whose wait still shuts their zones. */
function staysOfFinished(basis: Basis, resources: Resources): Stay[] {
  return basis.tasks
    .filter((task) => task.state === 'finished' && task.waitHoldsZones && task.waitMinutes > 0)
    .flatMap((task) => {
      const from = instantOf(basis.clock, task.finishedAt!);
      const to = readyOfFinished(basis, task);
      return resources.roomsOf(task).map(({ room }) => ({ room, from, to }));
    });
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
