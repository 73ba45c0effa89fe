/**
 * What is asked of an evening: who is there, for how long, what holds outside, and from when on. Minutes are clock
 * minutes for each person; they run from `at`, or from when the first timer still running was started.
 */
export interface Ask {
  readonly people: readonly string[];
  readonly minutes: number;
  /** The conditions that hold, by the builder's own word or by the calendar. */
  readonly holding: readonly string[];
  /** An instant, not before the plan's own now. */
  readonly at: string;
  /** Tasks the builder wants in the set before all others, and tasks to be left out of it. */
  readonly wanted?: readonly string[];
  readonly without?: readonly string[];
}

/** Nothing shorter than this is begun if it cannot be finished. */
export const LEAST_PIECE = 30;
