/** The catalogue's van before anything was done to it: all its tasks not started, and the links one gives it. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { readBuild } from '#shared/contract/read.ts';
import type { Link } from '#shared/contract/task.ts';
import { PEOPLE, TOOLS } from '#shared/demo/people.ts';
import { CATALOGUE_LINKS, CATALOGUE_PHASES, CATALOGUE_TASKS } from '#shared/starter/catalogue.ts';
import { CONDITIONS } from '#shared/starter/climate.ts';
import { linkFrom, taskFrom } from '#shared/starter/tasks.ts';
import { DEPTHS, zonesOf } from '#shared/starter/van.ts';
import { ALL_WEEK } from './builds.ts';

export const FIRST_DAY = '2026-06-06';
export const FIRST_MINUTE = `${FIRST_DAY}T00:00`;

/** Every link of the catalogue. */
export const LINKS: readonly Link[] = CATALOGUE_LINKS.map(linkFrom);

/** @param pace "evenings": the demo's people, their hours and the seasons. "round the clock": only the order is left */
export function untouchedVan(pace: 'evenings' | 'round the clock'): BuildFile {
  const real = pace === 'evenings';
  const zones = zonesOf(CATALOGUE_TASKS);
  const tasks = CATALOGUE_TASKS.map((entry) => taskFrom(entry, zones, real ? 'electrician' : null));
  return readBuild({
    format: 'coverlast-build',
    version: 1,
    build: { name: 'Untouched', startOn: FIRST_DAY, asOf: FIRST_MINUTE, pace: { use: false } },
    people: real ? PEOPLE : ['ines', 'tor'].map((key) => ({ key, name: key, week: ALL_WEEK })),
    tools: TOOLS,
    conditions: CONDITIONS,
    depths: DEPTHS,
    zones,
    phases: CATALOGUE_PHASES,
    tasks: real ? tasks : tasks.map((task) => ({ ...task, conditions: [], waitConditions: [] })),
    links: LINKS,
  });
}

/** A link somebody drew without giving a reason. */
export function stated(from: string, to: string): Link {
  return { from, to, kind: 'FS', lagMinutes: 0, lagOn: 'clock', reason: '', why: null };
}
