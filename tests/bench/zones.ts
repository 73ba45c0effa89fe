/**
 * A large vehicle for timing: zones with twelve depths each, tasks that work at a random depth, every twentieth hiding
 * one behind its own. All links lead towards the front, as covers do, so nothing goes round in a circle.
 */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { EVENINGS, link, makeBuild, task } from '../support/builds.ts';
import type { Random } from './networks.ts';

const DEPTHS = 12;
const COVER_EVERY = 20;
/** One stated link for so many tasks. */
const LINK_EVERY = 4;

export function manyZones(tasks: number, zones: number, random: Random): BuildFile {
  const depths = Array.from({ length: DEPTHS }, (_, d) => `d${String(d).padStart(2, '0')}`);
  const places = Array.from({ length: tasks }, (_, i) => {
    const covers = i % COVER_EVERY === 0;
    const depth = covers ? 1 + random(DEPTHS - 1) : random(DEPTHS);
    return { zone: random(zones), depth, hides: covers ? random(depth) : null };
  });
  const links = new Map<string, ReturnType<typeof link>>();
  for (let i = 0; i < tasks; i += LINK_EVERY) {
    const [a, b] = [random(tasks), random(tasks)];
    const rise = places[b]!.depth - places[a]!.depth;
    if (rise !== 0) {
      const [from, to] = rise > 0 ? [a, b] : [b, a];
      links.set(`${from} ${to}`, link(`t${from}`, `t${to}`));
    }
  }
  return makeBuild({
    people: ['a', 'b', 'c', 'd'].map((key) => ({ key, name: key, week: EVENINGS })),
    depths,
    zones: Array.from({ length: zones }, (_, z) => ({ key: `z${z}`, name: `Zone ${z}`, depths })),
    tasks: places.map(({ zone, depth, hides }, i) =>
      task(`t${i}`, 5 + random(26), {
        places: [{ zone: `z${zone}`, depth: depths[depth]!, hides: hides === null ? null : depths[hides]! }],
      }),
    ),
    links: [...links.values()],
  });
}

/** The pairs the cover rule means, counted one by one: what works at or behind a depth comes before what hides it. */
export function coveredPairs({ tasks, zones }: BuildFile): number {
  const position = new Map(
    zones.map(({ key, depths }) => [key, new Map(depths.map((depth, i) => [depth, i]))]),
  );
  const places = tasks.map(({ places: [place] }) => {
    const at = position.get(place!.zone)!;
    return {
      zone: place!.zone,
      depth: at.get(place!.depth)!,
      hides: place!.hides === null ? -1 : at.get(place!.hides)!,
    };
  });
  let pairs = 0;
  for (const cover of places)
    if (cover.hides >= 0)
      for (const inner of places)
        if (
          inner !== cover &&
          inner.zone === cover.zone &&
          inner.depth <= cover.hides &&
          !(cover.depth <= inner.hides)
        )
          pairs++;
  return pairs;
}
