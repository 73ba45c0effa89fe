/**
 * Where tasks meet: every zone, and the build as a whole. A site knows its tasks by kind, so a rule finds both of its
 * sides without looking at the others.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Face } from '../contract/shell.ts';
import type { Task } from '../contract/task.ts';
import type { Stack } from '../covers/stacks.ts';
import type { Side } from './rules.ts';

export interface Worker {
  readonly task: Task;
  /** Positions in the zone's stack of its deepest place and of the one furthest in front; 0 in the whole build. */
  readonly reach: number;
  readonly front: number;
}

export interface Site {
  /** Null: the build as a whole. */
  readonly zone: string | null;
  readonly face: Face | null;
  /** Each list by task key. */
  readonly byKind: ReadonlyMap<string, readonly Worker[]>;
}

export interface Sites {
  readonly zones: readonly Site[];
  readonly build: Site;
  readonly facesOf: (task: Task) => readonly Face[];
}

/** @param tasks by key. @param stacks of the zones, by key */
export function sitesOf(file: BuildFile, tasks: readonly Task[], stacks: readonly Stack[]): Sites {
  const faceOf = new Map(file.zones.map(({ key, face }) => [key, face]));
  return {
    zones: stacks.map(({ zone, entries }) => site(zone, faceOf.get(zone)!, entries)),
    build: site(
      null,
      null,
      tasks.map((task) => ({ task, reach: 0, front: 0 })),
    ),
    facesOf: (task) => task.places.map(({ zone }) => faceOf.get(zone)!),
  };
}

function site(zone: string | null, face: Face | null, workers: readonly Worker[]): Site {
  const byKind = new Map<string, Worker[]>();
  for (const worker of workers)
    for (const kind of worker.task.kinds) {
      const list = byKind.get(kind);
      if (list === undefined) byKind.set(kind, [worker]);
      else list.push(worker);
    }
  return { zone, face, byKind };
}

const NOBODY: readonly Worker[] = [];

/** The tasks of a side at a site, each once. */
export function workersOf(sites: Sites, at: Site, side: Side): readonly Worker[] {
  if (side.faces !== undefined && at.face !== null && !side.faces.includes(at.face)) return NOBODY;
  let found: Worker[] | null = null;
  for (const kind of side.kinds)
    for (const worker of at.byKind.get(kind) ?? NOBODY) {
      // Of two kinds of the side it is met twice, and taken at the first.
      if (side.kinds.find((one) => worker.task.kinds.includes(one)) !== kind) continue;
      if (isOn(sites, worker.task, at, side)) (found ??= []).push(worker);
    }
  return found ?? NOBODY;
}

function isOn(sites: Sites, task: Task, at: Site, { unless, faces, only }: Side): boolean {
  if (unless !== undefined && task.kinds.some((kind) => unless.includes(kind))) return false;
  if (faces === undefined || (at.face !== null && only === undefined)) return true;
  const own = sites.facesOf(task);
  return only === true
    ? own.length > 0 && own.every((face) => faces.includes(face))
    : own.some((face) => faces.includes(face));
}
