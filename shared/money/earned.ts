/**
 * The build against its baseline, in hours and in money. What a baseline plans accrues linearly over the worked minutes
 * of each task, in the calendar as it is now; of several baselines the latest counts.
 */
import type { Baseline } from '../contract/log.ts';
import type { Earned, EarnedFigures } from '../contract/plan-money.ts';
import { relaxedSet, type Basis } from '../schedule/basis.ts';
import { instantOf } from '../time/clock.ts';
import { dayStart } from '../time/clock.ts';
import { workedBefore, type WorkingSet } from '../time/working-set.ts';
import { earnedValue, type EarnedInput } from './earned-value.ts';
import { monthNumber, monthOf, monthText } from './months.ts';
import { rounded } from './rounding.ts';

type Frozen = Baseline['tasks'][string];

/** The latest; of one day the last by key. */
export function baselineOf(baselines: readonly Baseline[]): Baseline | null {
  return baselines.reduce<Baseline | null>(
    (best, one) =>
      best === null || one.on > best.on || (one.on === best.on && one.key > best.key) ? one : best,
    null,
  );
}

/** @param logged person-minutes of the whole build. @param paid net */
export function earnedOf(basis: Basis, baseline: Baseline, logged: number, paid: number): Earned {
  const hours = { bac: 0, pv: 0, ev: 0, ac: logged };
  const money = { bac: 0, pv: 0, ev: 0, ac: paid };
  for (const [key, frozen] of Object.entries(baseline.tasks)) {
    const planned = shareBy(frozen, setOf(basis, key), basis, basis.asOf);
    const done = basis.complete.get(key) ?? 0;
    for (const [sum, whole] of [
      [hours, frozen.minutes],
      [money, frozen.money],
    ] as const) {
      sum.bac += whole;
      sum.pv += whole * planned;
      sum.ev += whole * done;
    }
  }
  return { baseline: baseline.key, hours: figures(hours), money: figures(money) };
}

/** What the baseline plans to spend in each month. */
export function planByMonth(basis: Basis, { tasks }: Baseline): Map<string, number> {
  const months = new Map<string, number>();
  for (const [key, frozen] of Object.entries(tasks)) {
    if (frozen.money === 0) continue;
    const set = setOf(basis, key);
    const last = monthNumber(monthOf(frozen.finish));
    let before = 0;
    for (let n = monthNumber(monthOf(frozen.start)); n <= last; n++) {
      const end = n === last ? Infinity : dayStart(basis.clock, `${monthText(n + 1)}-01`);
      const by = rounded(frozen.money * shareBy(frozen, set, basis, end));
      if (by !== before) months.set(monthText(n), (months.get(monthText(n)) ?? 0) + by - before);
      before = by;
    }
  }
  return months;
}

/** The share of a frozen task that is planned by an instant, 0..1. */
function shareBy(
  { start, finish }: Frozen,
  set: WorkingSet | null,
  { clock }: Basis,
  instant: number,
): number {
  const [from, to] = [instantOf(clock, start), instantOf(clock, finish)];
  if (instant >= to) return 1;
  if (instant <= from) return 0;
  const worked = (at: number) => (set === null ? at : workedBefore(set, at));
  const whole = worked(to) - worked(from);
  // Its people have no window there any more: by the clock, then.
  return whole > 0 ? (worked(instant) - worked(from)) / whole : (instant - from) / (to - from);
}

function setOf(basis: Basis, key: string): WorkingSet | null {
  const task = basis.taskOf.get(key);
  return task === undefined ? null : basis.calendar.sets[relaxedSet(basis, task)]!;
}

/** In whole units, so that a reader can work the rest out again. */
function figures({ bac, pv, ev, ac }: EarnedInput): EarnedFigures {
  const found = earnedValue({ bac, pv: rounded(pv), ev: rounded(ev), ac });
  const whole = (value: number | null) => (value === null ? null : rounded(value));
  const eac = whole(found.eac);
  return { ...found, eac, vac: eac === null ? null : bac - eac };
}
