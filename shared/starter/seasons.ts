/**
 * Conditions of work from twelve monthly mean temperatures: for each threshold the days of every year on which it
 * cannot be counted on. The means stand at the middle of their months, days between lie on the line between; working
 * hours are taken two degrees warmer, a bay with a fan heater eight more, a van with a heater four (common practice).
 */
import type { Condition } from '../contract/calendar.ts';
import { dayNumber, dayText } from '../time/days.ts';
import type { Answers, ClimateName } from './answers.ts';
import type { CatalogueTask } from './catalogue.ts';

type Means = readonly number[];

/** Invented, though plausible; °C, January to December. */
const NORTH = {
  mild: [3, 3.5, 6.5, 10, 14, 17, 19, 18.5, 15.5, 11.5, 7, 4],
  cold: [-4, -3, 1, 6.5, 12, 16, 18.5, 17.5, 12.5, 7, 1.5, -2.5],
  warm: [9, 10, 12.5, 15, 19, 23, 26, 26, 22.5, 18, 13, 10],
} as const satisfies Record<string, Means>;

/** Half a year later. */
const south = (means: Means): Means => [...means.slice(6), ...means.slice(0, 6)];

const CLIMATE: Readonly<Record<ClimateName, Means>> = {
  'north-mild': NORTH.mild,
  'north-cold': NORTH.cold,
  'north-warm': NORTH.warm,
  'south-mild': south(NORTH.mild),
  'south-cold': south(NORTH.cold),
  'south-warm': south(NORTH.warm),
};

export function monthlyMeans(climate: Answers['climate']): Means {
  return typeof climate === 'string' ? CLIMATE[climate] : climate;
}

type Site = 'yard' | 'bay' | 'van';

/** How much warmer it is there than the day's mean. */
const WARMER: Readonly<Record<Site, number>> = { yard: 2, bay: 10, van: 6 };
const WORDS: Readonly<Record<Site, string>> = {
  yard: 'outdoors',
  bay: 'in the bay',
  van: 'in the heated van',
};

/** Below this daily mean the dry days are few and the wet ones stay wet. */
const DRY_FROM = 6;

/** The days of a leap year on which the mean lies below a threshold, as yearly ranges. */
export function daysBelow(threshold: number, means: Means): string[] {
  const first = dayNumber('2000-01-01');
  const cold = Array.from({ length: 366 }, (_, day) => meanOn(first + day, means) < threshold);
  if (cold.every(Boolean)) return ['01-01..12-31'];
  const ranges: string[] = [];
  const written = (day: number) => dayText(first + ((day + 366) % 366)).slice(5);
  // Each begins where the day before is warm, the last day of December being the day before the first of January.
  cold.forEach((is, day) => {
    if (!is || cold[(day + 365) % 366]) return;
    let days = 1;
    while (cold[(day + days) % 366]) days++;
    ranges.push(`${written(day)}..${written(day + days - 1)}`);
  });
  return ranges;
}

/** Middles of the months of a leap year, in days from its first. */
const MIDDLES = [15, 45, 75, 105.5, 136, 166.5, 197, 228, 258.5, 289, 319.5, 350];

function meanOn(day: number, means: Means): number {
  const at = day - dayNumber('2000-01-01') + 0.5;
  const after = MIDDLES.findIndex((middle) => middle > at);
  const next = after === -1 ? 0 : after;
  const last = (next + 11) % 12;
  const from = MIDDLES[last]! - (next === 0 && after !== -1 ? 366 : 0);
  const to = MIDDLES[next]! + (after === -1 ? 366 : 0);
  const share = (at - from) / (to - from);
  return means[last]! + (means[next]! - means[last]!) * share;
}

/** The conditions a task works under and those its wait runs under, by key; `conditionOf` makes each. */
export function conditionsAt(
  entry: CatalogueTask,
  workshop: Answers['workshop'],
): { work: string[]; wait: string[] } {
  const { place, evening, above } = entry;
  const open = place === 'outdoor' || place === 'dry-outdoor' || place === 'road';
  const benchOrBay = place === 'bay' || entry.kinds.some((kind) => kind.startsWith('bench-'));
  // Without a roof the bay and the bench stand outdoors, and the inside of the van is all there is.
  const site: Site | null =
    open || (workshop === 'outdoors' && benchOrBay)
      ? 'yard'
      : workshop === 'heated'
        ? null
        : workshop === 'barn'
          ? 'bay'
          : 'van';
  const dry = place === 'dry-outdoor' || (site === 'yard' && benchOrBay);
  const warm = above === undefined || site === null ? [] : [`${site}-${above}`];
  return {
    work: [
      ...(evening && site !== 'yard' ? [] : [site === 'yard' ? 'daylight' : 'noise']),
      ...(dry ? ['dry-day'] : []),
      ...warm,
    ],
    wait: warm,
  };
}

/** @param key one of those `conditionsAt` gives */
export function conditionOf(key: string, means: Means): Condition {
  const [site, above] = key.split('-') as [Site, string];
  const condition = (name: string, notYearly: string[], hours = '00:00-24:00'): Condition => ({
    key,
    name,
    notYearly,
    not: [],
    hours,
    overrides: [],
  });
  if (key === 'daylight') return condition('daylight', [], '08:00-18:00');
  if (key === 'noise') return condition('an hour for noise', [], '08:00-20:30');
  if (key === 'dry-day') return condition('a dry day outdoors', daysBelow(DRY_FROM, means), '08:00-18:00');
  return condition(`${WORDS[site]} above ${above} °C`, daysBelow(Number(above) - WARMER[site], means));
}
