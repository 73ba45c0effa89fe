/** What a starter plan comes to before it is made: tasks, hours, money and mass, straight from the build it would be. */
import type { BuildFile } from '../contract/build-file.ts';
import { buildersOf, minutesOf } from '../levers/hands.ts';
import { massItems } from '../mass/items.ts';
import { costOf } from '../money/cost.ts';
import { pacesOf, loggedByTask, paceOf } from '../progress/pace.ts';

export interface Tally {
  readonly tasks: number;
  readonly zones: number;
  /** Tasks that put something out of reach. */
  readonly covers: number;
  /** Person-minutes at the pace the build begins with: all estimates low, and all high. */
  readonly hours: { readonly low: number; readonly high: number };
  /** Person-minutes of a usual week of those who take whatever comes. */
  readonly week: number;
  /** Minor units of the build's currency, for what is bought. */
  readonly cost: number;
  /** Grams of what is bought and stays in the van. */
  readonly mass: number;
}

export function tallyOf(file: BuildFile): Tally {
  const paces = pacesOf(file, loggedByTask(file));
  const hours = (which: 'low' | 'high') =>
    Math.round(
      file.tasks.reduce((sum, task) => sum + task.minutes[which] * task.people * paceOf(task, paces), 0),
    );
  return {
    tasks: file.tasks.length,
    zones: file.zones.length,
    covers: file.tasks.filter(({ places }) => places.some(({ hides }) => hides !== null)).length,
    hours: { low: hours('low'), high: hours('high') },
    week: buildersOf(file).reduce((sum, { week }) => sum + minutesOf(Object.values(week).flat()), 0),
    cost: file.purchases.reduce((sum, purchase) => sum + costOf(purchase, file.build.currency).total, 0),
    mass: massItems(file)
      .filter(({ kind }) => kind === 'part')
      .reduce((sum, { planned }) => sum + planned, 0),
  };
}
