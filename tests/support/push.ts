/**
 * What putting one task off does to the rest, by pushing: whatever a task now meets yields to it, to the right and no
 * further than it must, teams and orders kept. Minute by minute; it shares no code with the driving chain it checks.
 */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import type { Task } from '#shared/contract/task.ts';
import { coverPairs } from './cover-rule.ts';
import { isAdmissible, minuteOf, runEnd, workable } from './minute-by-minute.ts';

const DAY = 1440;

interface Pushed {
  readonly task: Task;
  readonly people: readonly string[];
  readonly open: Uint8Array;
  readonly planned: { readonly start: number; readonly finish: number; readonly leave: number };
  start: number;
}

/** The tasks of a plan that is not begun, each where the plan has it, and what pushes what. */
export class Pushing {
  readonly #file: BuildFile;
  readonly #length: number;
  readonly #tasks: ReadonlyMap<string, Pushed>;
  /** The minutes at which a team can work, walked once per question. */
  readonly #known = new Map<string, Uint8Array>();
  readonly #covers: readonly { readonly inner: string; readonly cover: string }[];
  readonly #inOrder: readonly (readonly [string, string])[];
  readonly #inRooms: readonly (readonly [string, string])[];
  /** Do some tasks of one person take turns? Then it is not clear which of them has to yield. */
  readonly takesTurns: boolean;

  constructor(file: BuildFile, plan: Plan, length: number) {
    this.#file = file;
    this.#length = length;
    this.#covers = coverPairs(file);
    const at = (instant: string) => minuteOf(file.build.startOn, instant);
    this.#tasks = new Map(
      file.tasks.map((task) => {
        const { start, finish, waitUntil, people } = plan.tasks[task.key]!.dates!;
        const leave = at(task.waitHoldsZones ? waitUntil : finish);
        const planned = { start: at(start), finish: at(finish), leave };
        const open = this.#workable(task, people, people.length);
        return [task.key, { task, people, open, planned, start: planned.start }];
      }),
    );
    const sharing = pairsOf(
      [...this.#tasks.values()].filter(({ planned }) => planned.finish > planned.start),
    ).filter(
      ([a, b]) =>
        a.people.some((key) => b.people.includes(key)) ||
        a.task.tools.some((key) => b.task.tools.includes(key)),
    );
    this.#inOrder = sharing
      .filter(([a, b]) => a.planned.finish <= b.planned.start)
      .map(([a, b]) => [a.task.key, b.task.key]);
    this.takesTurns = sharing.length !== 2 * this.#inOrder.length;
    this.#inRooms = this.#roomOrders();
  }

