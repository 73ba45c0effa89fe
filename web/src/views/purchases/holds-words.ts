/** What a purchase holds up or may hold up, in words: tasks by their names, closings by zone and day. */
import type { PlannedPurchase, Plan } from '#shared/contract/plan.ts';
import type { Build } from '../../state/build.svelte.ts';
import { dayWords, list } from '../../drawing/words.ts';

const MOST = 2;

/** "Pull the cables and 3 more". */
export function tasksWords({ by }: Pick<Build, 'by'>, tasks: readonly string[]): string {
  const names = tasks.slice(0, MOST).map((key) => by.tasks.get(key)?.name ?? key);
  return tasks.length > MOST ? `${names.join(', ')} and ${tasks.length - MOST} more` : list(names);
}

/** The first closing that waits for it: "L2 closes Sun 21 Mar, 3 more later"; '' where none does. */
export function closingsWords({ closings, asOf }: Plan, waiting: PlannedPurchase['closings']): string {
  const dated = closings.filter((one) => waiting.some(({ zone, by }) => zone === one.zone && by === one.by));
  const [first] = dated;
  if (first === undefined) return '';
  const when = first.on === null ? 'closes, no date yet' : `closes ${dayWords(first.on, asOf)}`;
  return `${first.zone} ${when}${dated.length > 1 ? `, ${dated.length - 1} more later` : ''}`;
}
