/** Small random projects for property tests: links lead from lower to higher numbers of a hidden order. */
import fc from 'fast-check';
import type { Project } from '#shared/search/project.ts';

export interface ProjectLimits {
  readonly least?: number;
  readonly most?: number;
  readonly longest?: number;
  /** The greatest capacity. */
  readonly largest?: number;
  readonly resources?: number;
}

export function arbitraryProject({
  least = 1,
  most = 12,
  longest = 6,
  largest = 6,
  resources = 3,
}: ProjectLimits = {}): fc.Arbitrary<Project> {
  return fc
    .record({
      count: fc.integer({ min: least, max: most }),
      capacities: fc.array(fc.integer({ min: 1, max: largest }), { minLength: 0, maxLength: resources }),
    })
    .chain(({ count, capacities }) =>
      fc.record({
        capacities: fc.constant(capacities),
        names: fc.shuffledSubarray(
          Array.from({ length: count }, (_, i) => i),
          { minLength: count, maxLength: count },
        ),
        drawn: fc.array(
          fc.record({
            duration: fc.integer({ min: 0, max: longest }),
            demands: fc.tuple(...capacities.map((capacity) => fc.nat({ max: capacity }))),
            links: fc.array(fc.nat({ max: Math.max(0, count - 1) }), { maxLength: 3 }),
          }),
          { minLength: count, maxLength: count },
        ),
      }),
    )
    .map(({ capacities, names, drawn }) => {
      const activities: Project['activities'][number][] = [];
      drawn.forEach(({ duration, demands, links }, place) => {
        const later = [...new Set(links)].filter((other) => other > place).map((other) => names[other]!);
        activities[names[place]!] = { duration, demands, successors: later };
      });
      return { capacities, activities };
    });
}

/** The links of a project turned into some list that keeps them, by the draws given. */
export function listOf({ activities }: Project, draws: readonly number[]): Int32Array {
  const waiting = activities.map(
    (_, v) => activities.filter(({ successors }) => successors.includes(v)).length,
  );
  const list: number[] = [];
  for (let i = 0; i < activities.length; i++) {
    const open = [...activities.keys()].filter((v) => waiting[v] === 0 && !list.includes(v));
    const v = open[draws[i % draws.length]! % open.length]!;
    list.push(v);
    for (const w of activities[v]!.successors) waiting[w]!--;
  }
  return Int32Array.from(list);
}
