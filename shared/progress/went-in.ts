/** What went into the van on a day or in a month: hours, tasks finished, checks signed, what was closed up, what came. */
import type { BuildFile } from '../contract/build-file.ts';
import type { Hours } from '../contract/log.ts';

export interface WentIn {
  readonly entries: readonly Hours[];
  readonly minutes: number;
  /** Person-minutes by person, and by phase; those of no phase under null. */
  readonly byPerson: ReadonlyMap<string, number>;
  readonly byPhase: ReadonlyMap<string | null, number>;
  /** Days on which anything was logged. */
  readonly days: number;
  /** Keys of tasks finished then. */
  readonly finished: readonly string[];
  readonly signed: readonly {
    readonly task: string;
    readonly check: string;
    readonly name: string;
    readonly at: string;
  }[];
  /** Depths put out of reach by tasks begun then. */
  readonly closed: readonly { readonly zone: string; readonly depth: string; readonly task: string }[];
  readonly came: readonly {
    readonly purchase: string;
    readonly line: string;
    readonly name: string;
    readonly on: string;
  }[];
}

/** @param from @param to days, both included */
export function wentIn(
  file: Pick<BuildFile, 'hours' | 'tasks' | 'purchases'>,
  from: string,
  to: string,
): WentIn {
  const isThen = (when: string | null): when is string =>
    when !== null && when.slice(0, 10) >= from && when.slice(0, 10) <= to;
  const phaseOf = new Map(file.tasks.map(({ key, phase }) => [key, phase]));
  const entries = file.hours.filter(({ on }) => isThen(on));
  const byPerson = new Map<string, number>();
  const byPhase = new Map<string | null, number>();
  for (const { person, task, phase, minutes } of entries) {
    byPerson.set(person, (byPerson.get(person) ?? 0) + minutes);
    const at = task === null ? phase : (phaseOf.get(task) ?? null);
    byPhase.set(at, (byPhase.get(at) ?? 0) + minutes);
  }
  const tasks = file.tasks.toSorted((a, b) => (a.key < b.key ? -1 : 1));
  return {
    entries,
    minutes: entries.reduce((sum, { minutes }) => sum + minutes, 0),
    byPerson,
    byPhase,
    days: new Set(entries.map(({ on }) => on)).size,
    finished: tasks.filter(({ finishedAt }) => isThen(finishedAt)).map(({ key }) => key),
    signed: tasks.flatMap((task) =>
      task.holdPoints.flatMap(({ key, name, attempts }) => {
        const passed = attempts.findLast(({ pass, at }) => pass && isThen(at));
        return passed === undefined ? [] : [{ task: task.key, check: key, name, at: passed.at }];
      }),
    ),
    closed: tasks.flatMap((task) =>
      isThen(task.startedAt)
        ? task.places.flatMap(({ zone, hides }) =>
            hides === null ? [] : [{ zone, depth: hides, task: task.key }],
          )
        : [],
    ),
    came: file.purchases
      .flatMap(({ key, lines, deliveries }) =>
        deliveries
          .filter(({ on }) => isThen(on))
          .map(({ on, line }) => ({
            purchase: key,
            line,
            name: lines.find((one) => one.key === line)?.name ?? line,
            on,
          })),
      )
      .toSorted((a, b) => (a.on !== b.on ? (a.on < b.on ? -1 : 1) : a.name < b.name ? -1 : 1)),
  };
}
