/** The sections of Settings: their word in the address, their name, and which list of the build they count. */
import type { NounName } from '#shared/contract/nouns.ts';

export interface Section {
  readonly key: string;
  readonly name: string;
  readonly noun: NounName | null;
}

export const SECTIONS: readonly Section[] = [
  { key: 'build', name: 'Build', noun: null },
  { key: 'people', name: 'People', noun: 'people' },
  { key: 'conditions', name: 'Conditions', noun: 'conditions' },
  { key: 'tools', name: 'Tools', noun: 'tools' },
  { key: 'zones', name: 'Zones', noun: 'zones' },
  { key: 'depths', name: 'Depths', noun: 'depths' },
  { key: 'room', name: 'Shared room', noun: 'zoneGroups' },
  { key: 'phases', name: 'Phases', noun: 'phases' },
  { key: 'weighings', name: 'Weighings', noun: 'weighings' },
  { key: 'baselines', name: 'Frozen plans', noun: 'baselines' },
  { key: 'device', name: 'This device', noun: null },
];
