/**
 * What runs: the timers of the people who are there. It stays on top of the evening's set and its time counts, so the
 * evening begins with the first timer, unless that was started longer ago than there are hours: then somebody forgot it.
 */
import type { Ask } from './ask.ts';
import type { BuildFile } from '../contract/build-file.ts';
import type { Task } from '../contract/task.ts';
import type { Plan } from '../contract/plan.ts';
import { clockFrom, instantOf } from '../time/clock.ts';
import type { Piece } from './evening.ts';

export interface Running extends Piece {
  /** Minutes since its first timer was started. */
  readonly spent: number;
}

export interface Begun {
  /** Minutes of the evening that have gone by. */
  readonly gone: number;
  readonly running: readonly Running[];
  /** Tasks with a timer of somebody who is not asked for. */
  readonly elsewhere: ReadonlySet<string>;
}

export function runningOf(file: BuildFile, plan: Plan, ask: Ask): Begun {
  const clock = clockFrom(file.build.startOn);
  const now = instantOf(clock, ask.at);
  const tasks = new Map(file.tasks.map((task) => [task.key, task]));
  const timers = file.timers
    .flatMap(({ task: key, person, startedAt }) => {
      const task = key === null ? undefined : tasks.get(key);
      const spent = now - instantOf(clock, startedAt);
      return task === undefined || task.state === 'finished' || spent < 0 ? [] : [{ task, person, spent }];
    })
    .sort((a, b) => b.spent - a.spent || (a.person < b.person ? -1 : 1));
  const here = timers.filter(({ person }) => ask.people.includes(person));
  const fresh = here.filter(({ spent }) => spent < ask.minutes);
  const gone = fresh.reduce((most, { spent }) => Math.max(most, spent), 0);
  const running = [...new Set(here.map(({ task }) => task))].map((task): Running => {
    const own = here.filter((one) => one.task === task);
    return { ...pieceOf(task, own, plan.tasks[task.key]!.minutes, gone, ask.minutes), spent: own[0]!.spent };
  });
  const mine = new Set(here.map(({ task }) => task.key));
  const others = timers.map(({ task }) => task.key).filter((key) => !mine.has(key));
  return { gone, running, elsewhere: new Set(others) };
}

/** What is left is what was left as the timers began, less what has been worked since. @param own longest first */
function pieceOf(
  task: Task,
  own: readonly { readonly person: string; readonly spent: number }[],
  minutes: number,
  gone: number,
  hours: number,
): Piece {
  const worked = own.reduce((sum, { spent }) => sum + spent, 0) / task.people;
  const left = Math.max(0, Math.ceil(minutes - worked));
  return {
    task,
    from: Math.max(0, gone - own[0]!.spent),
    to: Math.min(hours, gone + left),
    people: own.map(({ person }) => person).sort(),
    finishes: gone + left <= hours,
  };
}
