/** The plan as it stands, frozen: per dated task its start, finish and person-minutes, and its share of its phase's budget. */
import type { BuildFile } from '../contract/build-file.ts';
import type { Baseline } from '../contract/log.ts';
import type { Plan } from '../contract/plan.ts';
import { spread } from '../money/rounding.ts';

export function frozenNow({ tasks, phases }: BuildFile, plan: Plan): Baseline['tasks'] {
  const minutesOf = (task: BuildFile['tasks'][number]) => task.minutes.likely * task.people;
  const money = new Map<string, number>();
  for (const { key, budget } of phases) {
    const own = tasks.filter(({ phase }) => phase === key);
    spread(budget, own.map(minutesOf)).forEach((share, i) => money.set(own[i]!.key, share));
  }
  return Object.fromEntries(
    tasks.flatMap((task) => {
      const dates = plan.tasks[task.key]?.dates;
      const start = task.startedAt ?? dates?.start;
      const finish = task.finishedAt ?? dates?.finish;
      if (start === undefined || finish === undefined) return [];
      return [[task.key, { start, finish, minutes: minutesOf(task), money: money.get(task.key) ?? 0 }]];
    }),
  );
}
