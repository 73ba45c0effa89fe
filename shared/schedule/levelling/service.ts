/**
 * The order in which each person, tool and room serves its tasks, read off the dates. A room for several counts as so
 * many places; a task takes the place that has been empty longest, so that it waits for as few others as can be.
 */
import { instantOf } from '../../time/clock.ts';
import type { Basis } from '../basis.ts';
import { readyOfFinished } from '../build-network.ts';
import { NO_LOWER } from '../network.ts';
import type { Levelled } from './generate.ts';
import { Resources } from './resources.ts';
import type { Room } from './room.ts';

/** The tasks of one person or tool, by start. */
export interface Line {
  readonly tasks: readonly number[];
}

export interface Service {
  /** Per task node: the lines it stands in, and at which place. */
  readonly lines: readonly (readonly { readonly line: Line; readonly place: number }[])[];
  /** Per task node: those that share a person or tool with it and are worked on by turns with it. */
  readonly byTurns: readonly (readonly number[])[];
  /** Per task node: those that take its place in a room after it. */
  readonly successors: readonly (readonly number[])[];
  /** Per task node: until when the wait of a finished task shuts its place in a room; NO_LOWER where none does. */
  readonly shutUntil: Int32Array;
  /** Per place of a room: the tasks that take it, one after the other. */
  readonly places: readonly Line[];
}

/** @param ids task keys by node */
export function serviceOf(basis: Basis, ids: readonly string[], levelled: Levelled): Service {
  const count = levelled.spots.length;
  const byStart = Array.from({ length: count }, (_, v) => v)
    .filter((v) => levelled.spots[v] !== null)
    .sort((a, b) => levelled.start[a]! - levelled.start[b]! || a - b);
  const lines: { line: Line; place: number }[][] = Array.from({ length: count }, () => []);
  const byTurns: number[][] = Array.from({ length: count }, () => []);
  for (const tasks of workOf(basis, ids, levelled, byStart).values()) {
    const line = { tasks };
    tasks.forEach((v, place) => lines[v]!.push({ line, place }));
    // Those begun before it and not ended when it begins: seldom more than one.
    let open: number[] = [];
    for (const v of tasks) {
      open = open.filter((u) => levelled.finish[u]! > levelled.start[v]!);
      for (const u of open) {
        byTurns[u]!.push(v);
        byTurns[v]!.push(u);
      }
      open.push(v);
    }
  }
  return { lines, byTurns, ...servedByRooms(basis, ids, levelled, byStart) };
}

/** By person or tool: the tasks it serves. */
function workOf(
  basis: Basis,
  ids: readonly string[],
  { spots }: Levelled,
  byStart: readonly number[],
): Map<string, number[]> {
  const work = new Map<string, number[]>();
  for (const v of byStart) {
    const { pieces, team } = spots[v]!;
    if (pieces.length === 0) continue;
    const { tools } = basis.taskOf.get(ids[v]!)!;
    for (const name of [...team.people.map((key) => `person ${key}`), ...tools.map((key) => `tool ${key}`)]) {
      const tasks = work.get(name);
      if (tasks === undefined) work.set(name, [v]);
      else tasks.push(v);
    }
  }
  return work;
}

interface Stay {
  /** -1: a finished task whose wait still shuts the room. */
  readonly v: number;
  readonly from: number;
  readonly to: number;
  readonly rooms: readonly Room[];
}

function servedByRooms(
  basis: Basis,
  ids: readonly string[],
  levelled: Levelled,
  byStart: readonly number[],
): Pick<Service, 'successors' | 'shutUntil' | 'places'> {
  const shutUntil = new Int32Array(levelled.spots.length).fill(NO_LOWER);
  const successors: number[][] = Array.from({ length: levelled.spots.length }, () => []);
  const places = new Map<Room, { stay: Stay; readonly line: number[] }[]>();
  for (const stay of staysOf(basis, ids, levelled, byStart))
    for (const room of stay.rooms) {
      const taken = places.get(room) ?? [];
      places.set(room, taken);
      const { v } = stay;
      if (taken.length < room.capacity) {
        taken.push({ stay, line: v >= 0 ? [v] : [] });
        continue;
      }
      const longest = taken.reduce((a, b) => (b.stay.to < a.stay.to ? b : a));
      const before = longest.stay;
      longest.stay = stay;
      if (v < 0) continue;
      longest.line.push(v);
      if (before.v >= 0) successors[before.v]!.push(v);
      else shutUntil[v] = Math.max(shutUntil[v]!, before.to);
    }
  const lines = [...places.values()].flatMap((taken) => taken.map(({ line }) => ({ tasks: line })));
  return { successors, shutUntil, places: lines };
}

function staysOf(
  basis: Basis,
  ids: readonly string[],
  { start, finish, ready }: Levelled,
  byStart: readonly number[],
): Stay[] {
  const resources = new Resources(basis);
  const stays: Stay[] = [];
  for (const task of basis.tasks)
    if (task.state === 'finished' && task.waitHoldsZones && task.waitMinutes > 0)
      stays.push({
        v: -1,
        from: instantOf(basis.clock, task.finishedAt!),
        to: readyOfFinished(basis, task),
        rooms: resources.roomsOf(task).map(({ room }) => room),
      });
  for (const v of byStart) {
    const task = basis.taskOf.get(ids[v]!)!;
    const to = task.waitHoldsZones ? ready[v]! : finish[v]!;
    if (task.state === 'finished' || to <= start[v]!) continue;
    stays.push({ v, from: start[v]!, to, rooms: resources.roomsOf(task).map(({ room }) => room) });
  }
  return stays.sort((a, b) => a.from - b.from || a.v - b.v);
}
