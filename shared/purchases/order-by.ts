/**
 * The three days of a purchase: the last day to order after the plan's dates with the bad lead time, the last day at
 * all after the latest dates, and the first day on which shelf life and return window still reach the work.
 */
import type { Closing, PlannedPurchase } from '../contract/plan.ts';
import type { Purchase } from '../contract/purchase.ts';
import { dayText } from '../time/days.ts';
import { keepingOf } from './keeping.ts';
import { risksOf } from './risks.ts';
import type { Use } from './use.ts';

/** What the plan knows about a purchase. */
export interface Known {
  /** Per line key: the unfinished tasks that need it. */
  readonly usesOf: ReadonlyMap<string, readonly Use[]>;
  /** The last of its lines to come, days since 1970-01-01; null: all in hand, nobody knows since when. */
  readonly arrives: number | null;
  /** The tasks whose early start its arrival sets. */
  readonly holds: readonly string[];
  /** Keys of the lines still to come. */
  readonly toCome: ReadonlySet<string>;
  /** Those that wait for it. */
  readonly closings: readonly Closing[];
  readonly asOfDay: number;
}

export function plannedPurchase(purchase: Purchase, known: Known): PlannedPurchase {
  const { usesOf, arrives, holds } = known;
  const { leadDays, leadDaysBad, state } = purchase;
  const toOrder = state === 'wanted' || state === 'quoted' || state === 'returned';
  const uses = [...usesOf.values()].flat();
  const starts = without(uses.map((use) => use.start));
  const lateStarts = without(uses.map((use) => use.lateStart));
  const first = least(starts);
  const firstLate = least(lateStarts);
  return {
    orderBy: toOrder && first !== null ? dayText(first - (leadDaysBad ?? leadDays) - 1) : null,
    orderByLatest: toOrder && firstLate !== null ? dayText(firstLate - leadDays - 1) : null,
    orderEarliest: toOrder ? earliestOrder(purchase, usesOf) : null,
    arrives: arrives === null ? null : dayText(arrives),
    late: holds.length > 0,
    holds: [...holds],
    risks: risksOf(purchase, known).filter((task) => !holds.includes(task)),
    closings: known.closings.map(({ zone, by }) => ({ zone, by })),
    keeping: keepingOf(purchase, usesOf, known.asOfDay),
  };
}

/** Ordered sooner, it would be past its shelf life at the end of the work, or past its return window at the start. */
function earliestOrder(
  { leadDays, lines }: Purchase,
  usesOf: ReadonlyMap<string, readonly Use[]>,
): string | null {
  const days: number[] = [];
  for (const { key, shelfLifeDays, returnDays } of lines) {
    const uses = usesOf.get(key) ?? [];
    const lastFinish = most(without(uses.map((use) => use.finish)));
    const firstStart = least(without(uses.map((use) => use.start)));
    if (shelfLifeDays !== null && lastFinish !== null) days.push(lastFinish - shelfLifeDays - leadDays);
    // A return window of no days asks for nothing: it cannot be sent back anyway.
    if (returnDays !== null && returnDays > 0 && firstStart !== null)
      days.push(firstStart - returnDays - leadDays);
  }
  const day = most(days);
  return day === null ? null : dayText(day);
}

function without(values: readonly (number | null)[]): number[] {
  return values.filter((value) => value !== null);
}

function least(values: readonly number[]): number | null {
  return values.length === 0 ? null : Math.min(...values);
}

function most(values: readonly number[]): number | null {
  return values.length === 0 ? null : Math.max(...values);
}
