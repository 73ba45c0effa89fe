/**
 * The earliest place of one task for one team: the first run in which its people and tools are free, then on to where
 * its rooms are free, until both are. Each step is forced: a later start whose run still covers a taken minute or a
 * full room meets it again.
 */
import { minuteAt, runPieces, workedBefore, type WorkingSet } from '../../time/working-set.ts';
import { leastIndex, readyAt, UNPLACED } from '../forward.ts';
import type { Network } from '../network.ts';
import type { NamedRoom } from './resources.ts';
import type { Team } from './teams.ts';
import type { Crew, NamedBusy, Work } from './work.ts';

/** What was in the way last before the place was found. */
export interface Obstacle {
  readonly kind: 'person' | 'tool' | 'zone';
  readonly key: string;
  /** The task node that had it, -1 if that is not known. */
  readonly holder: number;
  readonly until: number;
}

export interface Spot {
  readonly team: Team;
  readonly start: number;
  readonly finish: number;
  readonly ready: number;
  readonly pieces: readonly (readonly [number, number])[];
  /** Null also where nobody asked for reasons. */
  readonly obstacle: Obstacle | null;
}

/** A task as it asks for a place. */
export interface Request {
  readonly work: Work;
  readonly lower: number;
  readonly lowerFinish: number;
  /** Whether to say what was in the way; it costs more than finding the place. */
  readonly explain: boolean;
}

const NOBODY: Team = { people: [], set: -1 };

/**
 * @param crew null for a task without minutes
 * @param stopAfter give up once the finish would lie after this
 * @returns null if there is no such place in the calendar
 */
export function earliestSpot(
  net: Network,
  sets: readonly WorkingSet[],
  request: Request,
  crew: Crew | null,
  stopAfter: number,
): Spot | null {
  const { work, lower, lowerFinish, explain } = request;
  const { v, minutes, sitting, rooms } = work;
  const run = crew === null ? null : new RunSearch(sets[crew.set]!, request, crew);
  let from = lower;
  let obstacle: Obstacle | null = null;
  for (;;) {
    const start = run === null ? Math.max(from, lowerFinish) : run.next(from, minutes, sitting);
    if (start >= UNPLACED) return null;
    const finish = run === null ? start : run.finish;
    if (finish > stopAfter || finish >= UNPLACED) return null;
    const ready = readyAt(net, sets, v, finish);
    const full = fullRoom(rooms, start, work.holdsRooms ? ready : finish, explain);
    if (full === null) {
      const pieces = crew === null ? [] : runPieces(sets[crew.set]!, start, minutes);
      const inTheWay = explain ? (run?.obstacle() ?? obstacle) : null;
      return { team: crew ?? NOBODY, start, finish, ready, pieces, obstacle: inTheWay };
    }
    from = full.until;
    obstacle = full;
  }
}

/** The runs a crew could make, first to last. */
class RunSearch {
  readonly #set: WorkingSet;
  readonly #tools: readonly NamedBusy[];
  readonly #crew: Crew;
  readonly #least: number;
  /** The worked minute that was in the way last; -1 if none was. */
  #last = -1;
  /** Where the run found last ends. */
  finish = UNPLACED;

  constructor(set: WorkingSet, { work, lowerFinish }: Request, crew: Crew) {
    this.#set = set;
    this.#crew = crew;
    this.#tools = work.tools;
    this.#least = leastIndex(set, lowerFinish, work.minutes);
  }

  /** The start of the first free run from an instant on; UNPLACED if there is none. */
  next(from: number, minutes: number, sitting: number): number {
    const index = Math.max(this.#least, workedBefore(this.#set, from));
    const found = this.#crew.taken.firstFree(index, minutes, sitting);
    this.#last = found.last;
    if (found.index < 0) return UNPLACED;
    this.finish = minuteAt(this.#set, found.index + minutes - 1) + 1;
    return minuteAt(this.#set, found.index);
  }

  /** Who of the crew, or which tool, was taken last before the run found last; null if nobody was. */
  obstacle(): Obstacle | null {
    if (this.#last < 0) return null;
    const minute = minuteAt(this.#set, this.#last);
    return takenAt('person', this.#crew.members, minute) ?? takenAt('tool', this.#tools, minute);
  }
}

function takenAt(kind: 'person' | 'tool', among: readonly NamedBusy[], minute: number): Obstacle | null {
  for (const { key, busy } of among) {
    const at = busy.at(minute);
    if (at >= 0) return { kind, key, holder: busy.holderOf(at), until: busy.endOf(at) };
  }
  return null;
}

/** The first room that is full at some moment of a stay. */
function fullRoom(
  rooms: readonly NamedRoom[],
  start: number,
  leave: number,
  explain: boolean,
): Obstacle | null {
  if (start >= leave) return null;
  for (const { key, room } of rooms) {
    const until = room.fullUntil(start, leave);
    if (until >= 0) return { kind: 'zone', key, holder: explain ? room.leavingAt(until) : -1, until };
  }
  return null;
}

export function takeSpot({ v, crews, tools, rooms, holdsRooms }: Work, spot: Spot): void {
  for (const { busy } of membersOf(crews, spot)) busy.take(spot.pieces, v);
  for (const { busy } of tools) busy.take(spot.pieces, v);
  const leave = holdsRooms ? spot.ready : spot.finish;
  for (const { room } of rooms) room.enter(spot.start, leave, v);
}

export function leaveSpot({ v, crews, tools, rooms }: Work, spot: Spot): void {
  for (const { busy } of membersOf(crews, spot)) busy.release(v);
  for (const { busy } of tools) busy.release(v);
  for (const { room } of rooms) room.leave(v);
}

function membersOf(crews: readonly Crew[], { team }: Spot): readonly NamedBusy[] {
  return crews.find((crew) => crew === team)?.members ?? [];
}
