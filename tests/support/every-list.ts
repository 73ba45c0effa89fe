/** The least finish over every priority list, and over every choice of teams as well: an oracle for builds of few tasks. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { draftOf, floorOf } from '#shared/schedule/draft.ts';
import { Generator as Dates } from '#shared/schedule/levelling/generate.ts';
import { NOW } from './builds.ts';

/** @returns minutes from the build's start; null where a task has no dates whatever the order */
export function leastFinish(file: BuildFile): number | null {
  const { basis, net, graph } = draftOf(file, file.build.asOf ?? NOW);
  const dates = new Dates(basis, net, graph.ids);
  const floor = floorOf(basis);
  let least: number | null = null;
  for (const list of permutations(Array.from({ length: net.taskCount }, (_, v) => v))) {
    const { end } = dates.generate(list, { floor, explain: false });
    if (end !== null && (least === null || end < least)) least = end;
  }
  return least;
}

/** With each task given to each team that could do it. */
export function leastFinishOfTeams(file: BuildFile): number | null {
  const anyone = file.people.filter(({ byNameOnly }) => !byNameOnly).map(({ key }) => key);
  const teams = file.tasks.map(({ who, people }) => subsets(who.length > 0 ? who : anyone, people));
  let least: number | null = null;
  for (const choice of choices(teams)) {
    const tasks = file.tasks.map((task, i) => ({ ...task, who: choice[i]! }));
    const finish = leastFinish({ ...file, tasks });
    if (finish !== null && (least === null || finish < least)) least = finish;
  }
  return least;
}

function* permutations(nodes: readonly number[]): Generator<number[]> {
  if (nodes.length === 0) yield [];
  for (const [i, v] of nodes.entries())
    for (const rest of permutations([...nodes.slice(0, i), ...nodes.slice(i + 1)])) yield [v, ...rest];
}

function subsets(keys: readonly string[], count: number): string[][] {
  if (count === 0) return [[]];
  return keys.flatMap((key, i) => subsets(keys.slice(i + 1), count - 1).map((rest) => [key, ...rest]));
}

function* choices<T>(lists: readonly (readonly T[])[]): Generator<T[]> {
  const [first, ...others] = lists;
  if (first === undefined) {
    yield [];
    return;
  }
  for (const one of first) for (const rest of choices(others)) yield [one, ...rest];
}
