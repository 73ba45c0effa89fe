/**
 * Pace: how many hours the work takes per hour estimated. A phase's pace leans on the build's, and the build's on the
 * builder's prior, the more so the less is finished (shrinkage with weights of 20 h and 40 h).
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Task } from '../contract/task.ts';

/** Person-minutes at which a phase's own record weighs as much as the build's pace. */
const PHASE_WEIGHT = 20 * 60;
/** Person-minutes at which the build's record weighs as much as the prior. */
const BUILD_WEIGHT = 40 * 60;

export interface Paces {
  readonly build: number;
  /** By phase key. */
  readonly phases: ReadonlyMap<string, number>;
  /** Phases with no finished task of known hours: their pace is only assumed. */
  readonly assumed: ReadonlySet<string>;
  /** Estimated person-minutes of what is finished with known hours: what the paces rest on. */
  readonly known: number;
}

/** Person-minutes logged to each task. */
export function loggedByTask(file: BuildFile): Map<string, number> {
  const logged = new Map<string, number>();
  for (const { task, minutes } of file.hours)
    if (task !== null) logged.set(task, (logged.get(task) ?? 0) + minutes);
  return logged;
}

export function estimatedOf(task: Task): number {
  return task.minutes.likely * task.people;
}

export function pacesOf(file: BuildFile, logged: ReadonlyMap<string, number>): Paces {
  const { use, prior } = file.build.pace;
  const took = new Map<string, number>(file.phases.map(({ key }) => [key, 0]));
  const estimated = new Map<string, number>(file.phases.map(({ key }) => [key, 0]));
  let allTook = 0;
  let allEstimated = 0;
  for (const task of file.tasks) {
    if (task.state !== 'finished' || !task.hoursKnown) continue;
    const minutes = logged.get(task.key) ?? 0;
    allTook += minutes;
    allEstimated += estimatedOf(task);
    if (task.phase === null) continue;
    took.set(task.phase, took.get(task.phase)! + minutes);
    estimated.set(task.phase, estimated.get(task.phase)! + estimatedOf(task));
  }
  const build = use ? (allTook + BUILD_WEIGHT * prior) / (allEstimated + BUILD_WEIGHT) : 1;
  const phases = new Map<string, number>();
  const assumed = new Set<string>();
  for (const { key } of file.phases) {
    if (estimated.get(key) === 0) assumed.add(key);
    phases.set(key, use ? (took.get(key)! + PHASE_WEIGHT * build) / (estimated.get(key)! + PHASE_WEIGHT) : 1);
  }
  return { build, phases, assumed, known: allEstimated };
}

export function paceOf(task: Task, paces: Paces): number {
  return (task.phase === null ? undefined : paces.phases.get(task.phase)) ?? paces.build;
}
