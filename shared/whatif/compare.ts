/**
 * Two builds side by side, as far as a builder would choose between them by it: when it is done, what it costs, what it
 * weighs, what closes when, what is in the wrong order. Read the other way round every difference changes its sign.
 */
import { effectOf, type MovedClosing } from '../changes/effect.ts';
import type { BuildFile } from '../contract/build-file.ts';
import type { OrderError, Plan } from '../contract/plan.ts';
import { purchaseName } from '../purchases/name.ts';
import { dayNumber } from '../time/days.ts';

export interface Side {
  readonly file: BuildFile;
  readonly plan: Plan;
  /** The day by which it is done in four of five trials, an instant or a day; null: not reckoned, or no date. */
  readonly fourInFive?: string | null;
}

/** A figure on both sides; `by` is the second less the first, null where one of them is not known. */
export interface Pair<T> {
  readonly from: T | null;
  readonly to: T | null;
  readonly by: number | null;
}

/** A task whose end moves by a day or more, or that only one side has. Ends are instants. */
export interface MovedTask extends Pair<string> {
  readonly key: string;
  readonly name: string;
  readonly is: 'moved' | 'new' | 'gone';
}

/** A purchase whose last day to order moves, or that only one side has still to order. Days. */
export interface MovedOrder extends Pair<string> {
  readonly key: string;
  readonly name: string;
}

export interface Comparison {
  /** Instants; `by` in days, later positive. */
  readonly finish: Pair<string>;
  readonly fourInFive: Pair<string>;
  /** Minor units. */
  readonly forecast: Pair<number>;
  /** The month the purse runs empty; null: it never does. `by` in months, later positive. */
  readonly empty: Pair<string>;
  /** Payload left with everything in, grams. */
  readonly massLeft: Pair<number>;
  /** Person-minutes still to work. */
  readonly toWork: Pair<number>;
  /** Tasks not finished. */
  readonly tasksLeft: Pair<number>;
  /** Soonest first, from the first side to the second. */
  readonly closings: readonly MovedClosing[];
  readonly newErrors: readonly OrderError[];
  readonly goneErrors: readonly OrderError[];
  /** The furthest moved first, then those only one side has. */
  readonly tasks: readonly MovedTask[];
  /** The furthest moved first. */
  readonly orderBy: readonly MovedOrder[];
}

export function compare(a: Side, b: Side): Comparison {
  const effect = effectOf(a.plan, b.plan);
  return {
    finish: { ...effect.finish, by: effect.days },
    fourInFive: days(a.fourInFive ?? null, b.fourInFive ?? null),
    forecast: numbers(a.plan.money.total.forecast, b.plan.money.total.forecast),
    empty: months(a.plan.money.cash.empty?.month ?? null, b.plan.money.cash.empty?.month ?? null),
    massLeft: numbers(a.plan.mass.planned.gross.left, b.plan.mass.planned.gross.left),
    toWork: numbers(a.plan.progress.remaining, b.plan.progress.remaining),
    tasksLeft: numbers(left(a.plan), left(b.plan)),
    closings: effect.closings,
    newErrors: effect.newErrors,
    goneErrors: effect.goneErrors,
    tasks: movedTasks(a, b),
    orderBy: movedOrders(a, b),
  };
}

function left({ progress: { tasks, finished } }: Plan): number {
  return tasks - finished;
}

function numbers(from: number | null, to: number | null): Pair<number> {
  return { from, to, by: from === null || to === null ? null : to - from };
}

function days(from: string | null, to: string | null): Pair<string> {
  const at = (text: string) => dayNumber(text.slice(0, 10));
  return { from, to, by: from === null || to === null ? null : at(to) - at(from) };
}

function months(from: string | null, to: string | null): Pair<string> {
  const at = (text: string) => Number(text.slice(0, 4)) * 12 + Number(text.slice(5, 7));
  return { from, to, by: from === null || to === null ? null : at(to) - at(from) };
}

function movedTasks(a: Side, b: Side): MovedTask[] {
  const end = ({ plan }: Side, key: string) => plan.tasks[key]?.dates?.finish ?? null;
  const old = new Map(a.file.tasks.map((task) => [task.key, task]));
  const now = new Map(b.file.tasks.map((task) => [task.key, task]));
  const moved: MovedTask[] = [];
  for (const key of new Set([...old.keys(), ...now.keys()])) {
    const is = !old.has(key) ? 'new' : !now.has(key) ? 'gone' : 'moved';
    const { name } = (now.get(key) ?? old.get(key))!;
    const pair = days(end(a, key), end(b, key));
    if (is !== 'moved' || pair.by !== 0) {
      if (is === 'moved' && pair.from === null && pair.to === null) continue;
      moved.push({ key, name, is, ...pair });
    }
  }
  return moved.toSorted(furthestFirst);
}

function movedOrders(a: Side, b: Side): MovedOrder[] {
  const on = ({ plan }: Side, key: string) => plan.purchases[key]?.orderBy ?? null;
  const names = new Map(
    [...a.file.purchases, ...b.file.purchases].map((one) => [one.key, purchaseName(one)]),
  );
  return [...names]
    .flatMap(([key, name]): MovedOrder[] => {
      const pair = days(on(a, key), on(b, key));
      return pair.from === pair.to ? [] : [{ key, name, ...pair }];
    })
    .toSorted(furthestFirst);
}

/** Those without a difference in days come last; ties by key, so that both ways round name the same first. */
function furthestFirst(a: Pair<string> & { key: string }, b: Pair<string> & { key: string }): number {
  const far = ({ by }: Pair<string>) => (by === null ? -1 : Math.abs(by));
  return far(b) - far(a) || (a.key < b.key ? -1 : a.key > b.key ? 1 : 0);
}
