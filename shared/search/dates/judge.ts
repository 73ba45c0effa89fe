/**
 * What makes one schedule better than another, first to last: tasks without dates, days past the target, the day of the
 * finish, near tasks that move, closings later, changes of zone. So days count before comfort, and comfort never costs one.
 */
import { DAY, dayIndex, dayStart } from '../../time/clock.ts';
import { floorOf, type Draft } from '../../schedule/draft.ts';
import { UNPLACED } from '../../schedule/forward.ts';
import type { Levelled } from '../../schedule/levelling/generate.ts';
import type { Spot } from '../../schedule/levelling/place.ts';

/** Where each stands in an objective. */
export const WITHOUT_DATES = 0;
export const DAYS_LATE = 1;
export const FINISH_DAY = 2;
export const MOVED = 3;
const CLOSINGS = 4;
const SWITCHES = 5;
const GOALS = 6;

export class Judge {
  readonly goals = GOALS;
  readonly #floor: number;
  /** Days from the build's first; null without a target. */
  readonly #targetDay: number | null;
  readonly #near: readonly { readonly v: number; readonly spot: Spot }[];
  /** Task nodes that close something up. */
  readonly #covers: readonly number[];
  /** Per task node. */
  readonly #zones: readonly (readonly string[])[];

  /** @param near task nodes that had better stay where the draft has them */
  constructor({ basis, graph, levelled, net }: Draft, near: readonly number[]) {
    const { targetFinishOn } = basis.file.build;
    this.#floor = floorOf(basis) ?? 0;
    this.#targetDay = targetFinishOn === null ? null : dayIndex(dayStart(basis.clock, targetFinishOn));
    this.#near = near.map((v) => ({ v, spot: levelled.spots[v]! }));
    const places = Array.from({ length: net.taskCount }, (_, v) => basis.taskOf.get(graph.ids[v]!)!.places);
    this.#zones = places.map((list) => [...new Set(list.map(({ zone }) => zone))]);
    this.#covers = [...places.keys()].filter((v) => places[v]!.some(({ hides }) => hides !== null));
  }

  /** @param objective filled anew; the day of the finish counts from the build's first */
  judge(levelled: Levelled, objective: Float64Array): void {
    let withoutDates = 0;
    let end = this.#floor;
    for (const spot of levelled.spots) {
      if (spot === null || spot.ready >= UNPLACED) withoutDates++;
      else if (spot.ready > end) end = spot.ready;
    }
    objective[WITHOUT_DATES] = withoutDates;
    this.setFinish(end, objective);
    objective[MOVED] = this.movedIn(levelled).length;
    objective[CLOSINGS] = this.#earliness(levelled);
    objective[SWITCHES] = this.#switches(levelled);
  }

  /** A backward schedule by its length alone; worse than any forward one, so that nobody takes it for dates. */
  guide(length: number, objective: Float64Array): void {
    objective.fill(0);
    objective[WITHOUT_DATES] = Infinity;
    objective[FINISH_DAY] = length / DAY;
  }

  /** What a finish by that instant is worth. */
  setFinish(end: number, objective: Float64Array): void {
    const day = dayIndex(end);
    objective[DAYS_LATE] = this.#targetDay === null ? 0 : Math.max(0, day - this.#targetDay);
    objective[FINISH_DAY] = day;
  }

  /** The near tasks that begin at another time or are done by others. */
  movedIn({ spots }: Levelled): number[] {
    return this.#near
      .filter(({ v, spot }) => {
        const now = spots[v];
        return now == null || now.start !== spot.start || now.team.people.join() !== spot.team.people.join();
      })
      .map(({ v }) => v);
  }

  /** The less the later things are closed up: days, summed over covers, below zero. */
  #earliness({ spots }: Levelled): number {
    let days = 0;
    for (const v of this.#covers) days -= dayIndex(spots[v]?.start ?? 0);
    return days;
  }

  /** How often someone goes from one zone to another: two tasks in a row, both in zones, none of them the same. */
  #switches({ spots, start }: Levelled): number {
    const byStart = [...spots.keys()]
      .filter((v) => spots[v] !== null && this.#zones[v]!.length > 0)
      .sort((a, b) => start[a]! - start[b]! || a - b);
    const last = new Map<string, number>();
    let switches = 0;
    for (const v of byStart)
      for (const person of spots[v]!.team.people) {
        const before = last.get(person);
        if (before !== undefined && !this.#zones[before]!.some((zone) => this.#zones[v]!.includes(zone)))
          switches++;
        last.set(person, v);
      }
    return switches;
  }
}
