/**
 * What keeps a task from being worked on now. A task without a lack is ready: what comes before it is finished, hard
 * and signed, its parts are here, its people, tools and conditions are there, and there is room.
 *
 * Room is taken from start to end: what is under way keeps its own zones, worked on tonight or not, unless it cannot go
 * on before something else is in (a sheet fixed too early must let the brackets behind it). Room that zones share
 * counts only what is being worked on, or an interior for two would be full for weeks.
 */
import type { Plan } from '../contract/plan.ts';
import type { HoldPoint, Link, Task } from '../contract/task.ts';
import { unsigned } from '../covers/checks.ts';
import { beforeOf, type Before } from '../graph/before.ts';
import { taskGraph } from '../graph/task-graph.ts';
import { basisOf, eligibleFor, relaxedSet, usableFrom, type Basis } from '../schedule/basis.ts';
import type { BuildFile } from '../contract/build-file.ts';
import { instantOf, instantText } from '../time/clock.ts';
import { dayText } from '../time/days.ts';
import { after, NEVER_AGAIN, NEVER_BEFORE } from '../time/working-set.ts';
import { LEAST_PIECE, type Ask } from './ask.ts';

export type Lack =
  /** It is not finished; with `starts` it has not even begun, and that would do. */
  | { readonly kind: 'before'; readonly task: string; readonly hidden: boolean; readonly starts: boolean }
  /** Unsigned, or failed. */
  | { readonly kind: 'check'; readonly task: string; readonly check: HoldPoint }
  /** It hardens or waits; null: for good. */
  | { readonly kind: 'wait'; readonly task: string; readonly until: string | null }
  /** @property comes the day it comes, or would if ordered today */
  | {
      readonly kind: 'part';
      readonly purchase: string;
      readonly name: string;
      readonly ordered: boolean;
      readonly comes: string | null;
    }
  | { readonly kind: 'decision'; readonly decision: string }
  | { readonly kind: 'fixed'; readonly at: string }
  /** The zone is full of these tasks; one that waits may bar it too. */
  | { readonly kind: 'room'; readonly zone: string; readonly tasks: readonly string[] }
  | { readonly kind: 'tool'; readonly tool: string }
  | { readonly kind: 'condition'; readonly condition: string }
  /** So many are needed, these may do it and are there. */
  | { readonly kind: 'people'; readonly need: number; readonly there: readonly string[] }
  /** The shortest piece worth beginning, minutes. */
  | { readonly kind: 'hours'; readonly need: number };

export interface Standing {
  readonly task: Task;
  /** Clock minutes left, and the shortest piece of them worth a start. */
  readonly minutes: number;
  readonly least: number;
  /** False: something must be finished, or begun, before this may be. */
  readonly mayFinish: boolean;
  /** Those of the people there who may do it, by key. */
  readonly people: readonly string[];
  /** Nothing lacks: it can be worked on. */
  readonly lacks: readonly Lack[];
  readonly before: readonly Before[];
  /** Under way, and in its zones till it is finished. */
  readonly inRooms: boolean;
}

/** Every unfinished task, by key. */
export function standings(file: BuildFile, plan: Plan, ask: Ask): Standing[] {
  const look = new Look(basisOf(file, plan.asOf), plan, ask);
  const graph = taskGraph(file);
  const leftOut = new Set(plan.leftOut.map(({ from, to, kind }) => `${from} ${to} ${kind}`));
  const open = look.basis.tasks
    .filter(({ state }) => state !== 'finished')
    .map((task) => {
      const before = beforeOf(graph, task.key).filter(
        ({ link }) => link === null || !leftOut.has(`${link.from} ${link.to} ${link.kind}`),
      );
      return { task, before, asked: before.map((one) => look.before(task, one)) };
    });
  const inside = open
    .filter(({ task, asked }) => task.state === 'started' && asked.every(({ lacks }) => lacks.length === 0))
    .map(({ task }) => task);
  const full = fullZones(look, inside);
  return open.map(({ task, before, asked }) => standingOf(look, task, before, asked, full));
}

function standingOf(
  look: Look,
  task: Task,
  before: readonly Before[],
  asked: readonly FromBefore[],
  full: ReadonlyMap<string, readonly string[]>,
): Standing {
  const { ask, basis, at } = look;
  const minutes = look.plan.tasks[task.key]!.minutes;
  const tooEarly = asked.filter(({ finishFrom }) => finishFrom > at + minutes);
  const piece = task.shortestSitting === 0 ? LEAST_PIECE : task.shortestSitting;
  const least = Math.min(minutes, piece);
  const people = eligibleFor(basis, task).filter((key) => ask.people.includes(key));
  const begun = task.state === 'started';
  const ordered = asked.flatMap((one) => one.lacks);
  const lacks: Lack[] = [...ordered];
  // What may not be finished yet can be worked on as far as it leaves enough for another day.
  if (minutes < piece + LEAST_PIECE) lacks.push(...tooEarly.flatMap(({ finishLacks }) => finishLacks));
  if (!begun) {
    for (const check of unsigned(task))
      if (check.when === 'entry') lacks.push({ kind: 'check', task: task.key, check });
    lacks.push(...look.parts(task));
    for (const { key, locksTasks, chosen } of basis.file.decisions)
      if (chosen === null && locksTasks.includes(task.key)) lacks.push({ kind: 'decision', decision: key });
    if (task.fixedStart !== null && task.fixedStart > ask.at)
      lacks.push({ kind: 'fixed', at: task.fixedStart });
    for (const zone of new Set(task.places.map((place) => place.zone)))
      if (full.has(zone)) lacks.push({ kind: 'room', zone, tasks: full.get(zone)! });
  }
  lacks.push(...look.toolsAndConditions(task));
  if (minutes > 0) {
    if (people.length < task.people) lacks.push({ kind: 'people', need: task.people, there: people });
    if (least > ask.minutes) lacks.push({ kind: 'hours', need: least });
  }
  const inRooms = begun && ordered.length === 0;
  return { task, minutes, least, mayFinish: tooEarly.length === 0, people, lacks, before, inRooms };
}

