/**
 * The basis of a plan: what every later step needs to know of the build, worked out once. Tasks by key; what is left
 * of each, who may do it, in which working set, and from when its parts are in hand.
 */
import type { BuildFile } from '../contract/build-file.ts';
import { byKey } from '../contract/by-key.ts';
import type { Task } from '../contract/task.ts';
import { isOpen } from '../covers/checks.ts';
import { loggedByTask, pacesOf, type Paces } from '../progress/pace.ts';
import { plannedMinutes, shareDone } from '../progress/remaining.ts';
import { arrivalsOf, type Arrival } from '../purchases/arrivals.ts';
import { calendarOf } from '../time/calendar-of.ts';
import type { Calendar } from '../time/calendar.ts';
import { clockFrom, DAY, dayIndex, instantOf, type Clock } from '../time/clock.ts';

export interface Basis {
  readonly file: BuildFile;
  readonly clock: Clock;
  /** The as-of instant, and its day in days since 1970-01-01. */
  readonly asOf: number;
  readonly asOfDay: number;
  readonly calendar: Calendar;
  readonly tasks: readonly Task[];
  readonly taskOf: ReadonlyMap<string, Task>;
  readonly logged: ReadonlyMap<string, number>;
  readonly paces: Paces;
  /** Clock minutes still to work, and share done 0..1, by task key. */
  readonly minutes: ReadonlyMap<string, number>;
  readonly complete: ReadonlyMap<string, number>;
  readonly arrivals: readonly Arrival[];
  /** By task key: the arrivals it waits for. */
  readonly partsOf: ReadonlyMap<string, readonly Arrival[]>;
  /** People anyone may be given as, by key. */
  readonly anyone: readonly string[];
}

/** @param asOf the as-of instant as written. @param back days the calendar reaches before the build's start */
export function basisOf(file: BuildFile, asOf: string, back = 0): Basis {
  const clock = clockFrom(file.build.startOn);
  const asOfMinute = instantOf(clock, asOf);
  const asOfDay = clock.firstDay + dayIndex(asOfMinute);
  const tasks = file.tasks.toSorted(byKey);
  const logged = loggedByTask(file);
  const paces = pacesOf(file, logged);
  const minutes = new Map(
    tasks.map((task) => [task.key, plannedMinutes(task, logged.get(task.key) ?? 0, paces)]),
  );
  const complete = new Map(
    tasks.map((task) => [task.key, shareDone(task, logged.get(task.key) ?? 0, minutes.get(task.key)!)]),
  );
  const arrivals = arrivalsOf(file, asOfDay);
  const partsOf = new Map<string, Arrival[]>();
  for (const arrival of arrivals)
    for (const task of arrival.line.neededBy) partsOf.set(task, [...(partsOf.get(task) ?? []), arrival]);
  return {
    file,
    clock,
    asOf: asOfMinute,
    asOfDay,
    calendar: calendarOf(file, asOfDay, back),
    tasks,
    taskOf: new Map(tasks.map((task) => [task.key, task])),
    logged,
    paces,
    minutes,
    complete,
    arrivals,
    partsOf,
    anyone: file.people
      .filter((person) => !person.byNameOnly)
      .map((person) => person.key)
      .sort(),
  };
}

/** The people who may do a task, by key. */
export function eligibleFor({ anyone }: Basis, task: Task): readonly string[] {
  return task.who.length > 0 ? task.who.toSorted() : anyone;
}

/** The working set of the critical path: enough of the eligible are there, its conditions hold, its tools are there. */
export function relaxedSet(basis: Basis, task: Task): number {
  return basis.calendar.setOf(task.people, eligibleFor(basis, task), task.conditions, task.tools);
}

/** The set its wait runs in; null: day and night. */
export function waitSet(basis: Basis, task: Task): number | null {
  return task.waitConditions.length === 0 ? null : basis.calendar.setOf(0, [], task.waitConditions, []);
}

/** From when a part can be used: 00:00 on the day after it comes; null when it is in hand. */
export function usableFrom({ clock, asOfDay }: Basis, { inHand, day }: Arrival): number | null {
  if (day === null || (inHand && day <= asOfDay)) return null;
  return (day - clock.firstDay + 1) * DAY;
}

/** The tasks that are nodes of the network, and whether each still waits for what comes before it. */
export function liveTasks(tasks: readonly Task[]): Map<string, boolean> {
  const live = new Map<string, boolean>();
  for (const task of tasks) {
    if (task.state !== 'finished') live.set(task.key, true);
    else if (isOpen(task)) live.set(task.key, false);
  }
  return live;
}
