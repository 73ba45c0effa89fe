/**
 * What the bad lead time would do: the tasks whose planned start it would push. Counted from today for what is not
 * ordered, from the promised day and the difference of the two lead times for what is.
 */
import type { Purchase } from '../contract/purchase.ts';
import { dayNumber } from '../time/days.ts';
import type { Known } from './order-by.ts';

/** Keys of tasks that have not begun, sorted. */
export function risksOf(purchase: Purchase, { usesOf, toCome, asOfDay }: Known): string[] {
  const bad = badArrival(purchase, asOfDay);
  const tasks = new Set<string>();
  for (const key of toCome)
    for (const { task, begun, start } of usesOf.get(key) ?? [])
      if (!begun && start !== null && start <= bad) tasks.add(task);
  return [...tasks].sort();
}

/** Days since 1970-01-01. */
function badArrival(
  { state, leadDays, leadDaysBad, orderedOn, promisedOn }: Purchase,
  asOfDay: number,
): number {
  const bad = leadDaysBad ?? leadDays;
  const ordered = state === 'ordered' || state === 'part-received';
  if (ordered && promisedOn !== null) return Math.max(asOfDay, dayNumber(promisedOn) + bad - leadDays);
  if (ordered && orderedOn !== null) return Math.max(asOfDay, dayNumber(orderedOn) + bad);
  return asOfDay + bad;
}
