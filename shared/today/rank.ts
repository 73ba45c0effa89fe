/**
 * The order in which ready tasks are thought of: on the driving chain, then what protects the next closing, then what
 * can wait least; among equals what finishes before what is cut, then where was worked last, then by key. Tasks alike
 * up to how long they can wait are of one class: the set is composed class by class.
 *
 * How long one can wait is counted from the evening asked for, not from its planned date as on other screens: else what
 * the plan puts off would always seem more pressing than what it puts tonight.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Closing, Plan, PlannedTask } from '../contract/plan.ts';
import type { Task } from '../contract/task.ts';
import { slackLeft } from '../schedule/slack-left.ts';
import type { Ask } from './ask.ts';
import type { Standing } from './lacks.ts';

export interface Ranked extends Standing {
  /** On the driving chain: whatever delays it moves the finish. */
  readonly chain: boolean;
  /** The next closing that misses something, where this is among it. */
  readonly closing: Closing | null;
  /** Days of slack after its planned date, as every screen says it; null where not known. */
  readonly slack: number | null;
  /** Days from the evening to the last day it may end; null where not known. */
  readonly canWait: number | null;
  /** It fits into the hours as a whole. */
  readonly finishes: boolean;
  readonly sameZone: boolean;
  readonly wanted: boolean;
  /** 0 first. Equal for tasks alike in all that comes before "finishes". */
  readonly class: number;
}

/** Best first. */
export function rankedOf(file: BuildFile, plan: Plan, ask: Ask, ready: readonly Standing[]): Ranked[] {
  const next = nextClosing(plan);
  const last = lastZones(file, ask.people);
  const drives = (key: string) => plan.tasks[key]!.chain ?? plan.tasks[key]!.critical;
  const list = ready
    .map((one) => ({
      ...one,
      chain: drives(one.task.key),
      closing: next?.missing.includes(one.task.key) === true ? next : null,
      slack: slackLeft(plan.tasks[one.task.key]!, file.build.startOn),
      canWait: slackLeft(endingOn(plan.tasks[one.task.key]!, ask.at), file.build.startOn),
      finishes: one.mayFinish && one.minutes <= ask.minutes,
      sameZone: one.task.places.some(({ zone }) => last.has(zone)),
      wanted: ask.wanted?.includes(one.task.key) ?? false,
    }))
    .sort(
      (a, b) =>
        byClass(a, b) ||
        Number(b.finishes) - Number(a.finishes) ||
        Number(b.sameZone) - Number(a.sameZone) ||
        (a.task.key < b.task.key ? -1 : 1),
    );
  let number = 0;
  return list.map((one, i) => {
    if (i > 0 && byClass(list[i - 1]!, one) !== 0) number++;
    return { ...one, class: number };
  });
}

type Classed = Omit<Ranked, 'class'>;

function byClass(a: Classed, b: Classed): number {
  return (
    Number(b.wanted) - Number(a.wanted) ||
    Number(b.chain) - Number(a.chain) ||
    Number(b.closing !== null) - Number(a.closing !== null) ||
    Math.sign((a.canWait ?? UNKNOWN) - (b.canWait ?? UNKNOWN))
  );
}

/** As if it ended on that evening. */
function endingOn(planned: PlannedTask, at: string): PlannedTask {
  return { ...planned, dates: { start: at, waitUntil: at, people: [], sittings: [], finish: at } };
}

/** Longer than anything can wait. */
const UNKNOWN = 1e9;

/** The first closing with a date behind which something is not finished. Where one task closes several zones: all of it. */
export function nextClosing({ closings }: Plan): Closing | null {
  const open = closings.filter(({ at, missing }) => at !== null && missing.length > 0);
  const first = open.reduce<Closing | null>((a, b) => (a === null || b.at! < a.at! ? b : a), null);
  if (first === null) return null;
  const missing = open.filter(({ by }) => by === first.by).flatMap((one) => one.missing);
  return { ...first, missing: [...new Set(missing)] };
}

/** Where the people worked on the last day they have hours of. */
function lastZones(file: BuildFile, people: readonly string[]): ReadonlySet<string> {
  const worked = file.hours.filter(({ person, task }) => task !== null && people.includes(person));
  const day = worked.reduce((latest, { on }) => (on > latest ? on : latest), '');
  const keys = new Set(worked.filter(({ on }) => on === day).map(({ task }) => task));
  const zones = (task: Task) => (keys.has(task.key) ? task.places.map(({ zone }) => zone) : []);
  return new Set(file.tasks.flatMap(zones));
}
