/** Where a record is changed and what it is called: the way back to what was typed and not saved. */
import { idOf } from '#shared/contract/nouns.ts';
import type { ChangedNoun } from '#shared/contract/changes.ts';
import { shortName } from '#shared/covers/names.ts';
import { nameOfPurchase } from '../drawing/purchase-name.ts';
import type { Build } from './build.svelte.ts';

export interface DraftPlace {
  readonly name: string;
  /** Sheet and what it shows, as `here.to` takes them; null where a record has no page of its own. */
  readonly at: readonly [view: string, ...rest: string[]] | null;
}

const PLACES: Readonly<Partial<Record<ChangedNoun, readonly [string, ...string[]]>>> = {
  tasks: ['task'],
  purchases: ['purchases'],
  decisions: ['decisions'],
  records: ['records'],
  hours: ['hours'],
  timers: ['hours'],
  people: ['settings', 'people'],
  conditions: ['settings', 'conditions'],
  tools: ['settings', 'tools'],
  zones: ['settings', 'zones'],
  depths: ['settings', 'depths'],
  zoneGroups: ['settings', 'room'],
  phases: ['settings', 'phases'],
  weighings: ['settings', 'weighings'],
  baselines: ['settings', 'baselines'],
};

export function draftPlace({ file, by }: Build, noun: ChangedNoun, id: string): DraftPlace {
  if (noun === 'build') return { name: `the settings of ${file.build.name}`, at: ['settings', 'build'] };
  const place = PLACES[noun];
  const at = place === undefined ? null : ([...place, id] as [string, ...string[]]);
  if (noun === 'hours') return { name: 'an entry of hours', at };
  if (noun === 'timers') return { name: 'a running timer', at: ['hours'] };
  const purchase = noun === 'purchases' ? by.purchases.get(id) : undefined;
  if (purchase !== undefined) return { name: nameOfPurchase(purchase), at };
  const record = file[noun].find((one) => idOf(noun, one) === id) as
    { name?: string; question?: string } | undefined;
  return { name: shortName(record?.name ?? record?.question ?? id), at };
}