interface FromBefore {
  /** What keeps the task from being begun. */
  readonly lacks: readonly Lack[];
  /** From when on it may be finished, and what keeps it till then. */
  readonly finishFrom: number;
  readonly finishLacks: readonly Lack[];
}

class Look {
  readonly basis: Basis;
  readonly plan: Plan;
  readonly ask: Ask;
  readonly at: number;

  constructor(basis: Basis, plan: Plan, ask: Ask) {
    this.basis = basis;
    this.plan = plan;
    this.ask = ask;
    this.at = instantOf(basis.clock, ask.at);
  }

  /** What one task before asks of this one: of its start, or for FF and SF of its finish. */
  before(task: Task, { task: key, link }: Before): FromBefore {
    const first = this.basis.taskOf.get(key)!;
    const kind = link?.kind ?? 'FS';
    const starts = kind === 'SS' || kind === 'SF';
    const done = starts ? first.state !== 'not-started' : first.state === 'finished';
    const from = done ? this.#lagged(task, link, this.#ended(first, kind)) : NEVER_AGAIN;
    const lacks: Lack[] = [];
    if (!done) lacks.push({ kind: 'before', task: key, hidden: link === null, starts });
    else if (kind === 'FS')
      for (const check of unsigned(first))
        if (check.when === 'exit') lacks.push({ kind: 'check', task: key, check });
    if (done && from > this.at) {
      const until = from >= NEVER_AGAIN ? null : instantText(this.basis.clock, from);
      lacks.push({ kind: 'wait', task: key, until });
    }
    const onFinish = kind === 'FF' || kind === 'SF';
    return onFinish
      ? { lacks: [], finishFrom: from, finishLacks: lacks }
      : { lacks, finishFrom: NEVER_BEFORE, finishLacks: [] };
  }

  /** From when a link counts: the end of the wait, the finish, or the start. */
  #ended(first: Task, kind: Link['kind']): number {
    if (kind === 'SS' || kind === 'SF') return instantOf(this.basis.clock, first.startedAt!);
    return kind === 'FF'
      ? instantOf(this.basis.clock, first.finishedAt!)
      : waitOver(this.basis, this.plan, first);
  }

  #lagged(task: Task, link: Link | null, from: number): number {
    if (link === null || link.lagMinutes === 0 || from >= NEVER_AGAIN) return from;
    if (link.lagOn === 'clock') return from + link.lagMinutes;
    return after(this.basis.calendar.sets[relaxedSet(this.basis, task)]!, from, link.lagMinutes);
  }

  /** What is ordered and will have come by then counts as here; what is not ordered does not. */
  parts({ key }: Task): Lack[] {
    return (this.basis.partsOf.get(key) ?? []).flatMap((part): Lack[] => {
      const from = usableFrom(this.basis, part);
      const { state } = part.purchase;
      const ordered = part.inHand || state === 'ordered' || state === 'part-received';
      if (from === null || (ordered && from <= this.at)) return [];
      const comes = part.day === null ? null : dayText(part.day);
      return [{ kind: 'part', purchase: part.purchase.key, name: part.line.name, ordered, comes }];
    });
  }

  toolsAndConditions({ tools, conditions }: Task): Lack[] {
    const day = this.ask.at.slice(0, 10);
    const away = (key: string) => {
      const only = this.basis.file.tools.find((tool) => tool.key === key)?.only ?? [];
      return only.length > 0 && !only.some(({ from, to }) => from <= day && day <= to);
    };
    return [
      ...tools.filter(away).map((tool): Lack => ({ kind: 'tool', tool })),
      ...conditions
        .filter((key) => !this.ask.holding.includes(key))
        .map((condition): Lack => ({ kind: 'condition', condition })),
    ];
  }
}

/** When the wait of a finished task is over; NEVER_AGAIN where its conditions never come again. */
function waitOver({ clock }: Basis, plan: Plan, task: Task): number {
  const { waitUntil } = plan.tasks[task.key]!.dates!;
  const endless = task.waitMinutes > 0 && waitUntil === task.finishedAt;
  return endless ? NEVER_AGAIN : instantOf(clock, waitUntil);
}

/** The zones nothing more can begin in, each with the tasks that are there: under way, or hardening behind a shut door. */
function fullZones({ basis, plan, at }: Look, begun: readonly Task[]): Map<string, readonly string[]> {
  const hardening = basis.tasks.filter(
    (task) => task.state === 'finished' && task.waitHoldsZones && waitOver(basis, plan, task) > at,
  );
  const within = (zones: readonly string[], some: readonly Task[]) =>
    some.filter(({ places }) => places.some(({ zone }) => zones.includes(zone))).map(({ key }) => key);
  const full = new Map<string, readonly string[]>();
  for (const { key, capacity } of basis.file.zones) {
    const tasks = within([key], [...begun, ...hardening]);
    if (tasks.length >= capacity) full.set(key, tasks);
  }
  for (const { zones, capacity } of basis.file.zoneGroups) {
    const tasks = within(zones, hardening);
    if (tasks.length >= capacity) for (const zone of zones) if (!full.has(zone)) full.set(zone, tasks);
  }
  return full;
}
