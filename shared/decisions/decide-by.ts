/**
 * The last day to settle a question: the earliest start of the tasks it locks and order-by day of the purchases it
 * locks, less the days it takes once asked. Null where nothing that waits for it has a date.
 */
import type { Decision } from '../contract/log.ts';
import type { Plan } from '../contract/plan.ts';
import { dayNumber, dayText } from '../time/days.ts';

export function decideBy({ locksTasks, locksPurchases, leadDays }: Decision, plan: Plan): string | null {
  const starts = locksTasks.flatMap((key) => {
    const task = plan.tasks[key];
    return task?.state === 'not-started' && task.dates !== null ? [task.dates.start.slice(0, 10)] : [];
  });
  const orders = locksPurchases.flatMap((key) => plan.purchases[key]?.orderBy ?? []);
  const first = [...starts, ...orders].toSorted()[0];
  return first === undefined ? null : dayText(dayNumber(first) - leadDays);
}
