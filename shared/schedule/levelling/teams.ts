/** Who could do a task: every team of the right size from the eligible, by key, each with its common working set. */
import type { Task } from '../../contract/task.ts';
import { eligibleFor, type Basis } from '../basis.ts';

export interface Team {
  /** By key. */
  readonly people: readonly string[];
  /** The number of its working set: all of them there, conditions holding, tools there. */
  readonly set: number;
}

/** More teams than these are not tried: of twelve helpers any few will do. */
const MOST_TEAMS = 500;

/** Empty when there are not enough people. */
export function teamsFor(basis: Basis, task: Task): Team[] {
  const eligible = eligibleFor(basis, task);
  const teams: Team[] = [];
  choose(0, []);
  return teams;

  function choose(next: number, people: readonly string[]): void {
    if (teams.length >= MOST_TEAMS) return;
    if (people.length === task.people) {
      teams.push({ people, set: basis.calendar.setOf(task.people, people, task.conditions, task.tools) });
      return;
    }
    for (let i = next; i <= eligible.length - (task.people - people.length); i++)
      choose(i + 1, [...people, eligible[i]!]);
  }
}
