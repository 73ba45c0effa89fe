/**
 * A population that lives by itself. Where time can be turned round it has two halves, of forward and of backward
 * schedules, each bred from lists of the other, so that every child is a justification as well (D. Debels,
 * M. Vanhoucke, "A bi-population based genetic algorithm", LNCS 3483, 2005; V. Valls, F. Ballestín, S. Quintanilla,
 * "Justification and RCPSP", EJOR 165, 2005). A child takes the place it was bred for if it is no worse and no copy of
 * another there; so good schedules stay, and spread slowly.
 */
import { turnedRound } from './arcs.ts';
import { compareObjectives, type Decoder, type Schedule } from './decoder.ts';
import type { Digraph } from '../graph/compile.ts';
import { BACKWARD, FORWARD, type Ledger, type Way } from './ledger.ts';
import { areAlike, ListMoves, sortByFalling, sortByRising } from './lists.ts';
import type { Random } from './random.ts';

/** How far all of a child's list is shaken, in places; and how far where that would only repeat its parent. */
const SHAKE = 1.5;
const SHAKE_OF_COPIES = 6;
/** In some children, so many to one activity, a stretch is stirred instead. */
const STIRRED = 15;
const STRETCH = 12;

/** One schedule, kept as the list to go on with: the order of its ends turned round, or of its starts. */
interface Member {
  readonly list: Int32Array;
  readonly objective: Float64Array;
  /** Of the starts: what is alike has the same. */
  print: number;
}

export interface Island {
  /** Forward schedules. */
  forward: Member[];
  /** Backward ones; where there is only one way the same as `forward`. */
  backward: Member[];
}

export class Breeder {
  readonly #decoder: Decoder;
  readonly #ledger: Ledger;
  readonly #random: Random;
  readonly #moves: ListMoves;
  /** Arcs turned round, as lists of each way are walked. */
  readonly #before: readonly [Digraph, Digraph];
  /** A child that has no place yet. */
  #spare: Member;

  constructor(decoder: Decoder, ledger: Ledger, random: Random) {
    this.#decoder = decoder;
    this.#ledger = ledger;
    this.#random = random;
    this.#moves = new ListMoves(decoder.size, random);
    this.#before = [turnedRound(decoder.order), decoder.order];
    this.#spare = this.#blank();
  }

  /** @param lists forward lists; they are used up. Unfinished where the ledger ends it. */
  settle(lists: readonly Int32Array[]): Island {
    const forward: Member[] = [];
    for (const list of lists) {
      if (this.#ledger.isOver) break;
      const member: Member = { ...this.#blank(), list };
      this.#place(member, FORWARD);
      forward.push(member);
    }
    return { forward, backward: this.#decoder.backward === null ? forward : [] };
  }

  /** One generation of each way. @returns how many children are better than what they replace */
  breed(island: Island): number {
    if (this.#decoder.backward === null) return this.#breedInto(island.forward, island.forward, FORWARD);
    const better = this.#breedInto(island.backward, island.forward, BACKWARD);
    return better + this.#breedInto(island.forward, island.backward, FORWARD);
  }

  #breedInto(places: Member[], parents: readonly Member[], way: Way): number {
    let better = 0;
    for (let i = 0; i < parents.length && !this.#ledger.isOver; i++) {
      const child = this.#childOf(parents[i]!, this.#goodOf(parents), way);
      const old = places[i];
      if (old === undefined) {
        places.push(child);
        this.#spare = this.#blank();
        continue;
      }
      const compared = compareObjectives(child.objective, old.objective);
      if (compared > 0 || isIn(places, child)) continue;
      if (compared < 0) better++;
      places[i] = child;
      this.#spare = old;
    }
    return better;
  }

  /** The better of two drawn at random. */
  #goodOf(members: readonly Member[]): Member {
    const a = members[this.#random(members.length)]!;
    const b = members[this.#random(members.length)]!;
    return compareObjectives(b.objective, a.objective) < 0 ? b : a;
  }

  #childOf(mother: Member, father: Member, way: Way): Member {
    const child = this.#spare;
    const [outer, inner] = this.#random(2) === 0 ? [mother, father] : [father, mother];
    const before = this.#before[way];
    this.#moves.cross(child.list, outer.list, inner.list);
    if (this.#random(this.#decoder.size) < STIRRED) this.#moves.shake(child.list, before, STRETCH, STRETCH);
    else this.#moves.shake(child.list, before, SHAKE);
    if (areAlike(child.list, outer.list)) this.#moves.shake(child.list, before, SHAKE_OF_COPIES);
    this.#place(child, way);
    return child;
  }

  #place(member: Member, way: Way): void {
    const { list } = member;
    const schedule = this.#ledger.decode(list, way);
    member.objective.set(schedule.objective);
    member.print = printOf(schedule);
    if (way === FORWARD && this.#decoder.backward !== null) sortByFalling(list.reverse(), schedule.finishes);
    else sortByRising(way === BACKWARD ? list.reverse() : list, schedule.starts);
  }

  #blank(): Member {
    const { size, goals } = this.#decoder;
    return { list: new Int32Array(size), objective: new Float64Array(goals), print: 0 };
  }
}

/** Side by side, so that parents of one meet those of the other. */
export function unite(a: Island, b: Island): Island {
  const forward = [...a.forward, ...b.forward];
  return { forward, backward: a.backward === a.forward ? forward : [...a.backward, ...b.backward] };
}

// Helpers

function isIn(places: readonly Member[], child: Member): boolean {
  for (const { print, objective } of places)
    if (print === child.print && compareObjectives(objective, child.objective) === 0) return true;
  return false;
}

function printOf({ starts }: Schedule): number {
  let print = 0;
  for (let v = 0; v < starts.length; v++) {
    print = Math.imul(print ^ starts[v]!, 0x9e37_79b1);
    print = (print + (print >>> 15)) | 0;
  }
  return print;
}
