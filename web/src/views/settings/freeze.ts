/** The plan as it stands, frozen: per dated task its start, finish and person-minutes, and its share of its phase's budget. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Baseline } from '#shared/contract/log.ts';
import type { Plan } from '#shared/contract/plan.ts';

export function frozenNow({ tasks, phases }: BuildFile, plan: Plan): Baseline['tasks'] {
  const budget = new Map(phases.map((phase) => [phase.key, phase.budget]));
  const work = new Map<string, number>();
  const minutesOf = (task: BuildFile['tasks'][number]) => task.minutes.likely * task.people;
  for (const task of tasks)
    if (task.phase !== null) work.set(task.phase, (work.get(task.phase) ?? 0) + minutesOf(task));
  return Object.fromEntries(
    tasks.flatMap((task) => {
      const dates = plan.tasks[task.key]?.dates;
      const start = task.startedAt ?? dates?.start;
      const finish = task.finishedAt ?? dates?.finish;
      if (start === undefined || finish === undefined) return [];
      const all = task.phase === null ? 0 : (work.get(task.phase) ?? 0);
      const money = all === 0 ? 0 : Math.round(((budget.get(task.phase!) ?? 0) * minutesOf(task)) / all);
      return [[task.key, { start, finish, minutes: minutesOf(task), money }]];
    }),
  );
}
