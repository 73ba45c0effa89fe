/**
 * The tables: one per noun of the build file, one row a record, every scalar a column of its own and nested lists as
 * JSON. Column names are the field names. The tables themselves stand in `tables/`, beside what they are about.
 */
import type { NounName, RecordOf } from '#shared/contract/nouns.ts';
import {
  baselines,
  decisions,
  dismissals,
  hours,
  purchases,
  records,
  timers,
  weighings,
} from './tables/log.ts';
import { conditions, people, tools } from './tables/people.ts';
import { depths, zoneGroups, zones } from './tables/van.ts';
import { exceptions, links, phases, tasks } from './tables/work.ts';

export { builds } from './tables/builds.ts';
export { feeds } from './tables/feeds.ts';
export { actions, journal } from './tables/journal.ts';

/** The tables of the nouns, by the list of the build file. */
export const NOUN_TABLES = {
  people,
  tools,
  conditions,
  depths,
  zones,
  zoneGroups,
  phases,
  tasks,
  links,
  exceptions,
  decisions,
  purchases,
  hours,
  timers,
  records,
  weighings,
  baselines,
  dismissals,
} as const;

type Shape<T> = Omit<T, 'build' | 'id' | 'version' | 'position'>;
type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : false) : false;
/** The nouns whose table and wire shape have parted. */
type Parted = {
  [N in NounName]: Same<Shape<(typeof NOUN_TABLES)[N]['$inferSelect']>, RecordOf<N>> extends true ? never : N;
}[NounName];

/** No longer compiles, and names the noun, once a table and its wire shape part. */
export const SHAPES_AGREE: [Parted] extends [never] ? true : Parted = true;
