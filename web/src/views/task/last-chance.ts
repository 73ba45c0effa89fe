/** What closes over a task, soonest first: after that it cannot be reached. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { coverPairs } from './cover-pairs.ts';

export interface ClosesOver {
  /** The covering task. */
  readonly by: string;
  /** Its start; null without a date. */
  readonly at: string | null;
  /** It has begun already. */
  readonly shut: boolean;
  /** Zones in which it does. */
  readonly zones: readonly string[];
}

/** Every task that hides it, soonest first; those without a date last. */
export function closesOver(file: BuildFile, plan: Plan, key: string): ClosesOver[] {
  const tasks = new Map(file.tasks.map((task) => [task.key, task]));
  return coverPairs(file, key)
    .inFront.map(({ task, places }): ClosesOver => {
      const cover = tasks.get(task)!;
      return {
        by: task,
        at: cover.startedAt ?? plan.tasks[task]?.dates?.start ?? null,
        shut: cover.state !== 'not-started',
        zones: places.map(({ zone }) => zone),
      };
    })
    .sort((a, b) => ((a.at ?? '9') < (b.at ?? '9') ? -1 : (a.at ?? '9') > (b.at ?? '9') ? 1 : 0));
}

/** The first of them. */
export function lastChanceOf(file: BuildFile, plan: Plan, key: string): ClosesOver | null {
  return closesOver(file, plan, key)[0] ?? null;
}
