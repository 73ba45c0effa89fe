/**
 * The driving chain: what cannot be put off to another sitting without moving the plan's end. Everything is shifted as
 * far right as links, waits, windows and the end allow, teams kept, and people, tools and rooms serving their tasks in
 * the order of the dates; what stays in its sitting is on the chain. A fixed date is no end, so it holds nothing here.
 */
import { dayIndex } from '../time/clock.ts';
import {
  backFrom,
  finishOf,
  inSameSitting,
  lastStart,
  runPieces,
  type WorkingSet,
} from '../time/working-set.ts';
import { finishFor } from './backward.ts';
import type { Draft } from './draft.ts';
import { readyAt, type Dates } from './forward.ts';
import { serviceOf, type Line, type Service } from './levelling/service.ts';
import {
  CLOCK,
  FF,
  isLagged,
  isWorking,
  kindOf,
  NO_UPPER,
  NOT_BEGUN,
  SS,
  targetOf,
  type Network,
} from './network.ts';

/** Links to a finish may let one task wait for another that is shifted after it; more rounds than this are not made. */
const MOST_ROUNDS = 20;

type Needed = Pick<Draft, 'basis' | 'graph' | 'net' | 'levelled' | 'path'>;

/** @returns per task node: is it on the chain? Null when the plan's end is not known */
export function drivingChain(draft: Needed): boolean[] | null {
  const shifted = shiftRight(draft);
  if (shifted === null) return null;
  const { net, basis, levelled } = draft;
  return levelled.spots.map((spot, v) => {
    const [from, to] = [levelled.start[v]!, shifted.start[v]!];
    if (from === to || net.minutes[v] === 0 || dayIndex(from) !== dayIndex(to))
      return dayIndex(from) === dayIndex(to);
    return inSameSitting(basis.calendar.sets[spot!.team.set]!, from, to);
  });
}

/** The dates of every node as late as the plan's end allows; null when that is not known. */
export function shiftRight(draft: Needed): Dates | null {
  const { levelled, net, path } = draft;
  if (levelled.end === null) return null;
  const shift = new Shift(draft, levelled.end);
  const place = new Int32Array(net.size).fill(net.size);
  path.early.order.forEach((v, i) => (place[v] = i));
  const order = Array.from({ length: net.size }, (_, v) => v).sort(
    (a, b) => levelled.start[b]! - levelled.start[a]! || place[b]! - place[a]! || b - a,
  );
  for (let round = 0; round < MOST_ROUNDS && shift.round(order); round++);
  return shift;
}

class Shift implements Dates {
  readonly start: Int32Array;
  readonly finish: Int32Array;
  readonly ready: Int32Array;
  readonly #draft: Needed;
  readonly #net: Network;
  readonly #sets: readonly WorkingSet[];
  readonly #end: number;
  readonly #service: Service;
  /** Per line and place: the earliest start from that place on. */
  readonly #earliest = new Map<Line, Int32Array>();

  constructor(draft: Needed, end: number) {
    const { basis, graph, net, levelled } = draft;
    this.#draft = draft;
    this.#net = net;
    this.#sets = basis.calendar.sets;
    this.#end = end;
    this.#service = serviceOf(basis, graph.ids, levelled);
    this.start = levelled.start.slice();
    this.finish = levelled.finish.slice();
    this.ready = levelled.ready.slice();
  }

