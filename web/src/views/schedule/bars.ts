/** What is drawn of each task, in days and without a scale: worked out once a plan, set into px by the rows in sight. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import type { Task } from '#shared/contract/task.ts';
import { slackLeft } from '#shared/schedule/slack-left.ts';
import { dayNumber } from '#shared/time/days.ts';
import { closingIsAmber, errorIsAmber, missesOf, purchaseIsAmber } from '../../state/amber.ts';
import { drivingChain } from '../../drawing/chain.ts';
import { codesOf, codesShort } from './codes.ts';

/** Days are counted from 1970-01-01; a day with a fraction is an instant. */
export interface Bar {
  readonly key: string;
  readonly state: Task['state'];
  /** The first day of work, and the day after the last; what was worked before the plan's part is in `worked`. */
  readonly start: number;
  readonly end: number;
  /** Days on which work is planned. */
  readonly days: readonly number[];
  /** Days on which hours were logged. */
  readonly worked: readonly number[];
  /** When its wait is over; null where nothing waits. */
  readonly waitTo: number | null;
  /** How far the end of it, its wait included, can move: days, 1 or more; null where it cannot or does not matter. */
  readonly slack: number | null;
  readonly chain: boolean;
  readonly wrong: boolean;
  readonly fixed: boolean;
  /** What starting it closes, as codes; '' nothing. */
  readonly closes: string;
  /** How much a closing about to go wrong still misses; 0 for all others. */
  readonly misses: number;
  /** The day the last of its parts arrives; null when nothing is on its way. */
  readonly parts: number | null;
  readonly partsAmber: boolean;
}

/** From the left-most mark to the right-most, for finding a bar under a pointer. */
export function reachOf(bar: Bar): readonly [number, number] {
  return [Math.min(bar.start, bar.worked[0] ?? bar.start), bar.end];
}

export function dayAt(instant: string): number {
  return (
    dayNumber(instant.slice(0, 10)) +
    (Number(instant.slice(11, 13)) * 60 + Number(instant.slice(14, 16))) / 1440
  );
}

/** By task key; tasks without dates have none. */
export function barsOf(file: BuildFile, plan: Plan): ReadonlyMap<string, Bar> {
  const firstDay = dayNumber(file.build.startOn);
  const chain = drivingChain(plan.tasks);
  const worked = workedDays(file);
  // A wrong order has two halves; what lies between them on the chain is not wrong.
  const wrong = new Set(plan.errors.filter(errorIsAmber).flatMap(({ tasks }) => tasks.slice(0, 2)));
  const closings = new Map<string, { zones: string[]; misses: number }>();
  for (const closing of plan.closings) {
    const one = closings.get(closing.by) ?? { zones: [], misses: 0 };
    one.zones.push(closing.zone);
    if (closingIsAmber(closing, plan.asOf)) one.misses = Math.max(one.misses, missesOf(closing));
    closings.set(closing.by, one);
  }
  const parts = partsOf(file, plan);
  const bars = new Map<string, Bar>();
  for (const task of file.tasks) {
    const planned = plan.tasks[task.key];
    if (planned?.dates == null) continue;
    const { dates } = planned;
    const logged = worked.get(task.key) ?? [];
    const days = [...new Set(dates.sittings.map(([from]) => firstDay + Math.floor(from / 1440)))];
    const start =
      planned.state === 'not-started' || days.length === 0
        ? dayNumber(dates.start.slice(0, 10))
        : Math.min(days[0]!, ...logged.slice(0, 1));
    const end = Math.floor(dayAt(dates.finish) - 1 / 1440) + 1;
    const wait = dayAt(dates.waitUntil);
    const slack = slackLeft(planned, file.build.startOn);
    const closing = closings.get(task.key);
    const covers = planned.state === 'finished' ? [] : (closing?.zones ?? []);
    const arrives = planned.state === 'finished' ? undefined : parts.get(task.key);
    bars.set(task.key, {
      key: task.key,
      state: planned.state,
      start,
      end: Math.max(end, start + 1),
      days,
      worked: logged,
      waitTo: dates.waitUntil > dates.finish && wait > end ? wait : null,
      slack: (slack ?? 0) >= 1 ? slack : null,
      chain: chain.has(task.key),
      wrong: wrong.has(task.key),
      fixed: task.fixedStart !== null && planned.state === 'not-started',
      closes: codesShort(codesOf(covers, file.zones), 8),
      misses: closing?.misses ?? 0,
      parts: arrives?.day ?? null,
      partsAmber: arrives?.amber ?? false,
    });
  }
  return bars;
}

/** Days with logged hours, in order, by task. */
function workedDays({ hours }: BuildFile): Map<string, number[]> {
  const sets = new Map<string, Set<number>>();
  for (const { task, on } of hours) {
    if (task === null) continue;
    const days = sets.get(task) ?? new Set();
    sets.set(task, days.add(dayNumber(on)));
  }
  return new Map([...sets].map(([key, days]) => [key, [...days].sort((a, b) => a - b)]));
}

interface Arrival {
  readonly day: number;
  readonly amber: boolean;
}

/** A wanted part counts once its arrival is this close to the work; before that it only has a day to order. */
const WANTED_DAYS = 21;

/** The last arrival still ahead, by the task that needs it. */
function partsOf({ purchases }: BuildFile, plan: Plan): Map<string, Arrival> {
  const out = new Map<string, Arrival>();
  const today = dayNumber(plan.asOf.slice(0, 10));
  for (const { key, state, lines } of purchases) {
    const planned = plan.purchases[key];
    if (planned?.arrives == null) continue;
    const day = dayNumber(planned.arrives);
    if (day < today || state === 'received' || state === 'returned') continue;
    const amber = purchaseIsAmber(plan, key);
    const ordered = state === 'ordered' || state === 'part-received';
    for (const task of new Set(lines.flatMap(({ neededBy }) => neededBy))) {
      const start = plan.tasks[task]?.dates?.start;
      if (start === undefined) continue;
      if (!ordered && !planned.holds.includes(task) && dayNumber(start.slice(0, 10)) - day > WANTED_DAYS)
        continue;
      const known = out.get(task);
      if (known === undefined || known.day < day)
        out.set(task, { day, amber: amber || (known?.amber ?? false) });
    }
  }
  return out;
}
