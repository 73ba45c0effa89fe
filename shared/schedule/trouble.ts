/** What has no dates, or not the date the builder fixed, and why. */
import type { OrderError } from '../contract/plan.ts';
import { instantOf } from '../time/clock.ts';
import { instantWords } from '../time/words.ts';
import type { Draft } from './draft.ts';
import { UNPLACED } from './forward.ts';
import { incomingOf } from './incoming.ts';
import { endlessWaitWords, neverWords } from './never.ts';
import type { PlannedTask } from '../contract/plan.ts';

export interface Trouble {
  readonly errors: readonly OrderError[];
  /** Why a task has no dates, by key. */
  readonly unplaced: ReadonlyMap<string, string>;
}

/** Tasks that never run and those that wait for them. */
export function unplacedTasks(draft: Draft): Trouble {
  const { basis, graph, net, levelled, findings, names } = draft;
  const errors: OrderError[] = [];
  const unplaced = new Map<string, string>();
  const incoming = incomingOf(net);
  for (let v = 0; v < graph.taskCount; v++) {
    const key = graph.ids[v]!;
    const task = basis.taskOf.get(key)!;
    if (levelled.start[v] !== UNPLACED) {
      const words =
        levelled.ready[v] === UNPLACED ? endlessWaitWords(basis, task, levelled.finish[v]!, names) : null;
      if (words !== null) errors.push(never(key, words));
    } else if (findings.unordered.has(key)) {
      unplaced.set(key, `${names.task(key)} has no dates: covers hide each other in a circle.`);
    } else {
      const held = heldBy(draft, incoming, v);
      if (held !== null) {
        unplaced.set(
          key,
          `${names.task(key)} has no dates: it waits for ${names.task(held)}, which has none or never ends.`,
        );
        continue;
      }
      const words = neverWords(basis, task, levelled.lower[v]!, basis.minutes.get(key)!, names);
      unplaced.set(key, words);
      errors.push(never(key, words));
    }
  }
  return { errors, unplaced };
}

/** A task before it, behind gates too, that is not placed or whose wait never ends. */
function heldBy(
  { graph, levelled }: Draft,
  { arcs, sources }: ReturnType<typeof incomingOf>,
  v: number,
): string | null {
  const seen = new Set([v]);
  const through = [v];
  for (let i = 0; i < through.length; i++)
    for (const arc of arcs[through[i]!]!) {
      const u = sources[arc]!;
      if (levelled.ready[u] !== UNPLACED || seen.has(u)) continue;
      if (u < graph.taskCount) return graph.ids[u]!;
      seen.add(u);
      through.push(u);
    }
  return null;
}

function never(key: string, sentence: string): OrderError {
  return {
    rule: 'never-runs',
    tasks: [key],
    zone: null,
    depth: null,
    sentence,
    chain: [],
    repair: null,
    otherRepairs: [],
  };
}

/** Fixed dates that cannot be kept. */
export function missedFixedStarts(
  { basis, names }: Draft,
  planned: Readonly<Record<string, PlannedTask>>,
): OrderError[] {
  return basis.tasks.flatMap((task) => {
    const { dates, because } = planned[task.key]!;
    if (
      task.fixedStart === null ||
      task.state !== 'not-started' ||
      dates === null ||
      dates.start <= task.fixedStart
    )
      return [];
    const at = (text: string) => instantWords(basis.clock, instantOf(basis.clock, text));
    return [
      {
        rule: 'fixed-start-missed',
        tasks: [task.key, ...(because?.task == null ? [] : [because.task])],
        zone: null,
        depth: null,
        sentence:
          `${names.task(task.key)} is fixed to ${at(task.fixedStart)}, but cannot start before ${at(dates.start)}. ${because?.words ?? ''}`.trim(),
        chain: [],
        repair: { kind: 'drop-fixed-start', task: task.key },
        otherRepairs: [],
      } satisfies OrderError,
    ];
  });
}
