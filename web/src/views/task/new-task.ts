/** A new task from little: a name, what will cover it, and what a similar task lends it. */
import { notBegun } from '#shared/changes/not-begun.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Place, Task } from '#shared/contract/task.ts';
import { freeKey } from './task-key.ts';

/** Where nothing similar is known: an hour or two, up to half a day. */
export const USUAL_MINUTES = { low: 60, likely: 120, high: 240 } as const;

export interface Asked {
  readonly name: string;
  readonly places: readonly Place[];
  /** Lends phase, hours, people, kinds, conditions, its wait, checks and steps. */
  readonly like: Task | null;
}

export function newTask(file: BuildFile, { name, places, like }: Asked): Task {
  const lent = like === null ? null : notBegun(like);
  const taken = new Set(file.tasks.map((task) => task.key));
  return {
    key: freeKey(name, taken, 'task'),
    name: name.trim(),
    phase: like?.phase ?? null,
    kinds: [...(like?.kinds ?? [])],
    minutes: { ...(like?.minutes ?? USUAL_MINUTES) },
    people: like?.people ?? 1,
    who: [...(like?.who ?? [])],
    tools: [...(like?.tools ?? [])],
    shortestSitting: like?.shortestSitting ?? 0,
    waitMinutes: like?.waitMinutes ?? 0,
    waitConditions: [...(like?.waitConditions ?? [])],
    waitHoldsZones: like?.waitHoldsZones ?? false,
    conditions: [...(like?.conditions ?? [])],
    places: places.map((place) => ({ ...place })),
    reopenMinutes: null,
    steps: lent?.steps ?? [],
    holdPoints: lent?.holdPoints ?? [],
    state: 'not-started',
    startedAt: null,
    finishedAt: null,
    hoursKnown: true,
    remainingMinutes: null,
    fixedStart: null,
    fixedWhy: null,
    cautions: [...(like?.cautions ?? [])],
    option: like?.option ?? null,
    note: '',
  };
}

/** The place just behind a cover: the depth furthest in front that it hides in the zone. @returns null where it hides none */
export function placeBehind(cover: Task, zone: string, depths: readonly string[]): Place | null {
  const hidden = cover.places
    .filter((place) => place.zone === zone && place.hides !== null)
    .map(({ hides }) => depths.indexOf(hides!));
  const furthest = Math.max(-1, ...hidden);
  return furthest < 0 ? null : { zone, depth: depths[furthest]!, hides: null };
}
