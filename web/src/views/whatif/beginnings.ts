/** Ready beginnings of a what-if: each asks for little and makes a change of the plan, or says why it cannot. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import type { Change } from '#shared/levers/change.ts';
import { helperForMonth, oneMoreEvening, orderNow, swapInOrder } from '#shared/levers/changes.ts';
import { leaveOut, optionsOf } from '#shared/levers/leave-out.ts';
import { purchaseName } from '#shared/purchases/name.ts';
import { dayNumber, dayText } from '#shared/time/days.ts';
import { MONTHS } from '../../drawing/words.ts';

export const BEGINNINGS = [
  { kind: 'nothing', words: 'As the plan is: change it on the sheets' },
  { kind: 'helper', words: 'A helper for four weeks' },
  { kind: 'evening', words: 'One more evening a week' },
  { kind: 'order', words: 'Order something on another day' },
  { kind: 'leave-out', words: 'Leave something out' },
  { kind: 'swap', words: 'Swap two tasks' },
] as const;
export type Beginning = (typeof BEGINNINGS)[number]['kind'];

/** What is filled in; each beginning reads its own. */
export interface Asked {
  readonly month: string;
  readonly purchase: string;
  readonly on: string | null;
  readonly option: string;
  readonly first: string;
  readonly second: string;
}

export interface Choice {
  readonly key: string;
  readonly name: string;
}

/** This month and the eleven after it, "March 2027". */
export function monthsFrom(day: string): Choice[] {
  const first = Number(day.slice(0, 4)) * 12 + Number(day.slice(5, 7)) - 1;
  return Array.from({ length: 12 }, (_, i) => {
    const [year, month] = [Math.floor((first + i) / 12), (first + i) % 12];
    return { key: `${year}-${String(month + 1).padStart(2, '0')}`, name: `${MONTHS[month]} ${year}` };
  });
}

/** What is still to be ordered, the soonest day to order first. */
export function toOrder(file: BuildFile, plan: Plan): Choice[] {
  const by = (key: string) => plan.purchases[key]?.orderBy ?? '9999';
  return file.purchases
    .filter(({ state }) => state === 'wanted' || state === 'quoted')
    .toSorted((a, b) => (by(a.key) < by(b.key) ? -1 : by(a.key) > by(b.key) ? 1 : 0))
    .map((purchase) => ({ key: purchase.key, name: purchaseName(purchase) }));
}

/** Two weeks after the last day to order, or after today where that is past or not known. */
export function lateDay(plan: Plan, purchase: string): string {
  const today = plan.asOf.slice(0, 10);
  const by = plan.purchases[purchase]?.orderBy ?? today;
  return dayText(dayNumber(by < today ? today : by) + 14);
}

/** What can still be left out: nothing of it is begun. */
export function options(file: BuildFile): Choice[] {
  return optionsOf(file)
    .filter(({ begun }) => !begun)
    .map(({ name, tasks }) => ({ key: name, name: `${name}, ${tasks.length} tasks` }));
}

/** Tasks not begun, in the order the dates follow. */
export function toSwap(file: BuildFile, plan: Plan): Choice[] {
  const tasks = new Map(file.tasks.map((task) => [task.key, task]));
  return plan.order.flatMap((key) => {
    const task = tasks.get(key);
    return task?.state === 'not-started' ? [{ key, name: task.name }] : [];
  });
}

/** The change; a sentence where something lacks. Null for a what-if that begins as the plan. */
export function changeOf(kind: Beginning, file: BuildFile, plan: Plan, asked: Asked): Change | string | null {
  switch (kind) {
    case 'nothing':
      return null;
    case 'helper': {
      const [today, first] = [plan.asOf.slice(0, 10), `${asked.month}-01`];
      return (
        helperForMonth(file, first < today ? today : first) ??
        'Nobody works in a usual week: a helper would have no hours to come along.'
      );
    }
    case 'evening':
      return oneMoreEvening(file) ?? 'No evening of the week is free.';
    case 'order':
      if (asked.purchase === '') return 'Choose what is to be ordered.';
      if (asked.on === null) return 'Say on which day it is to be ordered.';
      return orderNow(file, asked.purchase, asked.on) ?? 'It is ordered already.';
    case 'leave-out':
      if (asked.option === '') return 'Choose what to leave out.';
      return (
        leaveOut(file, asked.option) ?? 'Work has gone into it: it can no longer be left out as a whole.'
      );
    case 'swap':
      if (asked.first === '' || asked.second === '') return 'Choose two tasks.';
      return swapInOrder(file, plan.order, asked.first, asked.second) ?? 'Choose two different tasks.';
  }
}
