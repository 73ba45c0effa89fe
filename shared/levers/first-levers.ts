/**
 * The three levers that stand beside the first finish date of a fresh plan: one more evening a week, leaving something
 * out, a helper. Each is one real change of the build, and what it wins is read from its plan.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Elsewhere } from '../contract/elsewhere.ts';
import { computePlan } from '../plan.ts';
import { dayNumber } from '../time/days.ts';
import { withElsewhere } from '../time/elsewhere.ts';
import type { Change } from './change.ts';
import { helperEvery, oneMoreEvening } from './changes.ts';
import { longestWeekday } from './hands.ts';
import { leaveOut, optionsOf } from './leave-out.ts';

export interface FirstLever {
  readonly change: Change;
  /** The planned finish with it; null where it has none. */
  readonly finish: string | null;
  /** Days the planned finish comes earlier, and the same in weeks to the nearest; null where one is unknown. */
  readonly daysWon: number | null;
  readonly weeksWon: number | null;
}

/**
 * In the order evening, leaving out, helper; what there is not (no free weekday, no option) is missing. Of the options
 * the one that wins most. Costs one plan for each, and one for the build as it is.
 *
 * @param file a build that `readBuild` has vouched for. @param now the caller's now
 * @param elsewhere where its people are planned at builds that come first
 */
export function firstLevers(file: BuildFile, now: string, elsewhere: Elsewhere = {}): FirstLever[] {
  const finishOf = (one: BuildFile) => computePlan(withElsewhere(one, elsewhere), { now }).finish.dates;
  const before = finishOf(file);
  const lever = (change: Change): FirstLever => {
    const finish = finishOf(change.file);
    const daysWon = daysBetween(finish, before);
    return { change, finish, daysWon, weeksWon: daysWon === null ? null : Math.round(daysWon / 7) };
  };
  const evening = oneMoreEvening(file);
  const options = optionsOf(file).flatMap(({ name }) => leaveOut(file, name) ?? []);
  const [best] = options.map(lever).toSorted((a, b) => (b.daysWon ?? -1) - (a.daysWon ?? -1));
  return [
    ...(evening === null ? [] : [lever(evening)]),
    ...(best === undefined ? [] : [best]),
    lever(helperEvery(file, longestWeekday(file))),
  ];
}

/** Days from one instant's day to another's; null where one is null. */
export function daysBetween(from: string | null, to: string | null): number | null {
  if (from === null || to === null) return null;
  return dayNumber(to.slice(0, 10)) - dayNumber(from.slice(0, 10));
}
