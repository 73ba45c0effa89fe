/**
 * The nouns of a build, one row each: the list of the build file they stand in, their schema, and how a record is told
 * from the others of its list. Store, routes and client go by this table, so a noun is added in one place.
 */
import type { Static, TSchema } from 'typebox';
import type { BuildFile } from './build-file.ts';
import { Condition, Person, Tool } from './calendar.ts';
import { Baseline, Decision, Dismissal, Hours, PhotoRecord, Weighing } from './log.ts';
import { Purchase } from './purchase.ts';
import { Depth, Zone, ZoneGroup } from './shell.ts';
import { Exception, Link, Phase, Task } from './task.ts';
import { Timer } from './timer.ts';

export interface Noun {
  /** What one record is called in a sentence. */
  readonly one: string;
  readonly schema: TSchema;
}

/** By the list of the build file. Order matters: a list comes after those its records point at. */
export const NOUNS = {
  people: { one: 'person', schema: Person },
  tools: { one: 'tool', schema: Tool },
  conditions: { one: 'condition', schema: Condition },
  depths: { one: 'depth', schema: Depth },
  zones: { one: 'zone', schema: Zone },
  zoneGroups: { one: 'zone group', schema: ZoneGroup },
  phases: { one: 'phase', schema: Phase },
  tasks: { one: 'task', schema: Task },
  links: { one: 'link', schema: Link },
  exceptions: { one: 'exception', schema: Exception },
  decisions: { one: 'decision', schema: Decision },
  purchases: { one: 'purchase', schema: Purchase },
  hours: { one: 'entry of hours', schema: Hours },
  timers: { one: 'timer', schema: Timer },
  records: { one: 'record', schema: PhotoRecord },
  weighings: { one: 'weighing', schema: Weighing },
  baselines: { one: 'baseline', schema: Baseline },
  dismissals: { one: 'dismissal', schema: Dismissal },
} as const satisfies Record<string, Noun>;

export type NounName = keyof typeof NOUNS;
export const NOUN_NAMES = Object.keys(NOUNS) as NounName[];

/** A record of any noun, as it stands in a file. */
export type AnyRecord = BuildFile[NounName][number];
export type RecordOf<N extends NounName> = Static<(typeof NOUNS)[N]['schema']>;

/**
 * The id of a record within its list: its key, or for a link and an exception the keys it joins (keys hold no `~`).
 * Null for a record whose key the store has yet to give.
 */
export function idOf(noun: NounName, record: AnyRecord): string | null {
  if (noun === 'links') {
    const { from, to, kind } = record as RecordOf<'links'>;
    return `${from}~${to}~${kind}`;
  }
  if (noun === 'exceptions') {
    const { inner, cover } = record as RecordOf<'exceptions'>;
    return `${inner}~${cover}`;
  }
  return (record as { key: string | null }).key;
}
