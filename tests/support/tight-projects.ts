/** Random projects of five to eight activities in which resources are short, the same for the same seed. */
import type { Project } from '#shared/search/project.ts';
import { seeded } from '../bench/networks.ts';

export function tightProjects(count: number, seed: number): Project[] {
  const random = seeded(seed);
  const between = (least: number, most: number) => least + random(most - least + 1);
  return Array.from({ length: count }, () => {
    const size = between(5, 8);
    const capacities = Array.from({ length: between(1, 3) }, () => between(3, 6));
    return {
      capacities,
      activities: Array.from({ length: size }, (_, v) => ({
        duration: between(1, 6),
        demands: capacities.map((capacity) => (random(3) === 0 ? 0 : between(1, capacity))),
        successors: Array.from({ length: size - v - 1 }, (_, i) => v + 1 + i).filter(() => random(4) === 0),
      })),
    };
  });
}
