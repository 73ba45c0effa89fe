/** A week of the plan, day by day: sittings, closings, checks and what to order, from the same events the calendar has. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import type { Caution, Task } from '#shared/contract/task.ts';
import { calendarEvents, type CalendarEvent } from '#shared/exchange/calendar.ts';
import { addDays } from '../../drawing/words.ts';

export interface PrintedDay {
  readonly day: string;
  readonly work: readonly CalendarEvent[];
  /** Closings, checks, orders and decisions. */
  readonly due: readonly CalendarEvent[];
}

export interface PrintedWeek {
  readonly days: readonly PrintedDay[];
  /** Tasks worked on, in the order of their first sitting. */
  readonly tasks: readonly Task[];
  readonly cautions: readonly Caution[];
}

/** @param from the first of seven days */
export function printedWeek(file: BuildFile, plan: Plan, from: string): PrintedWeek {
  const events = calendarEvents(file, plan);
  const days = Array.from({ length: 7 }, (_, i): PrintedDay => {
    const day = addDays(from, i);
    const on = events.filter(({ start }) => start.slice(0, 10) === day);
    return {
      day,
      work: on.filter(({ kind }) => kind === 'work'),
      due: on.filter(({ kind }) => kind !== 'work'),
    };
  });
  const keys = new Set(days.flatMap(({ work }) => work.map(({ of }) => of)));
  const byKey = new Map(file.tasks.map((task) => [task.key, task]));
  const tasks = [...keys].flatMap((key) => byKey.get(key) ?? []);
  return { days, tasks, cautions: [...new Set(tasks.flatMap(({ cautions }) => cautions))] };
}
