/** A zone's stack for choosing and reading: one row a depth from the inside to the metal, with who works there. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import type { Depth, Zone } from '#shared/contract/shell.ts';
import type { Task } from '#shared/contract/task.ts';
import { smallStack, type SmallBand } from '../../drawing/small-stack.ts';

export interface StackRow {
  readonly depth: Depth;
  /** How it is drawn; null where no task works at it. */
  readonly band: SmallBand | null;
  /** Those that work at it, as listed in the build. */
  readonly tasks: readonly Task[];
  /** Those of them that cover what is behind, soonest first. */
  readonly covers: readonly Cover[];
}

export interface Cover {
  readonly task: Task;
  /** The day it starts or started; null without a date. */
  readonly on: string | null;
}

/** @returns rows from the inside outwards: what is reached first comes first */
export function stackRows(file: BuildFile, plan: Plan, zone: Zone): StackRow[] {
  const depthOf = new Map(file.depths.map((depth) => [depth.key, depth]));
  const bands = new Map(smallStack(file, plan, zone.key).map((band) => [band.depth, band]));
  return zone.depths
    .map((key): StackRow => {
      const at = (task: Task) =>
        task.places.filter((place) => place.zone === zone.key && place.depth === key);
      const tasks = file.tasks.filter((task) => at(task).length > 0);
      return {
        depth: depthOf.get(key) ?? { key, name: key, hatch: 'plain' },
        band: bands.get(key) ?? null,
        tasks,
        covers: tasks
          .filter((task) => at(task).some(({ hides }) => hides !== null))
          .map((task): Cover => ({ task, on: startOf(task, plan) }))
          .sort((a, b) => ((a.on ?? '9') < (b.on ?? '9') ? -1 : 1)),
      };
    })
    .reverse();
}

/** The day a task starts or started. */
export function startOf(task: Task, plan: Plan): string | null {
  return (task.startedAt ?? plan.tasks[task.key]?.dates?.start ?? null)?.slice(0, 10) ?? null;
}
