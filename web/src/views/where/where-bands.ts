/** The depths of every zone as they stand and as they would: what was in, what is taken as in now, what is still to come. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Depth, Hatch, Zone } from '#shared/contract/shell.ts';
import type { BandIn } from '#shared/progress/where-are-you.ts';

export interface WhereBand {
  readonly depth: string;
  readonly name: string;
  readonly hatch: Hatch;
  /** Tasks that work here; finished ones before, and with what is tapped. */
  readonly of: number;
  readonly was: number;
  readonly is: number;
}

export interface WhereZone {
  readonly zone: Zone;
  /** From the metal outwards. */
  readonly bands: readonly WhereBand[];
}

export function whereZones(before: BuildFile, after: BuildFile): WhereZone[] {
  const depths = new Map<string, Depth>(before.depths.map((depth) => [depth.key, depth]));
  const finished = (file: BuildFile) =>
    new Set(file.tasks.filter(({ state }) => state === 'finished').map(({ key }) => key));
  const was = finished(before);
  const is = finished(after);
  const here = new Map<string, Set<string>>();
  for (const { key, places } of before.tasks)
    for (const { zone, depth } of places) {
      const at = `${zone} ${depth}`;
      here.set(at, (here.get(at) ?? new Set()).add(key));
    }
  return before.zones.map((zone) => ({
    zone,
    bands: zone.depths.map((depth): WhereBand => {
      const tasks = [...(here.get(`${zone.key} ${depth}`) ?? [])];
      const { name = depth, hatch = 'plain' } = depths.get(depth) ?? {};
      return {
        depth,
        name,
        hatch,
        of: tasks.length,
        was: tasks.filter((key) => was.has(key)).length,
        is: tasks.filter((key) => is.has(key)).length,
      };
    }),
  }));
}

export type BandState = 'covered' | 'in' | 'part' | 'planned' | 'empty';

/** Solid is what was in before; hatched what is tapped now. */
export function bandState({ of, was, is }: WhereBand): BandState {
  if (of === 0) return 'empty';
  if (was === of) return 'covered';
  return is === of ? 'in' : is > 0 ? 'part' : 'planned';
}

/** "in before", "in", "2 of 5 in", "to come". */
export function bandWords(band: WhereBand): string {
  switch (bandState(band)) {
    case 'covered':
      return 'in before';
    case 'in':
      return 'in';
    case 'part':
      return `${band.is} of ${band.of} in`;
    case 'planned':
      return 'to come';
    case 'empty':
      return 'no work here';
  }
}

/** Taps as they stand in an address: "L1:insulation,F2:fixing". What the van has not is left out. */
export function readTaps(text: string | null, zones: readonly Zone[]): BandIn[] {
  return (text ?? '').split(',').flatMap((one) => {
    const [zone = '', depth = ''] = one.split(':');
    return zones.find(({ key }) => key === zone)?.depths.includes(depth) === true ? [{ zone, depth }] : [];
  });
}

export function writeTaps(taps: readonly BandIn[]): string {
  return taps.map(({ zone, depth }) => `${zone}:${depth}`).join(',');
}

/** A tap on a depth: in up to there; on the one that stands, nothing of the zone is said. */
export function tapped(taps: readonly BandIn[], zone: string, depth: string): BandIn[] {
  const others = taps.filter((one) => one.zone !== zone);
  return taps.some((one) => one.zone === zone && one.depth === depth) ? others : [...others, { zone, depth }];
}

/** The other bays of the same face that have that depth. */
export function otherBays({ key, face, bay }: Zone, depth: string, zones: readonly Zone[]): Zone[] {
  return bay === null
    ? []
    : zones.filter(
        (one) => one.face === face && one.bay !== null && one.key !== key && one.depths.includes(depth),
      );
}
