/** What logging one sitting changes: an entry a task, or one to be sorted later; and each task is begun, further, or done. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Task } from '#shared/contract/task.ts';
import { entriesOf, type Part } from '#shared/progress/log-hours.ts';
import { sittingsOf } from '#shared/progress/sittings.ts';
import { instantAt } from '#shared/progress/timer.ts';
import { workedOn, type HowFar } from '#shared/progress/worked-on.ts';
import { DAY } from '#shared/time/clock.ts';
import { dayNumber } from '#shared/time/days.ts';
import type { Unversioned } from '../../state/check.ts';

export interface Logged {
  readonly person: string;
  readonly on: string;
  readonly note: string;
  readonly minutes: number;
  /** Where it is on no task: the whole phase, or null. */
  readonly phase: string | null;
  readonly tasks: readonly Task[];
  /** What each of several tasks gets; they sum to the minutes. */
  readonly parts: readonly Part[];
  /** Of the only task. */
  readonly howFar: HowFar;
}

export function logEdits(file: BuildFile, logged: Logged, newKey: () => string): readonly Unversioned[] {
  const { person, on, note, minutes, phase, tasks, parts, howFar } = logged;
  const told = { person, on, note };
  const [first] = tasks;
  if (first === undefined) {
    const key = newKey();
    return [{ noun: 'hours', id: key, value: { key, task: null, phase, minutes, ...told } }];
  }
  const given = tasks.length === 1 ? [{ task: first.key, minutes }] : parts;
  const phaseOf = (key: string) => tasks.find((task) => task.key === key)?.phase ?? null;
  const entries = entriesOf(told, given, phaseOf, newKey);
  return [
    ...entries.map((value): Unversioned => ({ noun: 'hours', id: value.key, value })),
    ...tasks.flatMap((task): Unversioned[] => {
      const worked = entries.find((entry) => entry.task === task.key);
      if (worked === undefined) return [];
      const after = workedOn(task, {
        ...sittingOn(file, person, on),
        asOf: file.build.asOf,
        howFar: tasks.length === 1 ? howFar : null,
        logged: loggedTo(file, task.key) + worked.minutes,
      });
      return after === task ? [] : [{ noun: 'tasks', id: task.key, value: after }];
    }),
  ];
}

function loggedTo({ hours }: BuildFile, task: string): number {
  return hours.reduce((sum, one) => sum + (one.task === task ? one.minutes : 0), 0);
}

/** When a day's work most likely began and ended: its windows, else the whole day. */
function sittingOn({ people }: BuildFile, person: string, day: string): { began: string; ended: string } {
  const at = dayNumber(day);
  const one = people.find(({ key }) => key === person);
  const sittings = one === undefined ? [] : sittingsOf(one, at, at);
  const [first, last] = [sittings[0], sittings.at(-1)];
  return {
    began: first === undefined ? `${day}T00:00` : instantAt(first.start),
    ended: last === undefined ? `${day}T23:59` : instantAt(Math.min(last.end, (at + 1) * DAY - 1)),
  };
}
