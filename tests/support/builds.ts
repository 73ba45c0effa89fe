/** Builds for tests: a few fields given, the rest as a file that leaves them out would have them. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { readBuild } from '#shared/contract/read.ts';

type Loose = object;

export interface BuildParts {
  readonly build?: Loose;
  readonly people?: readonly Loose[];
  readonly tools?: readonly Loose[];
  readonly conditions?: readonly Loose[];
  readonly depths?: readonly string[];
  readonly zones?: readonly Loose[];
  readonly zoneGroups?: readonly Loose[];
  readonly phases?: readonly Loose[];
  readonly tasks?: readonly Loose[];
  readonly links?: readonly Loose[];
  readonly exceptions?: readonly Loose[];
  readonly order?: readonly string[];
  readonly purchases?: readonly Loose[];
  readonly hours?: readonly Loose[];
  readonly decisions?: readonly Loose[];
  readonly timers?: readonly Loose[];
  readonly baselines?: readonly Loose[];
}

export const START = '2026-06-01'; // a Monday
export const NOW = `${START}T00:00`;
export const ALL_WEEK = Object.fromEntries(
  ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].map((day) => [day, ['00:00-24:00']]),
);
/** Two evenings and a Saturday with a lunch in it. */
export const EVENINGS = { tue: ['18:30-21:00'], thu: ['18:30-21:00'], sat: ['09:00-12:30', '13:30-17:00'] };

/** The document as it would stand in a file. */
export function document(parts: BuildParts): Loose {
  const { build = {}, depths = [], ...lists } = parts;
  return {
    format: 'coverlast-build',
    version: 1,
    build: { name: 'Test', startOn: START, asOf: NOW, pace: { use: false }, ...build },
    people: [{ key: 'a', name: 'A', week: ALL_WEEK }],
    depths: depths.map((key) => ({ key, name: key })),
    ...lists,
  };
}

export function makeBuild(parts: BuildParts): BuildFile {
  return readBuild(document(parts));
}

/** A task of that many clock minutes, low = likely = high. */
export function task(key: string, minutes: number, more: Loose = {}): Loose {
  return { key, name: key.toUpperCase(), minutes: { low: minutes, likely: minutes, high: minutes }, ...more };
}

export function link(from: string, to: string, more: Loose = {}): Loose {
  return { from, to, ...more };
}
