/** Taking a task out of a build, with all that points at it, as one change. */
import type { BuildFile } from '../contract/build-file.ts';
import type { Hours } from '../contract/log.ts';

/** What goes along with a task, and what is only loosed from it. */
export interface GoesAlong {
  readonly links: number;
  readonly exceptions: number;
  /** Purchase lines that no longer need it. */
  readonly lines: number;
  readonly decisions: number;
  /** Records stay with their zone. */
  readonly records: number;
  readonly inOrder: boolean;
  readonly hours: readonly Hours[];
}

export function goesAlong(file: BuildFile, key: string): GoesAlong {
  return {
    links: file.links.filter(({ from, to }) => from === key || to === key).length,
    exceptions: file.exceptions.filter(({ inner, cover }) => inner === key || cover === key).length,
    lines: file.purchases.flatMap(({ lines }) => lines).filter(({ neededBy }) => neededBy.includes(key))
      .length,
    decisions: file.decisions.filter(({ locksTasks }) => locksTasks.includes(key)).length,
    records: file.records.filter(({ task }) => task === key).length,
    inOrder: file.order.includes(key),
    hours: file.hours.filter(({ task }) => task === key),
  };
}

/** The build without the task; hours logged to it move to its phase, so that no worked hour is lost. */
export function withoutTask(file: BuildFile, key: string): BuildFile {
  const phase = file.tasks.find((task) => task.key === key)?.phase ?? null;
  const rest = (keys: readonly string[]) => keys.filter((one) => one !== key);
  return {
    ...file,
    tasks: file.tasks.filter((task) => task.key !== key),
    links: file.links.filter(({ from, to }) => from !== key && to !== key),
    exceptions: file.exceptions.filter(({ inner, cover }) => inner !== key && cover !== key),
    order: rest(file.order),
    decisions: file.decisions.map((one) =>
      one.locksTasks.includes(key) ? { ...one, locksTasks: rest(one.locksTasks) } : one,
    ),
    purchases: file.purchases.map((one) =>
      one.lines.some(({ neededBy }) => neededBy.includes(key))
        ? { ...one, lines: one.lines.map((line) => ({ ...line, neededBy: rest(line.neededBy) })) }
        : one,
    ),
    records: file.records.map((one) => (one.task === key ? { ...one, task: null } : one)),
    hours: file.hours.map((one) =>
      one.task === key ? { ...one, task: null, phase: one.phase ?? phase } : one,
    ),
    timers: file.timers.map((one) =>
      one.task === key ? { ...one, task: null, phase: one.phase ?? phase } : one,
    ),
  };
}
