/** What has no dates, or not the date the builder fixed, and why. */
import type { OrderError, PlannedTask } from '../contract/plan.ts';
import type { Task } from '../contract/task.ts';
import { keyOf, nodeId } from '../graph/task-graph.ts';
import { instantOf } from '../time/clock.ts';
import { instantWords } from '../time/words.ts';
import type { Basis } from './basis.ts';
import { readyOfFinished } from './build-network.ts';
import type { Draft } from './draft.ts';
import { UNPLACED } from './forward.ts';
import { arcBound, incomingOf, type Incoming } from './incoming.ts';
import { endlessWaitWords, neverWords } from './never.ts';

export interface Trouble {
  readonly errors: readonly OrderError[];
  /** Why a task has no dates, by key. */
  readonly unplaced: ReadonlyMap<string, string>;
}

/** Tasks that never run and those that wait for them, waits that never end. */
export function unplacedTasks(draft: Draft): Trouble {
  const { basis, graph, levelled, findings, names } = draft;
  const errors: OrderError[] = [];
  const unplaced = new Map<string, string>();
  const endless = endlessAfterFinished(basis);
  for (const task of endless) errors.push(never(task.key, endlessWaitWords(task, names)));
  const holds = new Holds(draft, endless);
  for (let v = 0; v < graph.taskCount; v++) {
    const key = graph.ids[v]!;
    const task = basis.taskOf.get(key)!;
    if (levelled.start[v] !== UNPLACED) {
      if (levelled.ready[v] === UNPLACED && !endless.includes(task))
        errors.push(never(key, endlessWaitWords(task, names)));
    } else if (findings.unordered.has(key)) {
      unplaced.set(key, `${names.task(key)} has no dates: covers hide each other in a circle.`);
    } else {
      const held = holds.unplacedBefore(v);
      if (held !== null) {
        unplaced.set(
          key,
          `${names.task(key)} has no dates: it waits for ${names.task(held)}, which has none or never ends.`,
        );
        continue;
      }
      const far = holds.endlessLagBefore(v);
      const words =
        far === null
          ? neverWords(basis, task, levelled.lower[v]!, basis.minutes.get(key)!, names)
          : `${names.task(key)} has no dates: its link from ${names.task(far)} allows none, however far ahead.`;
      unplaced.set(key, words);
      errors.push(never(key, words));
    }
  }
  return { errors, unplaced };
}

/** Finished tasks whose wait never ends. */
function endlessAfterFinished(basis: Basis): Task[] {
  return basis.tasks.filter((task) => task.state === 'finished' && readyOfFinished(basis, task) >= UNPLACED);
}

/** What keeps a task from having dates, other than itself. */
class Holds {
  readonly #draft: Draft;
  readonly #incoming: Incoming;
  readonly #endless: ReadonlySet<string>;

  constructor(draft: Draft, endless: readonly Task[]) {
    this.#draft = draft;
    this.#incoming = incomingOf(draft.net);
    this.#endless = new Set(endless.map(({ key }) => key));
  }

  /** A task before it, behind gates too, that is not placed or whose wait never ends. */
  unplacedBefore(v: number): string | null {
    const { graph, levelled, drawn } = this.#draft;
    const { arcs, sources } = this.#incoming;
    const seen = new Set([v]);
    const through = [v];
    for (let i = 0; i < through.length; i++) {
      for (const arc of arcs[through[i]!]!) {
        const u = sources[arc]!;
        if (levelled.ready[u] !== UNPLACED || seen.has(u)) continue;
        if (u < graph.taskCount) return graph.ids[u]!;
        seen.add(u);
        through.push(u);
      }
    }
    if (this.#endless.size === 0) return null;
    const before = drawn.graph.inEdges(nodeId(graph.ids[v]!)) ?? [];
    return before.map((edge) => keyOf(edge.v)).find((key) => this.#endless.has(key)) ?? null;
  }

  /** A task that is placed, with a lag after it that never ends. */
  endlessLagBefore(v: number): string | null {
    const { graph, net, basis, levelled } = this.#draft;
    const { arcs, sources } = this.#incoming;
    for (const arc of arcs[v]!) {
      const u = sources[arc]!;
      if (arcBound(net, basis.calendar.sets, levelled, u, arc) >= UNPLACED) return graph.ids[u]!;
    }
    return null;
  }
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
