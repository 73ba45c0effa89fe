/**
 * How far the plan has drifted from a frozen one, like against like, so that on the day it is frozen nothing has. Dates
 * are held against dates; hours against the estimates of now, and against what was logged where a task was finished
 * since; the money of a task (its share of its phase's budget) against its share now. Only the money of a phase and of
 * the whole is held against the forecast, as on the Money sheet: parts are bought by the phase.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Baseline } from '../contract/log.ts';
import type { Plan } from '../contract/plan.ts';
import { estimatedOf } from '../progress/pace.ts';
import { dayNumber } from '../time/days.ts';
import { frozenNow } from './freeze.ts';

/** A figure frozen and now; `by` is how much it grew, null where one of them is not known. */
export interface Grown {
  readonly frozen: number | null;
  readonly now: number | null;
  readonly by: number | null;
}

/** Instants frozen and now; `days` later is positive, null where one of them is not known. */
export interface Moved {
  readonly frozen: string | null;
  readonly now: string | null;
  readonly days: number | null;
}

export interface TaskDrift {
  readonly key: string;
  readonly name: string;
  readonly phase: string | null;
  readonly start: Moved;
  readonly finish: Moved;
  /** Person-minutes. */
  readonly minutes: Grown;
  /** Minor units. */
  readonly money: Grown;
}

export interface PhaseDrift {
  /** Null: tasks of no phase. */
  readonly phase: string | null;
  /** The first start and the last finish of its tasks. */
  readonly start: Moved;
  readonly finish: Moved;
  readonly minutes: Grown;
  readonly money: Grown;
  /** Tasks that were frozen, and those that came since. */
  readonly tasks: number;
  readonly added: number;
}

export interface Drift {
  readonly finish: Moved;
  readonly minutes: Grown;
  readonly money: Grown;
  /** In the order of the build's phases, those that have tasks; tasks of no phase last. */
  readonly phases: readonly PhaseDrift[];
  /** Frozen tasks that are still there, the furthest moved first. */
  readonly tasks: readonly TaskDrift[];
  /** Keys of tasks that came since, in the order of the build. */
  readonly added: readonly string[];
  /** Frozen tasks that are no longer there, by key; their names were not frozen. */
  readonly removed: readonly (Baseline['tasks'][string] & { readonly key: string })[];
}

export function driftOf({ on, tasks: frozen }: Baseline, file: BuildFile, plan: Plan): Drift {
  const now = frozenNow(file, plan);
  const minutes = minutesNow(file, { on, tasks: frozen });
  const known = new Set(file.tasks.map(({ key }) => key));
  const tasks = file.tasks.flatMap(({ key, name, phase }): TaskDrift[] => {
    const was = frozen[key];
    if (was === undefined) return [];
    const is = now[key] ?? null;
    return [
      {
        key,
        name,
        phase,
        start: moved(was.start, is?.start ?? null),
        finish: moved(was.finish, is?.finish ?? null),
        minutes: grown(was.minutes, minutes.get(key) ?? null),
        money: grown(was.money, is?.money ?? null),
      },
    ];
  });
  const all = Object.entries(frozen);
  const ends = all.map(([, { finish }]) => finish);
  const unknown = tasks.filter((one) => one.minutes.now === null);
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  return {
    // Ends of work on both sides: the plan's finish has the last wait in it.
    finish: moved(
      last(ends),
      plan.finish.dates === null ? null : last(Object.values(now).map(({ finish }) => finish)),
    ),
    minutes: grown(
      sum(all.map(([, was]) => was.minutes)) - sum(unknown.map((one) => one.minutes.frozen!)),
      sum([...minutes.values()]),
    ),
    money: grown(sum(all.map(([, { money }]) => money)), plan.money.total.forecast),
    phases: phasesOf(file, plan, tasks, now, minutes),
    tasks: tasks.toSorted(furthestFirst),
    added: file.tasks.filter(({ key }) => frozen[key] === undefined).map(({ key }) => key),
    removed: all.filter(([key]) => !known.has(key)).map(([key, was]) => ({ key, ...was })),
  };
}

function phasesOf(
  file: BuildFile,
  plan: Plan,
  tasks: readonly TaskDrift[],
  now: Baseline['tasks'],
  minutesOf: ReadonlyMap<string, number>,
): PhaseDrift[] {
  const names = [...file.phases.map(({ key }) => key), null];
  return names.flatMap((phase): PhaseDrift[] => {
    const own = file.tasks.filter((task) => task.phase === phase);
    if (own.length === 0) return [];
    const frozen = tasks.filter((task) => task.phase === phase);
    const dated = own.flatMap(({ key }) => now[key] ?? []);
    const counted = frozen.filter(({ minutes }) => minutes.now !== null);
    const money = phase === null ? plan.money.unsorted : plan.money.phases[phase];
    return [
      {
        phase,
        start: moved(first(frozen.map(({ start }) => start.frozen!)), first(dated.map(({ start }) => start))),
        finish: moved(
          last(frozen.map(({ finish }) => finish.frozen!)),
          last(dated.map(({ finish }) => finish)),
        ),
        minutes: grown(
          counted.reduce((sum, { minutes }) => sum + minutes.frozen!, 0),
          own.reduce((sum, { key }) => sum + (minutesOf.get(key) ?? 0), 0),
        ),
        money: grown(
          frozen.reduce((sum, { money: one }) => sum + one.frozen!, 0),
          money?.forecast ?? null,
        ),
        tasks: frozen.length,
        added: own.length - frozen.length,
      },
    ];
  });
}

/** Person-minutes of each task by now; without those of which nobody knows what they took. */
function minutesNow(
  { tasks, hours }: BuildFile,
  frozen: Pick<Baseline, 'on' | 'tasks'>,
): Map<string, number> {
  const logged = new Map<string, number>();
  for (const { task, minutes } of hours)
    if (task !== null) logged.set(task, (logged.get(task) ?? 0) + minutes);
  return new Map(
    tasks.flatMap((task): [string, number][] => {
      const { key, state, hoursKnown, finishedAt } = task;
      // What was finished when it was frozen has not changed by being looked at later.
      const isOld =
        finishedAt !== null &&
        finishedAt.slice(0, 10) <= frozen.on &&
        frozen.tasks[key]?.finish === finishedAt;
      if (state !== 'finished' || isOld) return [[key, estimatedOf(task)]];
      return hoursKnown ? [[key, logged.get(key) ?? 0]] : [];
    }),
  );
}

function moved(frozen: string | null, now: string | null): Moved {
  const day = (instant: string) => dayNumber(instant.slice(0, 10));
  return { frozen, now, days: frozen === null || now === null ? null : day(now) - day(frozen) };
}

function grown(frozen: number | null, now: number | null): Grown {
  return { frozen, now, by: frozen === null || now === null ? null : now - frozen };
}

function first(instants: readonly string[]): string | null {
  return instants.reduce<string | null>((best, one) => (best === null || one < best ? one : best), null);
}

function last(instants: readonly string[]): string | null {
  return instants.reduce<string | null>((best, one) => (best === null || one > best ? one : best), null);
}

function furthestFirst(a: TaskDrift, b: TaskDrift): number {
  const far = ({ finish: { days } }: TaskDrift) => (days === null ? -1 : Math.abs(days));
  return far(b) - far(a) || (a.key < b.key ? -1 : 1);
}
