/**
 * Every schedule a search makes is made here: counted (one for each pass, forward or backward: R. Kolisch, S. Hartmann,
 * EJOR 174, 2006), held against the best, and the last when they are used up, the bound is reached or the caller stops.
 */
import { compareObjectives, emptySchedule, type Decoder, type Schedule } from './decoder.ts';
import { sortByRising } from './lists.ts';

export const FORWARD = 0;
export const BACKWARD = 1;
export type Way = typeof FORWARD | typeof BACKWARD;

/** Copies: they stay as they are. */
export interface Best extends Schedule {
  /** Decoded forward, it gives this schedule or a better one. */
  readonly list: Int32Array;
  /** No other is better. */
  readonly proven: boolean;
  /** How many had been made when it was found. */
  readonly foundAt: number;
}

export interface Limits {
  /** At most so many; one is always made. */
  readonly schedules: number;
  /** Asked before each schedule but the first; what has been done so far stands. */
  readonly stop?: (done: number) => boolean;
  /** Told of the first schedule and of each better one. */
  readonly onBetter?: (best: Best) => void;
}

export class Ledger {
  readonly #decoder: Decoder;
  readonly #limits: Limits;
  readonly #schedule: Schedule;
  #best: Best | null = null;
  #done = 0;
  #isOver = false;

  constructor(decoder: Decoder, limits: Limits) {
    if (!(limits.schedules >= 1)) throw new RangeError('a search makes at least one schedule');
    this.#decoder = decoder;
    this.#limits = limits;
    this.#schedule = emptySchedule(decoder);
  }

  get done(): number {
    return this.#done;
  }

  /** No more schedules are to be made. */
  get isOver(): boolean {
    return this.#isOver;
  }

  get best(): Best {
    if (this.#best === null) throw new RangeError('no schedule has been made yet');
    return this.#best;
  }

  /** @returns the schedule, in memory that the next call fills anew */
  decode(list: Int32Array, way: Way): Schedule {
    const schedule = this.#schedule;
    if (way === FORWARD) this.#decoder.forward(list, schedule);
    else this.#decoder.backward!(list, schedule);
    this.#done++;
    if (this.#best === null || compareObjectives(schedule.objective, this.#best.objective) < 0)
      this.#keep(list, way);
    this.#isOver =
      this.best.proven || this.#done >= this.#limits.schedules || this.#limits.stop?.(this.#done) === true;
    return schedule;
  }

  #keep(given: Int32Array, way: Way): void {
    const { starts, finishes, objective } = this.#schedule;
    const { bound } = this.#decoder;
    const list = given.slice();
    if (way === BACKWARD) sortByRising(list.reverse(), starts);
    this.#best = {
      list,
      starts: starts.slice(),
      finishes: finishes.slice(),
      objective: objective.slice(),
      proven: bound !== null && compareObjectives(objective, bound) <= 0,
      foundAt: this.#done,
    };
    this.#limits.onBetter?.(this.#best);
  }
}
