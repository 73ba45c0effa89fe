/** Catalogue tasks and links as tasks and links of a build. */
import type { Link, Task } from '../contract/task.ts';
import type { Zone } from '../contract/shell.ts';
import type { CatalogueLink, CatalogueTask } from './catalogue.ts';
import { conditionsOf } from './climate.ts';
import { DEPTHS, FACES_OF_VAN, parsePlace, type FacesOfVan } from './van.ts';

/** @param licensed the person who does licensed work, or null to leave it open */
export function taskFrom(
  entry: CatalogueTask,
  zones: readonly Zone[],
  licensed: string | null,
  van = FACES_OF_VAN,
): Task {
  const [low, likely, high] = entry.minutes;
  const { work, wait } = conditionsOf(entry);
  return {
    key: entry.key,
    name: entry.name,
    phase: entry.phase,
    kinds: [...entry.kinds],
    minutes: { low, likely, high },
    people: entry.people,
    who: licensed !== null && entry.who === 'licensed' ? [licensed] : [],
    tools: [...(entry.tools ?? [])],
    shortestSitting: entry.sitting,
    waitMinutes: entry.wait ?? 0,
    waitConditions: entry.wait === undefined ? [] : wait,
    waitHoldsZones: entry.waitHoldsZones ?? false,
    conditions: work,
    places: (entry.places ?? []).flatMap((text) => placesOf(text, zones, van)),
    reopenMinutes: entry.reopen ?? null,
    steps: [],
    holdPoints: entry.check === undefined ? [] : [checkOf(entry.check)],
    state: 'not-started',
    startedAt: null,
    finishedAt: null,
    hoursKnown: true,
    remainingMinutes: null,
    fixedStart: null,
    fixedWhy: null,
    cautions: [...(entry.cautions ?? [])],
    option: entry.option ?? null,
    note: [entry.note, entry.who === undefined ? undefined : `Who: ${entry.who}`]
      .filter((text) => text !== undefined)
      .join('. '),
  };
}

/** One place per bay. A depth that a bay has not is hidden with the ones behind it that it has. */
function placesOf(text: string, zones: readonly Zone[], van: FacesOfVan): Task['places'] {
  const { zones: keys, depth, hides } = parsePlace(text, van);
  return keys.map((key) => {
    const { depths } = zones.find((zone) => zone.key === key)!;
    return { zone: key, depth, hides: hides === null ? null : nearestBehind(depths, hides) };
  });
}

function nearestBehind(depths: readonly string[], wanted: string): string | null {
  if (depths.includes(wanted)) return wanted;
  const order = ORDER.indexOf(wanted);
  return depths.findLast((depth) => ORDER.indexOf(depth) <= order) ?? null;
}

const ORDER = DEPTHS.map(({ key }) => key);

function checkOf({ kind, when, name }: NonNullable<CatalogueTask['check']>): Task['holdPoints'][number] {
  return {
    key: 'check',
    kind: kind as Task['holdPoints'][number]['kind'],
    when: when as Task['holdPoints'][number]['when'],
    name,
    expect: null,
    attempts: [],
  };
}

export function linkFrom({ from, to, why, reason }: CatalogueLink): Link {
  return { from, to, kind: 'FS', lagMinutes: 0, lagOn: 'clock', reason, why };
}
