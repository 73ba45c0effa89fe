/**
 * The depths of a zone as bands: what is covered, in, partly in or planned, which lid lies over it, and what is about
 * to go wrong there. From the tasks' places and states and the plan; nothing is counted that the plan does not say.
 */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { ChainStep, Closing, LastChance, OrderError, Plan } from '#shared/contract/plan.ts';
import type { Depth, Hatch, Zone } from '#shared/contract/shell.ts';
import type { Task } from '#shared/contract/task.ts';
import { shortName } from '../../drawing/fit.ts';
import { dayMonth, daysBetween, roughDay } from '../../drawing/words.ts';
import { closingIsAmber, errorIsAmber, missesOf } from '../../state/amber.ts';

export type BandState = 'covered' | 'in' | 'part' | 'planned' | 'empty';

/** Of two depths in the wrong order: the one that covers, or the one behind it that is not in. */
export interface WrongHalf {
  readonly half: 'cover' | 'inner';
  readonly words: string;
  readonly error: number;
}

export interface Band {
  readonly depth: string;
  readonly name: string;
  readonly hatch: Hatch;
  readonly state: BandState;
  /** Tasks that work here, by when they start or were finished. */
  readonly tasks: readonly Task[];
  /** Finished ones. */
  readonly done: number;
  /** Share done, 0..1, begun tasks in part. */
  readonly share: number;
  /** The day its first open task starts; null when none is planned or none is dated. */
  readonly starts: string | null;
  /** The day the last was finished, once all are. */
  readonly doneOn: string | null;
  /** The edge that shuts all behind it. */
  readonly lid: 'shut' | 'next' | 'later' | null;
  readonly amber: boolean;
  readonly wrong: WrongHalf | null;
  readonly last: LastChance | null;
}

export interface ZoneBands {
  readonly zone: Zone;
  /** From the metal outwards. */
  readonly bands: readonly Band[];
  /** What closes it next; null when nothing will. */
  readonly closing: Closing | null;
  /** That closing is about to go wrong. */
  readonly amber: boolean;
  readonly misses: number;
  readonly wrong: boolean;
}

/** What is looked up for every zone, worked out once. */
export interface ShellIndex {
  readonly file: BuildFile;
  readonly plan: Plan;
  readonly depths: ReadonlyMap<string, Depth>;
  /** By zone and depth. */
  readonly tasks: ReadonlyMap<string, readonly Task[]>;
  readonly taskOf: ReadonlyMap<string, Task>;
  /** By zone and depth. */
  readonly last: ReadonlyMap<string, LastChance>;
  /** By zone, soonest first. */
  readonly closings: ReadonlyMap<string, readonly Closing[]>;
  /** Errors that are drawn, as the plan lists them. */
  readonly errors: readonly OrderError[];
}

/** Days ahead up to which a closing has its day, not only its month. */
const DAY_TOLD = 330;
/** A quarter: within it a day and a month say which year. */
const NEAR = 92;

const at = (zone: string, depth: string) => `${zone} ${depth}`;

export function shellIndex(file: BuildFile, plan: Plan): ShellIndex {
  const tasks = new Map<string, Task[]>();
  for (const task of file.tasks)
    for (const name of new Set(task.places.map(({ zone, depth }) => at(zone, depth))))
      push(tasks, name, task);
  const closings = new Map<string, Closing[]>();
  for (const closing of plan.closings) push(closings, closing.zone, closing);
  return {
    file,
    plan,
    depths: new Map(file.depths.map((depth) => [depth.key, depth])),
    tasks,
    taskOf: new Map(file.tasks.map((task) => [task.key, task])),
    last: new Map(plan.lastChances.map((one) => [at(one.zone, one.depth), one])),
    closings,
    errors: plan.errors.filter((error) => errorIsAmber(error)),
  };
}

export function bandsOf(index: ShellIndex, zone: Zone): ZoneBands {
  const { plan } = index;
  const ahead = index.closings.get(zone.key) ?? [];
  const closing = ahead.find(({ on }) => on !== null) ?? ahead[0] ?? null;
  const amber = closing !== null && closingIsAmber(closing, plan.asOf);
  const wrong = wrongHalves(index, zone);
  const bands = zone.depths.map((depth): Band => {
    const { name = depth, hatch = 'plain' } = index.depths.get(depth) ?? {};
    const tasks = (index.tasks.get(at(zone.key, depth)) ?? []).toSorted((a, b) => order(plan, a, b));
    const done = tasks.filter(({ state }) => state === 'finished').length;
    const last = index.last.get(at(zone.key, depth)) ?? null;
    const begun = tasks.some(({ state }) => state === 'started');
    const lid = lidOf(tasks, zone.key, depth, closing);
    return {
      depth,
      name,
      hatch,
      state:
        tasks.length === 0
          ? 'empty'
          : done === tasks.length
            ? last?.closed === true
              ? 'covered'
              : 'in'
            : done > 0 || begun
              ? 'part'
              : 'planned',
      tasks,
      done,
      share:
        tasks.length === 0 ? 0 : tasks.reduce((sum, task) => sum + shareOf(plan, task), 0) / tasks.length,
      starts: earliest(
        tasks
          .filter(({ state }) => state === 'not-started')
          .map(({ key }) => plan.tasks[key]?.dates?.start ?? null),
      ),
      doneOn: done < tasks.length ? null : latest(tasks.map(({ finishedAt }) => finishedAt)),
      lid,
      amber: lid === 'next' && amber,
      wrong: wrong.get(depth) ?? null,
      last,
    };
  });
  return {
    zone,
    bands,
    closing,
    amber,
    misses: closing === null ? 0 : missesOf(closing),
    wrong: wrong.size > 0,
  };
}

