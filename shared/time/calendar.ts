/**
 * The calendar of one build: who is there when, which conditions hold, and the working sets made of both, each worked
 * out once. Ten years ahead bound every search.
 */
import type { Condition, Person, Tool } from '../contract/calendar.ts';
import {
  atLeast,
  combine,
  conditionAvailability,
  personAvailability,
  toolAvailability,
  type Availability,
  type Span,
} from './availability.ts';
import { DAY } from './clock.ts';
import { Patterns } from './patterns.ts';
import { workingSet } from './make-working-set.ts';
import type { WorkingSet } from './working-set.ts';

/** No search looks further ahead than this. */
export const HORIZON_DAYS = 3653;

export interface CalendarSource {
  readonly people: readonly Person[];
  readonly tools: readonly Tool[];
  readonly conditions: readonly Condition[];
}

export class Calendar {
  readonly #span: Span;
  readonly #origin: number;
  readonly #patterns = new Patterns();
  readonly #people = new Map<string, Availability>();
  readonly #tools = new Map<string, Availability>();
  readonly #conditions = new Map<string, Availability>();
  readonly #sets = new Map<string, number>();
  /** Every working set asked for so far; a set's number never changes. */
  readonly sets: WorkingSet[] = [];

  /**
   * @param span days since 1970-01-01
   * @param firstDay the build's first day; instants count from its 00:00
   */
  constructor(source: CalendarSource, span: Span, firstDay: number) {
    this.#span = span;
    this.#origin = (span.from - firstDay) * DAY;
    for (const person of source.people)
      this.#people.set(person.key, personAvailability(person, span, this.#patterns));
    for (const tool of source.tools) this.#tools.set(tool.key, toolAvailability(tool, span));
    for (const condition of source.conditions)
      this.#conditions.set(condition.key, conditionAvailability(condition, span, this.#patterns));
  }

  get from(): number {
    return this.#origin;
  }

  get to(): number {
    return this.#origin + (this.#span.to - this.#span.from) * DAY;
  }

  /**
   * The number of the set of minutes at which at least `count` of `people` are in a window, every condition holds
   * and every tool is there. `count` 0: nobody needed.
   */
  setOf(
    count: number,
    people: readonly string[],
    conditions: readonly string[],
    tools: readonly string[],
  ): number {
    const name = `${count}|${[...people].sort().join()}|${[...conditions].sort().join()}|${[...tools].sort().join()}`;
    let id = this.#sets.get(name);
    if (id === undefined) {
      id =
        this.sets.push(
          workingSet(this.#days(count, people, conditions, tools), this.#origin, this.#patterns),
        ) - 1;
      this.#sets.set(name, id);
    }
    return id;
  }

  #days(
    count: number,
    people: readonly string[],
    conditions: readonly string[],
    tools: readonly string[],
  ): Availability {
    const length = this.#span.to - this.#span.from;
    const there = people.map((key) => this.#people.get(key)!);
    const needed = [
      ...conditions.map((key) => this.#conditions.get(key)!),
      ...tools.map((key) => this.#tools.get(key)!),
    ];
    let days = count === 0 ? new Int32Array(length).fill(1) : atLeast(there, count, length, this.#patterns);
    for (const other of needed) days = combine(days, other, (a, b) => this.#patterns.both(a, b));
    return days;
  }
}