  /** Shifts each node once. @returns whether one has moved */
  round(order: readonly number[]): boolean {
    let moved = false;
    for (const v of order) if (this.#shift(v)) moved = true;
    return moved;
  }

  #shift(v: number): boolean {
    const before = this.start[v]!;
    const { startBy, finishBy } = this.#limits(v);
    const start = this.#latest(v, startBy, finishBy);
    if (start > before) {
      this.start[v] = start;
      this.finish[v] = this.#finishOf(v, start);
      this.ready[v] = v < this.#net.taskCount ? readyAt(this.#net, this.#sets, v, this.finish[v]!) : start;
    }
    for (const { line, place } of this.#service.lines[v] ?? []) this.#note(line, place);
    return start > before;
  }
  /** What comes after it, in the network, at its people and tools and in its rooms, allows it. */
  #limits(v: number): { startBy: number; finishBy: number } {
    const { codes, offsets, begun, taskCount } = this.#net;
    let startBy = NO_UPPER;
    let finishBy = NO_UPPER;
    let readyBy = this.#end;
    for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) {
      const bound = this.#boundBy(arc);
      const kind = kindOf(codes[arc]!);
      if (kind === 0) readyBy = Math.min(readyBy, bound);
      else if (kind === FF) finishBy = Math.min(finishBy, bound);
      // What hangs on the start of a started task hangs on a day that has been.
      else if (begun[v] === NOT_BEGUN) startBy = Math.min(startBy, bound);
    }
    if (v < taskCount) {
      const next = this.#nextInRooms(v);
      if (this.#holdsRooms(v)) readyBy = Math.min(readyBy, next);
      else finishBy = Math.min(finishBy, next);
      finishBy = Math.min(finishBy, this.#nextOfPeople(v));
    }
    return { startBy, finishBy: Math.min(finishBy, finishFor(this.#net, this.#sets, v, readyBy)) };
  }

  #boundBy(arc: number): number {
    const code = this.#net.codes[arc]!;
    const w = targetOf(code);
    const kind = kindOf(code);
    const bound = kind === 0 || kind === SS ? this.start[w]! : this.finish[w]!;
    if (!isLagged(code)) return bound;
    const set = this.#net.set[w]!;
    const lag = this.#net.lags[arc]!;
    return isWorking(code) && set !== CLOCK ? backFrom(this.#sets[set]!, bound, lag) : bound - lag;
  }

  #holdsRooms(v: number): boolean {
    const { basis, graph } = this.#draft;
    return basis.taskOf.get(graph.ids[v]!)!.waitHoldsZones;
  }

  #nextInRooms(v: number): number {
    return this.#service.successors[v]!.reduce((by, w) => Math.min(by, this.start[w]!), NO_UPPER);
  }

  /** The earliest start of those its people and tools serve once it is done. */
  #nextOfPeople(v: number): number {
    const { start, finish } = this.#draft.levelled;
    let by = NO_UPPER;
    for (const { line, place } of this.#service.lines[v]!) {
      let after = place + 1;
      while (after < line.tasks.length && start[line.tasks[after]!]! < finish[v]!) after++;
      if (after < line.tasks.length) by = Math.min(by, this.#earliest.get(line)![after]!);
    }
    return by;
  }

  #note(line: Line, place: number): void {
    const { length } = line.tasks;
    let earliest = this.#earliest.get(line);
    if (earliest === undefined) {
      earliest = new Int32Array(length + 1).fill(NO_UPPER);
      this.#earliest.set(line, earliest);
    }
    earliest[place] = Math.min(this.start[line.tasks[place]!]!, earliest[place + 1]!);
  }

  /** The last start within the limits; the limits of what it is worked on by turns with are its stretches of work. */
  #latest(v: number, startBy: number, finishBy: number): number {
    const minutes = this.#net.minutes[v]!;
    if (minutes === 0) return Math.min(startBy, finishBy);
    const set = this.#setOf(v);
    const taken = this.#service.byTurns[v]!.flatMap((u) =>
      runPieces(this.#setOf(u), this.start[u]!, this.#net.minutes[u]!),
    );
    for (let by = finishBy; ;) {
      const start = lastStart(set, startBy, by, minutes, this.#net.sitting[v]!);
      // Nearly nothing is worked on by turns.
      if (taken.length === 0 || start <= this.start[v]!) return start;
      const met = runPieces(set, start, minutes).flatMap(([from, to]) =>
        taken.filter(([begin, end]) => begin < to && from < end).map(([begin]) => begin),
      );
      if (met.length === 0) return start;
      by = Math.min(...met);
    }
  }

  #setOf(v: number): WorkingSet {
    return this.#sets[this.#draft.levelled.spots[v]!.team.set]!;
  }

  #finishOf(v: number, start: number): number {
    const minutes = this.#net.minutes[v]!;
    return minutes === 0 ? start : finishOf(this.#setOf(v), start, minutes);
  }
}
