/**
 * What drives the finish, and why a task starts when it does: both walk back from task to task along the one thing
 * that holds each.
 */
import type { Because, Plan, PlannedTask } from '#shared/contract/plan.ts';

type Tasks = Plan['tasks'];

export interface WhyStep {
  readonly key: string;
  readonly planned: PlannedTask;
  readonly because: Because | null;
}

/** The task itself first, then what holds it, and so on back to what nothing holds. Never goes round. */
export function whySteps(tasks: Tasks, key: string): WhyStep[] {
  const steps: WhyStep[] = [];
  const seen = new Set<string>();
  let at: string | null = key;
  while (at !== null && !seen.has(at)) {
    seen.add(at);
    const planned: PlannedTask | undefined = tasks[at];
    if (planned === undefined) break;
    steps.push({ key: at, planned, because: planned.because });
    at = planned.because?.task ?? null;
  }
  return steps;
}

/** The driving chain: the plan's own word, else what is found walking back from what ends last. */
export function drivingChain(tasks: Tasks): ReadonlySet<string> {
  const entries = Object.entries(tasks);
  const told = entries.filter(([, { chain }]) => chain === true);
  if (told.length > 0 || entries.some(([, { chain }]) => chain === false))
    return new Set(told.map(([key]) => key));
  const open = entries.filter(([, { state, dates }]) => state !== 'finished' && dates !== null);
  const last = open.reduce(
    (latest, [, { dates }]) => (dates!.waitUntil > latest ? dates!.waitUntil : latest),
    '',
  );
  const out = new Set<string>();
  for (const [key, { dates }] of open) {
    if (dates!.waitUntil !== last) continue;
    for (const step of whySteps(tasks, key)) if (step.planned.state !== 'finished') out.add(step.key);
  }
  return out;
}

export interface ChainLink {
  readonly from: string;
  readonly to: string;
}

/**
 * The pairs of the driving chain that a connector ties: each with what holds it, where that drives too, else with the
 * driving task that ends last before it starts.
 */
export function chainLinks(tasks: Tasks, chain: ReadonlySet<string>): ChainLink[] {
  const ends = [...chain]
    .flatMap((key) => {
      const dates = tasks[key]?.dates;
      return dates == null ? [] : [{ key, end: dates.waitUntil }];
    })
    .sort((a, b) => (a.end < b.end ? -1 : a.end > b.end ? 1 : 0));
  return [...chain].flatMap((to) => {
    const planned = tasks[to];
    if (planned?.dates == null) return [];
    const held = planned.because?.task ?? null;
    if (held !== null && chain.has(held)) return [{ from: held, to }];
    const { start } = planned.dates;
    const before = ends.findLast(({ key, end }) => key !== to && end <= start);
    return before === undefined ? [] : [{ from: before.key, to }];
  });
}

/**
 * What waits for a task on the driving chain, one after the other to the last: of several that hang on one, the one
 * from which the chain reaches furthest. Empty for what is not on the chain.
 */
export function chainOnwards(tasks: Tasks, key: string): string[] {
  const chain = drivingChain(tasks);
  if (!chain.has(key)) return [];
  const next = new Map<string, string[]>();
  for (const { from, to } of chainLinks(tasks, chain)) next.set(from, [...(next.get(from) ?? []), to]);
  const end = (one: string) => tasks[one]?.dates?.waitUntil ?? '';
  /** Per task: the last end that can be reached from it. Later ones first, so that each is known when it is asked for. */
  const reach = new Map<string, string>();
  for (const one of [...chain].sort((a, b) => (end(a) < end(b) ? 1 : end(a) > end(b) ? -1 : 0)))
    reach.set(
      one,
      (next.get(one) ?? []).reduce((last, to) => later(last, reach.get(to) ?? end(to)), end(one)),
    );
  const onwards: string[] = [];
  const seen = new Set([key]);
  for (let at: string | undefined = key; at !== undefined;) {
    const [best]: string[] = (next.get(at) ?? [])
      .filter((to) => !seen.has(to))
      .sort((a, b) => compare(reach.get(b) ?? '', reach.get(a) ?? '') || compare(a, b));
    at = best;
    if (best === undefined) break;
    seen.add(best);
    onwards.push(best);
  }
  return onwards;
}

function later(a: string, b: string): string {
  return a > b ? a : b;
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
