/**
 * One trial: the earliest dates along a course for given minutes and parts, and the dates as late as their own end
 * allows, which say what drove it. All arrays are made once; a trial makes nothing. O(nodes + arcs).
 */
import { dayIndex } from '../time/clock.ts';
import {
  after,
  backFrom,
  firstRun,
  inSameSitting,
  lastRun,
  NEVER_AGAIN,
  type Run,
} from '../time/working-set.ts';
import { finishFor } from '../schedule/backward.ts';
import { leastStart, readyAt } from '../schedule/forward.ts';
import { CLOCK, NO_LOWER, NO_UPPER } from '../schedule/network.ts';
import {
  BY_DATE,
  BY_PART,
  BY_PEOPLE,
  BY_ROOM,
  FROM_FINISH,
  FROM_START,
  type Clear,
  type Course,
} from './course.ts';
import { firstMeeting, lastMeeting } from './overlap.ts';

export class Trial {
  readonly #course: Course;
  /** Per node: clock minutes to work. To be set before each trial. */
  readonly minutes: Int32Array;
  /** Per node: the instant from which its last part can be used; NO_LOWER without parts. To be set before each trial. */
  readonly partsFrom: Int32Array;
  /** Per node: instants. */
  readonly start: Int32Array;
  readonly finish: Int32Array;
  readonly ready: Int32Array;
  /** Per node: what its start waited for, and the instant from which that let it begin. */
  readonly heldBy: Uint8Array;
  readonly heldUntil: Int32Array;
  readonly #lateStart: Int32Array;
  readonly #lateFinish: Int32Array;
  /** Per node: the working set of whoever does it in this trial. */
  readonly set: Int32Array;
  readonly #run: Run = { start: 0, finish: 0 };

  constructor(course: Course) {
    const { size } = course.net;
    this.#course = course;
    this.minutes = course.net.minutes.slice();
    this.partsFrom = new Int32Array(size).fill(NO_LOWER);
    this.start = new Int32Array(size);
    this.finish = new Int32Array(size);
    this.ready = new Int32Array(size);
    this.heldBy = new Uint8Array(size);
    this.heldUntil = new Int32Array(size);
    this.#lateStart = new Int32Array(size);
    this.#lateFinish = new Int32Array(size);
    this.set = course.set.slice();
  }

  /** @returns the end of the last wait; NEVER_AGAIN if some task runs out of the calendar */
  forward(): number {
    const { order, floor, set } = this.#course;
    this.set.set(set);
    let end = floor;
    for (let i = 0; i < order.length; i++) {
      const v = order[i]!;
      if (!this.place(v)) return NEVER_AGAIN;
      if (this.ready[v]! > end) end = this.ready[v]!;
    }
    return end;
  }

  /** Gives one node its dates; all before it in the order have theirs. @returns false if there are none */
  place(v: number): boolean {
    const { arcs, into, lower, lowerFinish, net, sets } = this.#course;
    let least = lower[v]!;
    let by = BY_DATE;
    if (this.partsFrom[v]! > least) {
      least = this.partsFrom[v]!;
      by = BY_PART;
    }
    let leastFinish = lowerFinish[v]!;
    for (let arc = into[v]!; arc < into[v + 1]!; arc++) {
      const u = arcs.source[arc]!;
      const from = arcs.from[arc]!;
      let bound =
        from === FROM_START ? this.start[u]! : from === FROM_FINISH ? this.finish[u]! : this.ready[u]!;
      const lag = arcs.lag[arc]!;
      if (lag > 0)
        bound = arcs.lagSet[arc] === CLOCK ? bound + lag : after(sets[arcs.lagSet[arc]!]!, bound, lag);
      if (arcs.onFinish[arc] === 1) {
        if (bound > leastFinish) leastFinish = bound;
      } else if (bound > least) {
        least = bound;
        by = arcs.by[arc]!;
      }
    }
    if (least >= NEVER_AGAIN || leastFinish >= NEVER_AGAIN) return false;
    this.heldBy[v] = by;
    this.heldUntil[v] = least;
    if (!this.#begin(v, least, leastFinish)) return false;
    const finish = this.finish[v]!;
    this.ready[v] = net.uneven[v] === 0 ? finish : readyAt(net, sets, v, finish);
    const clear = this.#course.clearOfEarlier[v]!;
    if (clear !== null && !this.#keepClear(v, clear, leastFinish)) return false;
    return this.ready[v]! < NEVER_AGAIN;
  }

  /** The first run from `least` on that ends no earlier than `leastFinish`. */
  #begin(v: number, least: number, leastFinish: number): boolean {
    const minutes = this.minutes[v]!;
    if (minutes === 0) {
      this.start[v] = this.finish[v] = least > leastFinish ? least : leastFinish;
      return true;
    }
    if (this.#runIn(this.set[v]!, v, least, leastFinish, minutes)) return true;
    // Its team has gone for good (a helper for a month): whoever of the eligible is there takes over.
    const { net } = this.#course;
    if (this.set[v] === net.set[v]) return false;
    this.set[v] = net.set[v]!;
    return this.#runIn(net.set[v]!, v, least, leastFinish, minutes);
  }

  #runIn(number: number, v: number, least: number, leastFinish: number, minutes: number): boolean {
    const { sets, sitting } = this.#course;
    const set = sets[number]!;
    const from = leastFinish === NO_LOWER ? least : leastStart(set, least, leastFinish, minutes);
    const asked = Math.min(sitting[v]!, minutes, set.longestSitting);
    const run = this.#run;
    if (!firstRun(set, from, minutes, asked, run)) return false;
    this.start[v] = run.start;
    this.finish[v] = run.finish;
    return run.finish < NEVER_AGAIN;
  }

  /** On, past what it meets of the tasks it shares people or rooms with by turns, until it meets none. */
  #keepClear(v: number, clear: readonly Clear[], leastFinish: number): boolean {
    const { net, sets } = this.#course;
    for (;;) {
      let from = -Infinity;
      for (const { other, room } of clear) {
        const past = this.#past(v, other, room);
        if (past <= from) continue;
        from = past;
        this.heldBy[v] = room ? BY_ROOM : BY_PEOPLE;
      }
      if (from === -Infinity) return true;
      this.heldUntil[v] = from;
      if (!this.#begin(v, from, leastFinish)) return false;
      this.ready[v] = readyAt(net, sets, v, this.finish[v]!);
    }
  }

  /** From when on `v` would not meet `u` where it does now; -Infinity if it does not. */
  #past(v: number, u: number, room: boolean): number {
    const { sets } = this.#course;
    const set = this.set;
    const { start, finish } = this;
    if (room) return this.#leave(v) > start[u]! && this.#leave(u) > start[v]! ? this.#leave(u) : -Infinity;
    return lastMeeting(sets[set[u]!]!, start[u]!, finish[u]!, sets[set[v]!]!, start[v]!, finish[v]!);
  }

