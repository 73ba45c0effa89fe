/**
 * The earliest place of one task for one team: jump to the end of whatever is in the way until nothing is. Each jump
 * is forced, because a later start whose run still covers a taken minute or a full room meets it again.
 */
import type { Task } from '../../contract/task.ts';
import { finishOf, runPieces, type WorkingSet } from '../../time/working-set.ts';
import { earliestStart, readyAt, UNPLACED } from '../forward.ts';
import type { Network } from '../network.ts';
import type { NamedRoom, Resources } from './resources.ts';
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
  const { v, task, minutes, sitting, lowerFinish, rooms } = request;
  let from = request.lower;
  let obstacle: Obstacle | null = null;
  for (;;) {
    let start: number;
    let finish: number;
    let pieces: [number, number][] = [];
    if (minutes === 0) start = finish = Math.max(from, lowerFinish);
    else {
      const set = sets[team.set]!;
      start = earliestStart(set, from, lowerFinish, minutes, sitting);
      if (start === UNPLACED) return null;
      finish = finishOf(set, start, minutes);
      if (finish > stopAfter) return null;
      pieces = runPieces(set, start, minutes);
    }
    const ready = readyAt(net, sets, v, finish);
    const met = inTheWay(resources, rooms, team, task, start, task.waitHoldsZones ? ready : finish, pieces);
    if (met === null) return { team, start, finish, ready, pieces, obstacle };
    obstacle = met;
    from = met.until;
  }
}

function inTheWay(
  resources: Resources,
  rooms: readonly NamedRoom[],
  team: Team,
  task: Task,
  start: number,
  leave: number,
  pieces: readonly (readonly [number, number])[],
): Obstacle | null {
  for (const [from, to] of pieces) {
    for (const key of team.people) {
      const busy = resources.person(key);
      const at = busy.conflict(from, to);
      if (at >= 0) return { kind: 'person', key, holder: busy.holderOf(at), until: busy.endOf(at) };
    }
    for (const key of task.tools) {
      const busy = resources.tool(key);
      const at = busy.conflict(from, to);
      if (at >= 0) return { kind: 'tool', key, holder: busy.holderOf(at), until: busy.endOf(at) };
    }
  }
  if (start < leave)
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
