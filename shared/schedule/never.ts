/** Why a task can never run: which of its people, windows, conditions and tools are missing, in words. */
import type { Task } from '../contract/task.ts';
import type { Names } from '../covers/names.ts';
import { firstStart, NEVER_AGAIN, type WorkingSet } from '../time/working-set.ts';
import { durationWords, listWords } from '../time/words.ts';
import { eligibleFor, type Basis } from './basis.ts';

/**
 * @param from the earliest instant its links would allow
 * @param minutes clock minutes still to work
 */
export function neverWords(basis: Basis, task: Task, from: number, minutes: number, names: Names): string {
  const name = names.task(task.key);
  if (minutes === 0) return `${name} would lie more than a thousand years ahead.`;
  const people = eligibleFor(basis, task);
  const { calendar } = basis;
  const open = (count: number, conditions: readonly string[], tools: readonly string[]): WorkingSet =>
    calendar.sets[calendar.setOf(count, people, conditions, tools)]!;
  const starts = (set: WorkingSet, need: number, sitting: number) =>
    firstStart(set, from, need, sitting) !== NEVER_AGAIN;

  const many = task.people === 1 ? 'someone' : `${task.people} people at once`;
  if (people.length === 0) return `${name} needs ${many}, but there is nobody who may do it.`;
  const who = listWords(people.map(names.person));
  if (people.length < task.people)
    return `${name} needs ${many}, but there ${people.length > 1 ? 'are' : 'is'} only ${who}.`;
  if (!starts(open(task.people, [], []), 1, 1))
    return `${name} needs ${many}, but ${who} ${people.length === 1 ? 'has' : 'have'} no ${task.people === 1 ? '' : 'common '}working window any more.`;
  for (const key of task.conditions.toSorted())
    if (!starts(open(0, [key], []), 1, 1))
      return `${name} needs “${names.condition(key)}”, which never holds again.`;
  for (const key of task.tools.toSorted())
    if (!starts(open(0, [], [key]), 1, 1))
      return `${name} needs the ${names.tool(key)}, which is not there any more.`;
  const set = open(task.people, task.conditions, task.tools);
  if (!starts(set, 1, 1))
    return `${name} needs ${listWords([...task.conditions.map((key) => `“${names.condition(key)}”`), ...task.tools.map((key) => `the ${names.tool(key)}`), 'its people'])} at the same time, which never happens.`;
  const sitting = Math.min(task.shortestSitting, minutes);
  if (sitting > set.longestSitting)
    return `${name} needs a sitting of ${durationWords(sitting)}, but the longest there is has ${durationWords(set.longestSitting)}.`;
  if (!starts(set, minutes, Math.max(1, sitting)))
    return `${name} has ${durationWords(minutes)} of work, which does not fit into the next ten years of windows.`;
  return `${name} needs ${task.people} people, but no ${task.people} of ${who} are ever there together long enough.`;
}

/** A wait that never ends. */
export function endlessWaitWords(task: Task, names: Names): string {
  if (task.waitConditions.length === 0)
    return `The wait after ${names.task(task.key)} ends more than a thousand years ahead.`;
  const names_ = listWords(task.waitConditions.map((key) => `“${names.condition(key)}”`));
  return `The wait after ${names.task(task.key)} runs only while ${names_} hold${task.waitConditions.length === 1 ? 's' : ''}, and that is never long enough again.`;
}
