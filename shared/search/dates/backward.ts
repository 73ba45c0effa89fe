/**
 * Lists walked from the end: each task gets the latest place its successors, people, tools and rooms leave it. Only
 * forward schedules are dates anyone keeps; this one is a guide, for the order its starts give is a better list to go
 * forward with (forward-backward improvement: K. Y. Li, R. J. Willis, EJOR 56, 1992). So it may leave aside what binds from
 * below: parts, fixed dates, work under way.
 */
import { backFrom, minuteAt, runPieces, workedBefore, type WorkingSet } from '../../time/working-set.ts';
import { finishFor } from '../../schedule/backward.ts';
import type { Draft } from '../../schedule/draft.ts';
import { readyAt, UNPLACED } from '../../schedule/forward.ts';
import { incomingOf, type Incoming } from '../../schedule/incoming.ts';
import { takeSpot, type Spot } from '../../schedule/levelling/place.ts';
import { RankQueue } from '../../schedule/levelling/rank-queue.ts';
import { Resources } from '../../schedule/levelling/resources.ts';
import { workOf, type Crew, type Work } from '../../schedule/levelling/work.ts';
import {
  CLOCK,
  FF,
  isLagged,
  isWorking,
  kindOf,
  NO_UPPER,
  SS,
  targetOf,
  type Network,
} from '../../schedule/network.ts';

/** Per node: by when it has to start, finish and be over its wait. */
interface Limits {
  readonly startBy: Int32Array;
  readonly finishBy: Int32Array;
  readonly readyBy: Int32Array;
}

export class BackwardGenerator {
  readonly #net: Network;
  readonly #sets: readonly WorkingSet[];
  readonly #resources: Resources;
  readonly #work: readonly Work[];
  readonly #incoming: Incoming;
  readonly #outgoing: Int32Array;

  constructor({ basis, net, graph, path }: Draft) {
    this.#net = net;
    this.#sets = basis.calendar.sets;
    this.#resources = new Resources(basis);
    this.#work = workOf(basis, net, this.#sets, graph.ids, this.#resources);
    this.#incoming = incomingOf(net);
    // What a circle keeps from ever getting dates holds nothing here.
    this.#outgoing = new Int32Array(net.size);
    for (const v of path.early.order)
      for (const arc of this.#incoming.arcs[v]!) this.#outgoing[this.#incoming.sources[arc]!]!++;
  }

  /**
   * @param list every node, last to first
   * @param end every wait is over by then
   * @param starts filled with the starts; a node that finds no place lies right before what follows it
   */
  generate(list: ArrayLike<number>, end: number, starts: Int32Array, finishes: Int32Array): void {
    const { size, taskCount } = this.#net;
    this.#resources.clear();
    const rank = new Int32Array(size).fill(-1);
    for (let i = 0; i < list.length; i++) if (list[i]! < taskCount) rank[list[i]!] = i;
    const limits: Limits = {
      startBy: new Int32Array(size).fill(NO_UPPER),
      finishBy: new Int32Array(size).fill(NO_UPPER),
      readyBy: new Int32Array(size).fill(end),
    };
    starts.fill(end);
    finishes.fill(end);
    const waitingFor = this.#outgoing.slice();
    const waiting = new RankQueue(rank);
    for (let v = 0; v < size; v++) if (waitingFor[v] === 0) waiting.push(v);
    for (let v = waiting.pop(); v !== -1; v = waiting.pop()) {
      this.#place(v, limits, starts, finishes);
      const arcs = this.#incoming.arcs[v]!;
      for (const arc of arcs) {
        const u = this.#incoming.sources[arc]!;
        this.#limit(u, arc, v, starts, finishes, limits);
        waitingFor[u]!--;
        if (waitingFor[u] === 0) waiting.push(u);
      }
    }
  }

  #place(v: number, { startBy, finishBy, readyBy }: Limits, starts: Int32Array, finishes: Int32Array): void {
    const net = this.#net;
    const by = Math.min(finishBy[v]!, finishFor(net, this.#sets, v, readyBy[v]!));
    const work = v < net.taskCount ? this.#work[v]! : null;
    const spot = work === null ? null : this.#latestSpot(work, startBy[v]!, by);
    if (spot === null) {
      starts[v] = finishes[v] = Math.min(by, startBy[v]!);
      return;
    }
    takeSpot(work!, spot);
    starts[v] = spot.start;
    finishes[v] = spot.finish;
  }

  /** The crew that can begin last; of several the first by key. */
  #latestSpot(work: Work, startBy: number, finishBy: number): Spot | null {
    let best: Spot | null = null;
    for (const crew of work.crews) {
      const spot = this.#latestOf(work, crew, startBy, finishBy);
      if (spot !== null && (best === null || spot.start > best.start)) best = spot;
    }
    return best;
  }

  #latestOf(work: Work, crew: Crew, startBy: number, finishBy: number): Spot | null {
    const { v, minutes, sitting, rooms, holdsRooms } = work;
    const set = this.#sets[crew.set]!;
    const lastStart = startBy >= set.to ? set.total - 1 : workedBefore(set, startBy + 1) - 1;
    for (let by = finishBy; ;) {
      const index = crew.taken.lastFree(
        Math.min(workedBefore(set, by) - minutes, lastStart),
        minutes,
        sitting,
      );
      if (index < 0) return null;
      const start = minuteAt(set, index);
      const finish = minuteAt(set, index + minutes - 1) + 1;
      const ready = readyAt(this.#net, this.#sets, v, finish);
      if (ready >= UNPLACED) return null;
      const leave = holdsRooms ? ready : finish;
      let room = -1;
      for (let i = 0; i < rooms.length && room < 0; i++) room = rooms[i]!.room.fullSince(start, leave);
      if (room < 0)
        return { team: crew, start, finish, ready, pieces: runPieces(set, start, minutes), obstacle: null };
      by = Math.min(by, holdsRooms ? finishFor(this.#net, this.#sets, v, room) : room);
    }
  }

  /** What a placed node asks of one before it. */
  #limit(
    u: number,
    arc: number,
    v: number,
    starts: Int32Array,
    finishes: Int32Array,
    { startBy, finishBy, readyBy }: Limits,
  ): void {
    const code = this.#net.codes[arc]!;
    const kind = kindOf(code);
    let bound = kind === 0 || kind === SS ? starts[v]! : finishes[v]!;
    if (isLagged(code)) {
      const lag = this.#net.lags[arc]!;
      const set = this.#net.set[targetOf(code)]!;
      bound = isWorking(code) && set !== CLOCK ? backFrom(this.#sets[set]!, bound, lag) : bound - lag;
    }
    const by = kind === 0 ? readyBy : kind === FF ? finishBy : startBy;
    if (bound < by[u]!) by[u] = bound;
  }
}
