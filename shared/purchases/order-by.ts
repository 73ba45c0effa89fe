/**
 * The three days of a purchase: the last day to order after the plan's dates with the bad lead time, the last day at
 * all after the latest dates, and the first day on which shelf life and return window still reach the work.
 */
import type { PlannedPurchase } from '../contract/plan.ts';
import type { Purchase } from '../contract/purchase.ts';
import { dayText } from '../time/days.ts';

/** When a task uses what it needs, days since 1970-01-01; null where not known. */
export interface Use {
  readonly task: string;
  readonly start: number | null;
  readonly finish: number | null;
  readonly lateStart: number | null;
}

/**
 * @param usesOf per line key: the unfinished tasks that need it
 * @param arrives the last of its open lines, days since 1970-01-01; null: all in hand, nobody knows since when
 * @param holds the tasks whose early start its arrival sets
 */
export function plannedPurchase(
  purchase: Purchase,
  usesOf: ReadonlyMap<string, readonly Use[]>,
  arrives: number | null,
  holds: readonly string[],
): PlannedPurchase {
  const { leadDays, leadDaysBad, state } = purchase;
  const toOrder = state === 'wanted' || state === 'quoted' || state === 'returned';
  const uses = [...usesOf.values()].flat();
  const starts = known(uses.map((use) => use.start));
  const lateStarts = known(uses.map((use) => use.lateStart));
  const first = least(starts);
  const firstLate = least(lateStarts);
  return {
    orderBy: toOrder && first !== null ? dayText(first - (leadDaysBad ?? leadDays) - 1) : null,
    orderByLatest: toOrder && firstLate !== null ? dayText(firstLate - leadDays - 1) : null,
    orderEarliest: toOrder ? earliestOrder(purchase, usesOf) : null,
    arrives: arrives === null ? null : dayText(arrives),
    late: holds.length > 0,
    holds: [...holds],
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
    const lastFinish = most(known(uses.map((use) => use.finish)));
    const firstStart = least(known(uses.map((use) => use.start)));
    if (shelfLifeDays !== null && lastFinish !== null) days.push(lastFinish - shelfLifeDays - leadDays);
    // A return window of no days asks for nothing: it cannot be sent back anyway.
    if (returnDays !== null && returnDays > 0 && firstStart !== null)
      days.push(firstStart - returnDays - leadDays);
  }
  const day = most(days);
  return day === null ? null : dayText(day);
}

function known(values: readonly (number | null)[]): number[] {
  return values.filter((value) => value !== null);
}

function least(values: readonly number[]): number | null {
  return values.length === 0 ? null : Math.min(...values);
}

function most(values: readonly number[]): number | null {
  return values.length === 0 ? null : Math.max(...values);
}
