/**
 * Conditions of work for a temperate place: when it is warm and dry enough outdoors, and in an unheated bay with a fan
 * heater. The dates are common practice for such a climate; a builder sets their own.
 */
import type { Condition } from '../contract/calendar.ts';
import type { CatalogueTask } from './catalogue.ts';

/** Per lowest temperature: days of the year on which it cannot be counted on. */
const OUTDOORS: Readonly<Record<number, string>> = {
  3: '12-15..02-10',
  5: '12-01..02-28',
  10: '11-01..03-31',
  12: '10-20..04-15',
  15: '10-05..05-05',
  16: '10-01..05-10',
};
const IN_THE_BAY: Readonly<Record<number, string>> = {
  10: '12-20..01-25',
  12: '12-10..02-05',
  15: '12-15..02-05',
  16: '12-05..02-15',
  18: '11-15..03-05',
};
const DRY_DAYS_NOT = '11-20..02-25';

function condition(key: string, name: string, notYearly: string[], hours = '00:00-24:00'): Condition {
  return { key, name, notYearly, not: [], hours, overrides: [] };
}

/** Every condition the catalogue's tasks ask for. */
export const CONDITIONS: readonly Condition[] = [
  condition('daylight', 'daylight', [], '08:00-18:00'),
  condition('noise', 'an hour for noise', [], '08:00-20:30'),
  condition('dry-day', 'a dry day outdoors', [DRY_DAYS_NOT], '08:00-18:00'),
  ...Object.entries(OUTDOORS).map(([above, not]) =>
    condition(`yard-${above}`, `outdoors above ${above} °C`, [not]),
  ),
  ...Object.entries(IN_THE_BAY).map(([above, not]) =>
    condition(`bay-${above}`, `in the bay above ${above} °C`, [not]),
  ),
];

/** The conditions a task works under, and those its wait runs under. */
export function conditionsOf({ place, evening, above }: CatalogueTask): { work: string[]; wait: string[] } {
  const outdoors = place === 'outdoor' || place === 'dry-outdoor';
  const underRoof = place === 'indoor' || place === 'bay';
  const warm =
    above === undefined
      ? []
      : temperature(outdoors ? OUTDOORS : IN_THE_BAY, outdoors ? 'yard' : 'bay', above);
  return {
    work: [
      ...(evening ? [] : [underRoof ? 'noise' : 'daylight']),
      ...(place === 'dry-outdoor' ? ['dry-day'] : []),
      ...warm,
    ],
    wait: warm,
  };
}

/** The condition for the next temperature the table names; none where the bay is always warm enough. */
function temperature(table: Readonly<Record<number, string>>, name: string, above: number): string[] {
  const step = Object.keys(table)
    .map(Number)
    .find((degrees) => degrees >= above);
  const coldest = Math.min(...Object.keys(table).map(Number));
  return step === undefined || (name === 'bay' && above < coldest) ? [] : [`${name}-${step}`];
}
