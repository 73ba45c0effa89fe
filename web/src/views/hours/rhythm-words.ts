/** What to say when the hours worked lately and those the plan asks for part; null while they agree. */
import type { Rhythm } from '#shared/progress/rhythm.ts';
import { count, dayWords, daysBetween, hours } from '../../drawing/words.ts';

export interface PartedWords {
  readonly lead: string;
  readonly rest: string;
}

export function partedWords(
  { lately, asks, parted }: Rhythm,
  now: string,
  target: string | null,
): PartedWords | null {
  if (lately === null || asks === null || parted === null) return null;
  const figures = `The plan asks ${hours(asks.minutes)} h a week, lately it was ${hours(lately.minutes)}.`;
  const finish =
    parted.finish === null
      ? ''
      : ` At that rate it would be finished about ${dayWords(parted.finish, now)}${pastTarget(parted.finish, target)}.`;
  return parted.minutes > 0
    ? {
        lead: figures,
        rest: `${finish.trim()} Find ${hours(parted.minutes)} h more a week, or let the windows say what is really worked.`.trim(),
      }
    : {
        lead: figures,
        rest: `${finish.trim()} Add the evenings that are really worked, and the dates come closer.`.trim(),
      };
}

function pastTarget(finish: string, target: string | null): string {
  if (target === null) return '';
  const weeks = Math.round(daysBetween(target, finish) / 7);
  if (weeks === 0) return ', with the target';
  return `, ${count(Math.abs(weeks), 'week')} ${weeks > 0 ? 'past' : 'before'} the target`;
}