/** "closes 8 Apr", "closes Jan 2028", "closes, no date yet", "stays open", "closed". */
export function closesWords({ closing, bands }: ZoneBands, now: string): string {
  if (closing === null) return bands.some(({ lid }) => lid === 'shut') ? 'closed' : 'stays open';
  if (closing.on === null) return 'closes, no date yet';
  return `closes ${closeDay(closing.on, now)}`;
}

/** The day of a closing: "8 Apr", "8 Apr 2028" where that is another year and not near, then "Jan 2029". */
export function closeDay(day: string, now: string): string {
  const ahead = daysBetween(now, day);
  if (ahead <= NEAR || ahead > DAY_TOLD) return roughDay(day, now);
  return day.slice(0, 4) === now.slice(0, 4) ? dayMonth(day) : `${dayMonth(day)} ${day.slice(0, 4)}`;
}

/** "9 of 13 in", of what the next closing will shut; '' where nothing will. */
export function tallyWords({ closing }: ZoneBands): string {
  return closing === null || closing.behind === 0
    ? ''
    : `${closing.behind - closing.missing.length} of ${closing.behind} in`;
}

/** What stands in a band, by its state: "4 of 5 in", "begun 4 Mar", "22 May", "starts 16 Mar". */
export function bandWords({ state, done, tasks, starts, lid }: Band, now: string): string {
  if (state === 'part' && done > 0) return `${done} of ${tasks.length} in`;
  if (state === 'part') return begunWords(tasks, now);
  if (state !== 'planned') return '';
  if (starts === null) return 'no date';
  return lid === 'next' ? `starts ${closeDay(starts, now)}` : roughDay(starts, now);
}

export function begunWords(tasks: readonly Task[], now: string): string {
  const since = earliest(tasks.map(({ startedAt }) => startedAt));
  return since === null ? 'begun' : `begun ${roughDay(since, now)}`;
}

function lidOf(tasks: readonly Task[], zone: string, depth: string, closing: Closing | null): Band['lid'] {
  const covers = tasks.filter((task) =>
    task.places.some((place) => place.zone === zone && place.depth === depth && place.hides !== null),
  );
  if (covers.length === 0) return null;
  if (covers.some(({ key }) => key === closing?.by)) return 'next';
  return covers.some(({ state }) => state !== 'not-started') ? 'shut' : 'later';
}

function wrongHalves({ errors, taskOf, plan }: ShellIndex, zone: Zone): Map<string, WrongHalf> {
  const halves = new Map<string, WrongHalf>();
  errors.forEach((error, number) => {
    for (const step of hiddenSteps(error)) {
      if (step.zone !== zone.key || step.depth === null) continue;
      const inner = taskOf.get(step.from);
      const cover = taskOf.get(step.to);
      if (inner === undefined || cover === undefined) continue;
      const lid = lidPlace(zone, cover, step.depth);
      const lacks = error.rule === 'covered-unchecked' ? 'not signed' : 'not in';
      if (!halves.has(step.depth))
        halves.set(step.depth, {
          half: 'inner',
          words: `${shortName(inner.name, 30)} ${lacks}`,
          error: number,
        });
      if (lid !== null) halves.set(lid, { half: 'cover', words: coverWords(plan, cover), error: number });
    }
  });
  return halves;
}

/** The steps of an error at which one task hides another. */
export function hiddenSteps({ chain }: OrderError): ChainStep[] {
  return chain.filter(({ by }) => by === 'cover');
}

/** The depth at which a task covers another one. */
function lidPlace(zone: Zone, cover: Task, hidden: string): string | null {
  const behind = zone.depths.indexOf(hidden);
  const place = cover.places.find(
    (one) => one.zone === zone.key && one.hides !== null && zone.depths.indexOf(one.hides) >= behind,
  );
  return place === undefined || place.depth === hidden ? null : place.depth;
}

function coverWords(plan: Plan, { key, state, startedAt }: Task): string {
  const start = state === 'not-started' ? (plan.tasks[key]?.dates?.start ?? null) : startedAt;
  if (start === null) return state === 'not-started' ? 'no date' : 'begun';
  return `${state === 'not-started' ? 'starts' : 'begun'} ${roughDay(start, plan.asOf)}`;
}

/** Finished ones by their end, then what is under way, then by start; those without a date last. */
function order(plan: Plan, a: Task, b: Task): number {
  const when = (task: Task) => task.finishedAt ?? task.startedAt ?? plan.tasks[task.key]?.dates?.start ?? '~';
  const rank = { finished: 0, started: 1, 'not-started': 2 } as const;
  return rank[a.state] - rank[b.state] || compare(when(a), when(b)) || compare(a.key, b.key);
}

function shareOf(plan: Plan, { key, state }: Task): number {
  return state === 'finished' ? 1 : state === 'started' ? (plan.tasks[key]?.complete ?? 0) : 0;
}

function earliest(instants: readonly (string | null)[]): string | null {
  return instants.reduce(
    (least, one) => (one !== null && (least === null || one < least) ? one : least),
    null,
  );
}

function latest(instants: readonly (string | null)[]): string | null {
  return instants.reduce((most, one) => (one !== null && (most === null || one > most) ? one : most), null);
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function push<T>(map: Map<string, T[]>, name: string, value: T): void {
  const list = map.get(name);
  if (list === undefined) map.set(name, [value]);
  else list.push(value);
}
