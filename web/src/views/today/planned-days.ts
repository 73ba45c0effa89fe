/** The sittings of the plan from now on, by day: who works when on what, as the start sheet lists it. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan, PlannedTask } from '#shared/contract/plan.ts';
import type { Task } from '#shared/contract/task.ts';
import { clockFrom, DAY, dayIndex, dayOfBuild, instantOf } from '#shared/time/clock.ts';

export interface PlannedSitting {
  readonly task: Task;
  readonly planned: PlannedTask;
  /** Stretches within the day, minutes from its 00:00. */
  readonly bars: readonly (readonly [number, number])[];
  readonly minutes: number;
  /** The first of this task from now on: here it is started or finished. */
  readonly first: boolean;
  /** Zones that close with its start. */
  readonly closes: readonly string[];
}

export interface PlannedDay {
  readonly day: string;
  readonly sittings: readonly PlannedSitting[];
  /** Person-minutes. */
  readonly minutes: number;
}

/** Days with work, from the as-of moment. @param days how many to look ahead, today counted */
export function plannedDays(file: BuildFile, plan: Plan, days: number): PlannedDay[] {
  const clock = clockFrom(file.build.startOn);
  const now = instantOf(clock, plan.asOf);
  const today = dayIndex(now);
  const byDay = new Map<number, Map<string, [number, number][]>>();
  for (const task of file.tasks) {
    for (const [from, to] of plan.tasks[task.key]?.dates?.sittings ?? []) {
      const start = Math.max(from, now);
      const day = dayIndex(start);
      if (to <= now || day >= today + days) continue;
      const here = byDay.get(day) ?? new Map<string, [number, number][]>();
      byDay.set(day, here);
      here.set(task.key, [...(here.get(task.key) ?? []), [start - day * DAY, to - day * DAY]]);
    }
  }
  const tasks = new Map(file.tasks.map((task) => [task.key, task]));
  const seen = new Set<string>();
  return [...byDay.keys()]
    .toSorted((a, b) => a - b)
    .map((day) => {
      const here = [...byDay.get(day)!].toSorted(([a, [x]], [b, [y]]) => x![0] - y![0] || (a < b ? -1 : 1));
      const sittings = here.map(([key, bars]): PlannedSitting => {
        const first = !seen.has(key);
        seen.add(key);
        const task = tasks.get(key)!;
        return {
          task,
          planned: plan.tasks[key]!,
          bars,
          minutes: bars.reduce((sum, [from, to]) => sum + to - from, 0),
          first,
          closes:
            first && task.state === 'not-started'
              ? plan.closings.filter(({ by }) => by === key).map(({ zone }) => zone)
              : [],
        };
      });
      return {
        day: dayOfBuild(clock, day),
        sittings,
        minutes: sittings.reduce(
          (sum, { minutes, planned }) => sum + minutes * Math.max(1, planned.dates?.people.length ?? 1),
          0,
        ),
      };
    });
}

/** Person-minutes per person over those days, most first. */
export function hoursOf(
  days: readonly PlannedDay[],
): { readonly person: string; readonly minutes: number }[] {
  const sums = new Map<string, number>();
  for (const { sittings } of days)
    for (const { planned, minutes } of sittings)
      for (const person of planned.dates?.people ?? []) sums.set(person, (sums.get(person) ?? 0) + minutes);
  return [...sums]
    .map(([person, minutes]) => ({ person, minutes }))
    .toSorted((a, b) => b.minutes - a.minutes || (a.person < b.person ? -1 : 1));
}

/** Whole days from the first on, as many as have about that many sittings together. */
export function firstDays(days: readonly PlannedDay[], sittings: number): PlannedDay[] {
  let count = 0;
  return days.filter((day, i) => {
    const before = count;
    count += day.sittings.length;
    return i === 0 || before + day.sittings.length <= sittings;
  });
}
