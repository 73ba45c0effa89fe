/** The mark that stands for what a task needs: told from the condition's own words. */
import type { Condition } from '#shared/contract/calendar.ts';
import type { IconName } from './Icon.svelte';

export function conditionIcon({ name, hours }: Condition): IconName {
  if (/\bdry\b/i.test(name)) return 'dry';
  if (/°|\babove\b|\bwarm/i.test(name)) return 'warm';
  if (/light\b/i.test(name)) return 'daylight';
  return hours === '00:00-24:00' ? 'condition' : 'clock';
}

/** What each mark says in the legend. */
export const ICON_WORDS: Readonly<Partial<Record<IconName, string>>> = {
  dry: 'needs a dry day',
  warm: 'needs warmth',
  daylight: 'needs daylight',
  clock: 'only at certain hours',
  condition: 'only on certain days',
};