  /**
   * The plan's end when a task begins at its first chance in a later sitting; null if there is none within the length.
   */
  endWithout(key: string): number | null {
    const next = this.#nextSitting(this.#tasks.get(key)!);
    if (next === null) return null;
    for (const one of this.#tasks.values()) one.start = one.planned.start;
    this.#tasks.get(key)!.start = next;
    for (let moved = true; moved;) {
      moved = false;
      for (const one of this.#tasks.values()) {
        const start = this.#yieldTo(one);
        if (start === null) return null;
        if (start > one.start) moved = true;
        one.start = start;
      }
    }
    const ends = [...this.#tasks.values()].map((one) => this.#waitOver(one));
    return ends.includes(-1) ? null : Math.max(...ends);
  }

  #nextSitting({ task, open, planned: { start } }: Pushed): number | null {
    const nextDay = (Math.floor(start / DAY) + 1) * DAY;
    if (task.minutes.likely === 0) return nextDay;
    let closed = 0;
    let later = false;
    for (let m = start; m < this.#length; m++) {
      closed = open[m] === 1 ? 0 : closed + 1;
      later ||= closed > 90 || m >= nextDay;
      if (later && this.#fits(open, m, task)) return m;
    }
    return null;
  }

  #fits(open: Uint8Array, m: number, { minutes: { likely }, shortestSitting }: Task): boolean {
    return isAdmissible(open, m, Math.min(shortestSitting, likely)) && runEnd(open, m, likely) !== -1;
  }

  /** The first start at which it no longer lies before what pushes it. */
  #yieldTo(one: Pushed): number | null {
    const { key, minutes } = one.task;
    let from = one.start;
    let finishFrom = 0;
    for (const { from: before, to, kind, lagMinutes, lagOn } of this.#file.links) {
      if (to !== key) continue;
      const other = this.#tasks.get(before)!;
      const origin =
        kind === 'FS' ? this.#waitOver(other) : kind === 'FF' ? this.#finishOf(other) : other.start;
      const bound =
        lagOn === 'clock' || lagMinutes === 0 ? origin + lagMinutes : this.#lag(one, origin, lagMinutes);
      if (origin === -1 || bound === -1) return null;
      if (kind === 'FS' || kind === 'SS') from = Math.max(from, bound);
      else finishFrom = Math.max(finishFrom, bound);
    }
    for (const { inner, cover } of this.#covers)
      if (cover === key) from = Math.max(from, this.#waitOver(this.#tasks.get(inner)!));
    for (const [before, after] of this.#inOrder)
      if (after === key) from = Math.max(from, this.#finishOf(this.#tasks.get(before)!));
    for (const [before, after] of this.#inRooms)
      if (after === key) from = Math.max(from, this.#leave(this.#tasks.get(before)!));
    if (minutes.likely === 0) return Math.max(from, finishFrom);
    for (let m = from; m < this.#length; m++)
      if (this.#fits(one.open, m, one.task) && runEnd(one.open, m, minutes.likely) >= finishFrom) return m;
    return null;
  }

  #lag({ task }: Pushed, from: number, lag: number): number {
    const eligible = task.who.length > 0 ? task.who : this.#file.people.map(({ key }) => key);
    return runEnd(this.#workable(task, eligible, task.people), from, lag);
  }

  #workable(needs: Pick<Task, 'conditions' | 'tools'>, team: readonly string[], count: number): Uint8Array {
    const question = JSON.stringify([needs.conditions, needs.tools, team, count]);
    const open = this.#known.get(question) ?? workable(this.#file, needs, team, count, this.#length);
    this.#known.set(question, open);
    return open;
  }

  #finishOf({ task, open, start }: Pushed): number {
    return runEnd(open, start, task.minutes.likely);
  }

  #waitOver(one: Pushed): number {
    const { waitMinutes, waitConditions } = one.task;
    const finish = this.#finishOf(one);
    if (waitMinutes === 0 || waitConditions.length === 0) return finish + waitMinutes;
    const needs = { conditions: waitConditions, tools: [] };
    return runEnd(this.#workable(needs, [], 0), finish, waitMinutes);
  }

  #leave(one: Pushed): number {
    return one.task.waitHoldsZones ? this.#waitOver(one) : this.#finishOf(one);
  }

  /** Who takes whose place in a room: of the places that are empty by then, the one that has been empty longest. */
  #roomOrders(): [string, string][] {
    const orders: [string, string][] = [];
    const rooms = [
      ...this.#file.zones.map(({ key, capacity }) => ({ zones: [key], capacity })),
      ...this.#file.zoneGroups,
    ];
    for (const { zones, capacity } of rooms) {
      const places: (Pushed | null)[] = Array.from({ length: capacity }, () => null);
      const inside = [...this.#tasks.values()]
        .filter(({ task }) => task.places.some(({ zone }) => zones.includes(zone)))
        .filter(({ planned }) => planned.leave > planned.start)
        .sort((a, b) => a.planned.start - b.planned.start || (a.task.key < b.task.key ? -1 : 1));
      for (const one of inside) {
        const since = places.map((place) => place?.planned.leave ?? -1);
        const place = since.indexOf(Math.min(...since));
        const before = places[place];
        if (before) orders.push([before.task.key, one.task.key]);
        places[place] = one;
      }
    }
    return orders;
  }
}

// Helpers

/** Every pair, both ways round. */
function pairsOf<T>(list: readonly T[]): [T, T][] {
  return list.flatMap((a) => list.filter((b) => b !== a).map((b): [T, T] => [a, b]));
}
