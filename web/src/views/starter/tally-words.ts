/** The tally in words: ranges and rough figures, because nothing is known better yet. */
import type { Tally } from '#shared/starter/tally.ts';
import { count, hours, list, money } from '../../drawing/words.ts';

/** To two figures that matter: 1 437 h is 1 400 h. */
function rough(value: number): number {
  const step = 10 ** Math.max(0, Math.floor(Math.log10(Math.max(1, Math.abs(value)))) - 1);
  return Math.round(value / step) * step;
}

/** "1 100 to 1 900 h". */
export function hoursWords({ hours: { low, high } }: Tally): string {
  const of = (minutes: number) => hours(rough(minutes / 60) * 60);
  return `${of(low)} to ${of(high)} h`;
}

/** "about € 14 000". @param currency of the build */
export function costWords({ cost }: Tally, currency: string): string {
  return cost === 0 ? 'nothing to buy' : `about ${money(rough(cost), currency)}`;
}

/** "about 410 kg". */
export function massWords({ mass }: Tally): string {
  return `about ${rough(mass / 1000)} kg`;
}

/** "That answer: 6 more tasks, some 40 h more, € 900 more." '' where it changes none of it. */
export function changedWords(before: Tally, after: Tally, currency: string): string {
  const middle = ({ hours: { low, high } }: Tally) => (low + high) / 2;
  const signed = (difference: number, words: (size: number) => string, less = 'less') =>
    difference === 0 ? [] : [`${words(Math.abs(difference))} ${difference > 0 ? 'more' : less}`];
  const work = rough((middle(after) - middle(before)) / 60);
  const changes = [
    ...signed(after.tasks - before.tasks, (size) => count(size, 'task'), 'fewer'),
    ...signed(work, (size) => `some ${hours(size * 60)} h`),
    ...signed(rough(after.cost - before.cost), (size) => money(size, currency)),
    ...signed(rough((after.mass - before.mass) / 1000), (size) => `${size} kg`),
  ];
  return changes.length === 0 ? '' : `That answer: ${list(changes)}.`;
}
