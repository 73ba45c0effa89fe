/**
 * The earliest place of one task for one team: the first run in which its people and tools are free, then on to where
 * its rooms are free, until both are. Each step is forced: a later start whose run still covers a taken minute or a
 * full room meets it again.
 */
import type { Task } from '../../contract/task.ts';
import { minuteAt, runPieces, workedBefore, type WorkingSet } from '../../time/working-set.ts';
import { leastIndex, readyAt, UNPLACED } from '../forward.ts';
import type { Network } from '../network.ts';
import type { NamedRoom, Resources } from './resources.ts';
import type { Taken } from './taken.ts';
import type { Team } from './teams.ts';

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
  readonly obstacle: Obstacle | null;
}

/** What a task asks for, whoever does it. */
export interface Request {
  readonly v: number;
  readonly task: Task;
  readonly minutes: number;
  readonly sitting: number;
  readonly lower: number;
  readonly lowerFinish: number;
  readonly rooms: readonly NamedRoom[];
}

/**
 * @param stopAfter give up once the finish would lie after this
 * @returns null if there is no such place in the calendar
 */
export function earliestSpot(
  net: Network,
  sets: readonly WorkingSet[],
  resources: Resources,
  request: Request,
  team: Team,
  stopAfter: number,
): Spot | null {
  const { v, task, minutes, sitting, lower, lowerFinish, rooms } = request;
  const run = minutes === 0 ? null : new RunSearch(sets[team.set]!, resources, request, team);
  let from = lower;
  let obstacle: Obstacle | null = null;
  for (;;) {
    const start = run === null ? Math.max(from, lowerFinish) : run.next(from, minutes, sitting);
    if (start >= UNPLACED) return null;
    const finish = run === null ? start : run.finish;
    if (finish > stopAfter || finish >= UNPLACED) return null;
    const ready = readyAt(net, sets, v, finish);
    const full = fullRoom(rooms, start, task.waitHoldsZones ? ready : finish);
    if (full === null) {
      const pieces = run === null ? [] : runPieces(sets[team.set]!, start, minutes);
      return { team, start, finish, ready, pieces, obstacle: run?.obstacle() ?? obstacle };
    }
    from = full.until;
    obstacle = full;
  }
}

/** The runs a team could make, first to last. */
class RunSearch {
  readonly #set: WorkingSet;
  readonly #resources: Resources;
  readonly #taken: Taken;
  readonly #tools: readonly string[];
  readonly #team: Team;
  readonly #least: number;
  /** The worked minute that was in the way last; -1 if none was. */
  #last = -1;
  /** Where the run found last ends. */
  finish = UNPLACED;

  constructor(set: WorkingSet, resources: Resources, request: Request, team: Team) {
    this.#set = set;
    this.#resources = resources;
    this.#team = team;
    this.#tools = request.task.tools.toSorted();
    this.#taken = resources.takenIn(team.set, set, team.people, this.#tools);
    this.#least = leastIndex(set, request.lowerFinish, request.minutes);
  }

  /** The start of the first free run from an instant on; UNPLACED if there is none. */
  next(from: number, minutes: number, sitting: number): number {
    const index = Math.max(this.#least, workedBefore(this.#set, from));
    const found = this.#taken.firstFree(index, minutes, sitting);
    this.#last = found.last;
    if (found.index < 0) return UNPLACED;
    this.finish = minuteAt(this.#set, found.index + minutes - 1) + 1;
    return minuteAt(this.#set, found.index);
  }

  /** Who of the team, or which tool, was taken last before the run found last; null if nobody was. */
  obstacle(): Obstacle | null {
    if (this.#last < 0) return null;
    const minute = minuteAt(this.#set, this.#last);
    for (const key of this.#team.people) {
      const busy = this.#resources.person(key);
      const at = busy.at(minute);
      if (at >= 0) return { kind: 'person', key, holder: busy.holderOf(at), until: busy.endOf(at) };
    }
    for (const key of this.#tools) {
      const busy = this.#resources.tool(key);
      const at = busy.at(minute);
      if (at >= 0) return { kind: 'tool', key, holder: busy.holderOf(at), until: busy.endOf(at) };
    }
    return null;
  }
}

/** The first room that is full at some moment of a stay. */
function fullRoom(rooms: readonly NamedRoom[], start: number, leave: number): Obstacle | null {
  if (start >= leave) return null;
  for (const { key, room } of rooms) {
    const until = room.fullUntil(start, leave);
    if (until >= 0) return { kind: 'zone', key, holder: room.leavingAt(until), until };
  }
  return null;
}

export function takeSpot(resources: Resources, request: Request, spot: Spot): void {
  const { v, task, rooms } = request;
  for (const key of spot.team.people) resources.person(key).take(spot.pieces, v);
  for (const key of task.tools) resources.tool(key).take(spot.pieces, v);
  const leave = task.waitHoldsZones ? spot.ready : spot.finish;
  for (const { room } of rooms) room.enter(spot.start, leave, v);
}

export function leaveSpot(resources: Resources, request: Request, spot: Spot): void {
  const { v, task, rooms } = request;
  for (const key of spot.team.people) resources.person(key).release(v);
  for (const key of task.tools) resources.tool(key).release(v);
  for (const { room } of rooms) room.leave(v);
}
