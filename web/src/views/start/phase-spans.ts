/** The plan by its phases: from when to when each is worked at, how many hours it has left, what it closes. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Closing, Plan } from '#shared/contract/plan.ts';
import type { Task } from '#shared/contract/task.ts';
import { dayNumber } from '#shared/time/days.ts';
import { nextClosings } from '../../state/amber.ts';

export interface PhaseSpan {
  readonly key: string | null;
  readonly name: string;
  /** Days from its first open task's start to its last one's end; null where none has a date. */
  readonly from: string | null;
  readonly to: string | null;
  /** Person-minutes. */
  readonly remaining: number;
  readonly tasks: number;
  readonly finished: number;
  /** Soonest first, one a zone and day. */
  readonly closings: readonly Closing[];
  /** Its next open tasks, soonest first, once work on it is near. */
  readonly next: readonly Task[];
}

/** Tasks are told from so many days before their phase begins, and so many of them. */
const NEAR_DAYS = 28;
const MOST_TASKS = 4;

export function phaseSpans(file: BuildFile, plan: Plan): PhaseSpan[] {
  const closings = nextClosings(plan);
  const phaseOf = new Map(file.tasks.map(({ key, phase }) => [key, phase]));
  const span = (key: string | null, name: string): PhaseSpan => {
    const tasks = file.tasks.filter((task) => task.phase === key);
    const open = tasks
      .filter(({ state, key: task }) => state !== 'finished' && plan.tasks[task]!.dates !== null)
      .toSorted((a, b) => compare(startOf(plan, a), startOf(plan, b)) || compare(a.key, b.key));
    const ends = open.map((task) => plan.tasks[task.key]!.dates!.finish).toSorted();
    const from = open[0] === undefined ? null : startOf(plan, open[0]).slice(0, 10);
    const isNear = from !== null && dayNumber(from) - dayNumber(plan.asOf.slice(0, 10)) <= NEAR_DAYS;
    return {
      key,
      name,
      from,
      to: ends.at(-1)?.slice(0, 10) ?? null,
      remaining: tasks.reduce((sum, task) => sum + plan.tasks[task.key]!.minutes * task.people, 0),
      tasks: tasks.length,
      finished: tasks.filter(({ state }) => state === 'finished').length,
      closings: closings.filter(({ by }) => phaseOf.get(by) === key),
      next: isNear ? open.slice(0, MOST_TASKS) : [],
    };
  };
  const spans = file.phases.map(({ key, name }) => span(key, name));
  const rest = span(null, 'No phase');
  return (rest.tasks === 0 ? spans : [...spans, rest]).filter(({ tasks }) => tasks > 0);
}

/** A task under way begins, for what is ahead, where it goes on. */
function startOf(plan: Plan, { key }: Task): string {
  const { start } = plan.tasks[key]!.dates!;
  return start < plan.asOf ? plan.asOf : start;
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

export interface MonthTick {
  /** Share of the way from the first day to the last, 0..1. */
  readonly at: number;
  readonly month: number;
  readonly year: number;
}

/** First days of months between two days, not more than `most` of them. */
export function monthTicks(from: string, to: string, most: number): MonthTick[] {
  const [first, last] = [dayNumber(from), dayNumber(to)];
  const ticks: MonthTick[] = [];
  let [year, month] = [Number(from.slice(0, 4)), Number(from.slice(5, 7))];
  for (;;) {
    month = (month % 12) + 1;
    if (month === 1) year++;
    const day = dayNumber(`${year}-${String(month).padStart(2, '0')}-01`);
    if (day > last) break;
    ticks.push({ at: (day - first) / Math.max(1, last - first), month, year });
  }
  const step = [1, 2, 3, 6, 12].find((one) => ticks.length / one <= most) ?? 12;
  return step === 1 ? ticks : ticks.filter(({ month: m }) => (m - 1) % step === 0);
}
