/**
 * What can be done now: one set for the hours at hand, what could be done instead, and what lacks only something. A pure
 * function of the build, its plan and what is asked; it computes no date of its own.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Plan } from '../contract/plan.ts';
import { clockFrom, instantOf } from '../time/clock.ts';
import type { Ask } from './ask.ts';
import { compose } from './compose.ts';
import {
  checksToSign,
  decisionsToTake,
  endingWaits,
  type CheckToSign,
  type EndingWait,
  type ToDecide,
} from './due.ts';
import { Evening, type Piece } from './evening.ts';
import { standings, type Standing } from './lacks.ts';
import { rankedOf, type Ranked } from './rank.ts';
import { runningOf, type Running } from './running.ts';

export interface Chosen {
  readonly piece: Piece;
  readonly ranked: Ranked;
  /** Null: not running. */
  readonly running: Running | null;
}

export interface Today {
  /** Minutes of the evening gone by since the first timer. */
  readonly gone: number;
  /** In the order of the evening, what runs first. */
  readonly set: readonly Chosen[];
  /** Is the set the best that can be found this way, beyond doubt? */
  readonly exact: boolean;
  /** Ready and not in the set, best first. */
  readonly alternatives: readonly Ranked[];
  /** Not ready, by key. */
  readonly held: readonly Standing[];
  readonly waits: readonly EndingWait[];
  readonly checks: readonly CheckToSign[];
  readonly decisions: readonly ToDecide[];
  /** Per task: the unfinished ones that come just after it, by key. */
  readonly after: ReadonlyMap<string, readonly string[]>;
}

/** Questions are shown so many days ahead. */
const DECIDE_DAYS = 14;

/** @param file a build that `readBuild` has vouched for. @param plan its own plan */
export function todayOf(file: BuildFile, plan: Plan, ask: Ask): Today {
  const all = standings(file, plan, ask);
  const { gone, running, elsewhere } = runningOf(file, plan, ask);
  const isRunning = new Map(running.map((one) => [one.task.key, one]));
  const ranked = sparing(
    file,
    rankedOf(
      file,
      plan,
      ask,
      all.filter(
        ({ task, lacks }) => isRunning.has(task.key) || (lacks.length === 0 && !elsewhere.has(task.key)),
      ),
    ),
  );
  const evening = new Evening(
    file,
    ask.minutes,
    gone,
    all.filter(({ inRooms }) => inRooms).map(({ task }) => task),
    hardening(file, plan, ask, gone),
  );
  for (const one of running) evening.push(one);
  const free = ranked.filter(
    ({ task }) => !isRunning.has(task.key) && ask.without?.includes(task.key) !== true,
  );
  const { pieces, exact } = compose(evening, ask.people.length, free);
  const rankOf = new Map(ranked.map((one) => [one.task.key, one]));
  const set = pieces
    .map((piece) => ({
      piece,
      ranked: rankOf.get(piece.task.key)!,
      running: isRunning.get(piece.task.key) ?? null,
    }))
    .sort(inOrder);
  const chosen = new Set(set.map(({ ranked: { task } }) => task.key));
  return {
    gone,
    set,
    exact,
    alternatives: ranked.filter(({ task }) => !chosen.has(task.key)),
    held: all.filter(({ task, lacks }) => lacks.length > 0 && !isRunning.has(task.key)),
    waits: endingWaits(file, plan, ask.at, all),
    checks: checksToSign(file, all),
    decisions: decisionsToTake(file, plan, DECIDE_DAYS),
    after: afterOf(all),
  };
}

function inOrder(a: Chosen, b: Chosen): number {
  return (
    Number(b.running !== null) - Number(a.running !== null) ||
    a.piece.from - b.piece.from ||
    a.ranked.class - b.ranked.class ||
    (a.piece.task.key < b.piece.task.key ? -1 : 1)
  );
}

/**
 * Whoever is asked for by name in fewer of these tasks is taken first, so that the others stay free for theirs; then
 * whoever has worked on it before.
 */
function sparing({ hours }: BuildFile, ranked: readonly Ranked[]): Ranked[] {
  const asked = new Map<string, number>();
  for (const { task, people } of ranked)
    if (people.length === task.people) for (const key of people) asked.set(key, (asked.get(key) ?? 0) + 1);
  const times = (key: string) => asked.get(key) ?? 0;
  const known = new Set(hours.map(({ task, person }) => `${task} ${person}`));
  return ranked.map((one) => {
    const isNew = (key: string) => Number(!known.has(`${one.task.key} ${key}`));
    return {
      ...one,
      people: one.people.toSorted((a, b) => times(a) - times(b) || isNew(a) - isNew(b) || (a < b ? -1 : 1)),
    };
  });
}

/** Finished tasks that bar their zones while they harden, in minutes of the evening. */
function hardening(file: BuildFile, plan: Plan, ask: Ask, gone: number) {
  const clock = clockFrom(file.build.startOn);
  const begins = instantOf(clock, ask.at) - gone;
  return file.tasks.flatMap((task) => {
    if (task.state !== 'finished' || !task.waitHoldsZones || task.waitMinutes === 0) return [];
    const { waitUntil } = plan.tasks[task.key]!.dates!;
    const to = waitUntil === task.finishedAt ? Infinity : instantOf(clock, waitUntil) - begins;
    return to > gone ? [{ task, from: -Infinity, to }] : [];
  });
}

function afterOf(all: readonly Standing[]): Map<string, string[]> {
  const after = new Map<string, string[]>();
  for (const { task, before } of all)
    for (const one of before) {
      const list = after.get(one.task) ?? [];
      if (list.at(-1) !== task.key) after.set(one.task, [...list, task.key]);
    }
  return after;
}
