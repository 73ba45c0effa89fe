/** Hours per phase: estimated, logged, still to come, and the pace that carries one into the other. Person-minutes. */
import type { BuildFile } from '../contract/build-file.ts';
import type { PhaseProgress, Progress } from '../contract/plan.ts';
import { estimatedOf, type Paces } from './pace.ts';

interface Sum {
  estimated: number;
  logged: number;
  remaining: number;
  tasks: number;
  finished: number;
  done: number;
}

/** @param remaining clock minutes still to work, by task key, pace included */
export function progressOf(
  file: BuildFile,
  logged: ReadonlyMap<string, number>,
  remaining: ReadonlyMap<string, number>,
  complete: ReadonlyMap<string, number>,
  paces: Paces,
): Progress {
  const sums = new Map<string, Sum>(file.phases.map(({ key }) => [key, empty()]));
  const all = empty();
  for (const task of file.tasks) {
    const sum = task.phase === null ? undefined : sums.get(task.phase);
    for (const into of sum === undefined ? [all] : [all, sum]) {
      into.estimated += estimatedOf(task);
      into.logged += logged.get(task.key) ?? 0;
      into.remaining += remaining.get(task.key)! * task.people;
      into.done += estimatedOf(task) * complete.get(task.key)!;
      into.tasks++;
      if (task.state === 'finished') into.finished++;
    }
  }
  let unsorted = 0;
  for (const { task, phase, minutes } of file.hours) {
    if (task !== null) continue;
    unsorted += minutes;
    all.logged += minutes;
    if (phase !== null) sums.get(phase)!.logged += minutes;
  }
  const phases = Object.fromEntries(
    file.phases.map(({ key }) => [
      key,
      rounded(sums.get(key)!, paces.phases.get(key)!, paces.assumed.has(key)),
    ]),
  );
  return {
    ...rounded(all, paces.build, paces.assumed.size === file.phases.length),
    complete: all.estimated === 0 ? null : all.done / all.estimated,
    prior: file.build.pace.prior,
    unsorted,
    phases,
  };
}

function empty(): Sum {
  return { estimated: 0, logged: 0, remaining: 0, tasks: 0, finished: 0, done: 0 };
}

function rounded(
  { estimated, logged, remaining, tasks, finished }: Sum,
  pace: number,
  assumed: boolean,
): PhaseProgress {
  return { estimated, logged, remaining, forecast: logged + remaining, pace, assumed, tasks, finished };
}
