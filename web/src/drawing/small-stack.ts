/** The depths of one zone as bands: what is covered, in, partly in or still planned, and which lids lie over them. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import type { Hatch } from '#shared/contract/shell.ts';

export interface SmallBand {
  readonly depth: string;
  readonly name: string;
  readonly hatch: Hatch;
  readonly state: 'covered' | 'in' | 'part' | 'plan';
  /** Tasks done, of those that work at this depth. */
  readonly done: number;
  readonly of: number;
  /** The edge that shuts all behind it; null where nothing here covers. */
  readonly lid: 'shut' | 'next' | 'later' | null;
}

/** From the metal outwards, only the depths the zone uses. */
export function smallStack(file: BuildFile, plan: Plan, zoneKey: string): SmallBand[] {
  const zone = file.zones.find(({ key }) => key === zoneKey);
  if (zone === undefined) return [];
  const depths = new Map(file.depths.map((depth) => [depth.key, depth]));
  const closed = new Set(
    plan.lastChances.filter((one) => one.zone === zoneKey && one.closed).map(({ depth }) => depth),
  );
  const next = plan.closings.find((closing) => closing.zone === zoneKey && closing.at !== null)?.by ?? null;
  return zone.depths.flatMap((key): SmallBand[] => {
    const here = file.tasks.filter((task) =>
      task.places.some((place) => place.zone === zoneKey && place.depth === key),
    );
    if (here.length === 0) return [];
    const covers = here.filter((task) =>
      task.places.some((place) => place.zone === zoneKey && place.depth === key && place.hides !== null),
    );
    const done = here.filter(({ state }) => state === 'finished').length;
    const all = done === here.length;
    const { name = key, hatch = 'plain' } = depths.get(key) ?? {};
    return [
      {
        depth: key,
        name,
        hatch,
        state: all && closed.has(key) ? 'covered' : all ? 'in' : done > 0 ? 'part' : 'plan',
        done,
        of: here.length,
        lid:
          covers.length === 0
            ? null
            : covers.every(({ state }) => state !== 'not-started')
              ? 'shut'
              : covers.some((task) => task.key === next)
                ? 'next'
                : 'later',
      },
    ];
  });
}