  #leave(v: number): number {
    return this.#course.holdsRooms[v] === 1 ? this.ready[v]! : this.finish[v]!;
  }

  /** After `forward`: shifts all as far right as `end` allows, turns kept. */
  backward(end: number): void {
    const { order } = this.#course;
    // Whoever keeps clear of a task that is not shifted yet keeps clear of where it is.
    this.#lateStart.set(this.start);
    this.#lateFinish.set(this.finish);
    for (let i = order.length - 1; i >= 0; i--) this.#shift(order[i]!, end);
  }

  #shift(v: number, end: number): void {
    const { arcs, out, outOf, net, sets, sitting } = this.#course;
    const lateStart = this.#lateStart;
    const lateFinish = this.#lateFinish;
    let startBy = NO_UPPER;
    let finishBy = NO_UPPER;
    let readyBy = end;
    for (let i = outOf[v]!; i < outOf[v + 1]!; i++) {
      const arc = out[i]!;
      const w = arcs.target[arc]!;
      let bound = arcs.onFinish[arc] === 1 ? lateFinish[w]! : lateStart[w]!;
      const lag = arcs.lag[arc]!;
      if (lag > 0)
        bound = arcs.lagSet[arc] === CLOCK ? bound - lag : backFrom(sets[arcs.lagSet[arc]!]!, bound, lag);
      const from = arcs.from[arc]!;
      if (from === FROM_START) {
        if (bound < startBy) startBy = bound;
      } else if (from === FROM_FINISH) {
        if (bound < finishBy) finishBy = bound;
      } else if (bound < readyBy) readyBy = bound;
    }
    const readied = net.uneven[v] === 0 ? readyBy : finishFor(net, sets, v, readyBy);
    if (readied < finishBy) finishBy = readied;
    const minutes = this.minutes[v]!;
    const run = this.#run;
    if (minutes === 0) {
      const by = startBy < finishBy ? startBy : finishBy;
      if (by > lateStart[v]!) lateStart[v] = lateFinish[v] = by;
      return;
    }
    const set = sets[this.set[v]!]!;
    const asked = Math.min(sitting[v]!, minutes, set.longestSitting);
    for (;;) {
      if (!lastRun(set, startBy, finishBy, minutes, asked, run)) return;
      if (run.start <= this.start[v]!) return;
      const met = this.#met(v, run);
      if (met === Infinity) break;
      finishBy = met;
    }
    lateStart[v] = run.start;
    lateFinish[v] = run.finish;
  }

  /** The first instant at which a shifted run would meet a task it keeps clear of; Infinity if it meets none. */
  #met(v: number, run: Run): number {
    const { clearOfEarlier, clearOfLater } = this.#course;
    const earlier = clearOfEarlier[v]!;
    const later = clearOfLater[v]!;
    if (earlier === null && later === null) return Infinity;
    let met = Infinity;
    for (const clear of earlier ?? []) met = Math.min(met, this.#meets(v, run, clear));
    for (const clear of later ?? []) met = Math.min(met, this.#meets(v, run, clear));
    return met;
  }

  #meets(v: number, { start, finish }: Run, { other: u, room }: Clear): number {
    const { sets, holdsRooms, net } = this.#course;
    const set = this.set;
    const from = this.#lateStart[u]!;
    const to = this.#lateFinish[u]!;
    if (!room) return firstMeeting(sets[set[u]!]!, from, to, sets[set[v]!]!, start, finish);
    const leave = holdsRooms[v] === 1 ? readyAt(net, sets, v, finish) : finish;
    const left = holdsRooms[u] === 1 ? readyAt(net, sets, u, to) : to;
    if (leave <= from || left <= start) return Infinity;
    return holdsRooms[v] === 1 ? finishFor(net, sets, v, from) : from;
  }

  /** After `backward`: would the end have moved had it begun a sitting later? The rule of `drivingChain`. */
  drove(v: number): boolean {
    const { sets } = this.#course;
    const set = this.set;
    const from = this.start[v]!;
    const to = this.#lateStart[v]!;
    if (from === to) return true;
    if (dayIndex(from) !== dayIndex(to)) return false;
    return this.minutes[v] === 0 || inSameSitting(sets[set[v]!]!, from, to);
  }
}
