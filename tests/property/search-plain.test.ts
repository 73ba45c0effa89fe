/** The search on plain projects: what holds for every project, seed, number of schedules and moment of stopping. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boundsOf } from '#shared/search/bounds.ts';
import { compareObjectives, emptySchedule, type Decoder } from '#shared/search/decoder.ts';
import { projectDecoder } from '#shared/search/project-decoder.ts';
import { compileProject, type Project } from '#shared/search/project.ts';
import { seededRandom } from '#shared/search/random.ts';
import { urgentFirst } from '#shared/search/sampling.ts';
import { search } from '#shared/search/search.ts';
import { solveProject } from '#shared/search/solve-project.ts';
import { arbitraryProject, listOf } from '../support/arbitrary-projects.ts';
import { brokenRules, serialStarts } from '../support/check-schedule.ts';

const projects = arbitraryProject();
/** Capacities that do not fit into one word together. */
const wide = arbitraryProject({ largest: 2 ** 20, resources: 4 });
const draws = fc.array(fc.nat({ max: 1000 }), { minLength: 1, maxLength: 12 });
const seeds = fc.nat({ max: 1e6 });
const counts = fc.integer({ min: 1, max: 300 });

describe('the plain decoder', () => {
  for (const [name, arbitrary] of [
    ['small capacities', projects],
    ['capacities of several words', wide],
  ] as const)
    it(`should place each activity of a list as early as the rules allow (${name})`, () => {
      fc.assert(
        fc.property(arbitrary, draws, (project, drawn) => {
          const list = listOf(project, drawn);
          const decoder = decoderOf(project);
          const schedule = emptySchedule(decoder);
          // The memory is used again: what an earlier schedule left in it must not matter.
          decoder.forward(urgentFirst(decoder), schedule);
          decoder.forward(list, schedule);
          expect([...schedule.starts]).toEqual(serialStarts(project, list));
          expect(brokenRules(project, schedule.starts, schedule.objective[0]!)).toEqual([]);
        }),
      );
    });

  it('should place backward what it places forward in the project turned round', () => {
    fc.assert(
      fc.property(projects, draws, (project, drawn) => {
        const list = listOf(project, drawn).reverse();
        const decoder = decoderOf(project);
        const schedule = emptySchedule(decoder);
        decoder.backward!(list, schedule);
        const makespan = schedule.objective[0]!;
        expect(brokenRules(project, schedule.starts, makespan)).toEqual([]);
        const mirrored = serialStarts(turnedRound(project), list);
        expect([...schedule.finishes]).toEqual(mirrored.map((start) => makespan - start));
      }),
    );
  });

  it('should never get worse by justification', () => {
    fc.assert(
      fc.property(projects, draws, (project, drawn) => {
        const decoder = decoderOf(project);
        const schedule = emptySchedule(decoder);
        const list = listOf(project, drawn);
        decoder.forward(list, schedule);
        const first = schedule.objective[0]!;
        decoder.backward!(sorted(list, schedule.finishes).reverse(), schedule);
        const second = schedule.objective[0]!;
        decoder.forward(sorted(list, schedule.starts), schedule);
        expect(second).toBeLessThanOrEqual(first);
        expect(schedule.objective[0]!).toBeLessThanOrEqual(second);
      }),
    );
  });
});

describe('the search', () => {
  it('should keep every link and capacity, and no bound lie above what it finds', () => {
    fc.assert(
      fc.property(projects, seeds, counts, (project, seed, schedules) => {
        const solved = solveProject(project, { seed, schedules });
        expect(brokenRules(project, solved.starts, solved.makespan)).toEqual([]);
        expect(solved.bounds.best).toBeLessThanOrEqual(solved.makespan);
        expect(solved.schedules).toBeLessThanOrEqual(schedules);
        expect(solved.proven).toBe(solved.bounds.best === solved.makespan);
        if (!solved.proven) expect(solved.schedules).toBe(schedules);
      }),
    );
  });

  it('should find the same again with the same seed and number of schedules', () => {
    fc.assert(
      fc.property(projects, seeds, counts, (project, seed, schedules) => {
        expect(solveProject(project, { seed, schedules })).toEqual(
          solveProject(project, { seed, schedules }),
        );
      }),
    );
  });

  it('should be stopped at any moment, and what it has then be what as many schedules give', () => {
    fc.assert(
      fc.property(projects, seeds, counts, (project, seed, moment) => {
        const stopped = solveProject(project, { seed, schedules: 1e6, stop: (done) => done >= moment });
        expect(brokenRules(project, stopped.starts, stopped.makespan)).toEqual([]);
        expect(stopped.schedules).toBeLessThanOrEqual(moment);
        expect(solveProject(project, { seed, schedules: stopped.schedules })).toEqual(stopped);
      }),
    );
  });

  for (const [name, ways] of [
    ['forward and back', 2],
    ['forward only', 1],
  ] as const)
    it(`should never be worse than the list it started from, nor with more schedules (${name})`, () => {
      fc.assert(
        fc.property(projects, draws, seeds, counts, (project, drawn, seed, schedules) => {
          const decoder = decoderOf(project, ways);
          const start = listOf(project, drawn);
          const schedule = emptySchedule(decoder);
          decoder.forward(start, schedule);
          let last = schedule.objective[0]!;
          for (const count of [1, schedules, 2 * schedules]) {
            const found = search(decoder, { start, random: seededRandom(seed), schedules: count });
            expect(found.objective[0]).toBeLessThanOrEqual(last);
            last = found.objective[0]!;
          }
        }),
      );
    });

  it('should return a list that leads to what it found, or to better', () => {
    fc.assert(
      fc.property(projects, seeds, counts, (project, seed, schedules) => {
        const decoder = decoderOf(project);
        const start = urgentFirst(decoder);
        const found = search(decoder, { start, random: seededRandom(seed), schedules });
        const again = serialStarts(project, found.list);
        const end = Math.max(0, ...again.map((at, v) => at + project.activities[v]!.duration));
        expect(end).toBeLessThanOrEqual(found.objective[0]!);
      }),
    );
  });

  it('should hand its decoder only lists that keep every link', () => {
    fc.assert(
      fc.property(projects, seeds, fc.constantFrom(1, 2), (project, seed, ways) => {
        const plain = decoderOf(project, ways);
        const watched: Decoder = {
          ...plain,
          forward: (list, into) => {
            expect(brokenLinks(project, [...list])).toBe(0);
            plain.forward(list, into);
          },
          backward:
            plain.backward === null
              ? null
              : (list, into) => {
                  expect(brokenLinks(project, [...list].toReversed())).toBe(0);
                  plain.backward!(list, into);
                },
        };
        search(watched, { start: urgentFirst(plain), random: seededRandom(seed), schedules: 200 });
      }),
    );
  });

  it('should compare objectives of several numbers first to last', () => {
    fc.assert(
      fc.property(projects, seeds, counts, (project, seed, schedules) => {
        const plain = decoderOf(project, 1);
        const decoder: Decoder = {
          ...plain,
          goals: 2,
          bound: null,
          forward: (list, into) => {
            plain.forward(list, into);
            into.objective[1] = into.starts.reduce((sum, at) => sum + at, 0);
          },
        };
        const start = urgentFirst(decoder);
        let last = Float64Array.of(Infinity, Infinity);
        const found = search(decoder, {
          start,
          random: seededRandom(seed),
          schedules,
          onBetter: ({ objective }) => {
            expect(compareObjectives(objective, last)).toBeLessThan(0);
            last = objective.slice();
          },
        });
        expect(found.objective).toEqual(last);
        expect(found.objective[1]).toBe(found.starts.reduce((sum, at) => sum + at, 0));
      }),
    );
  });
});

// Helpers

/** @param ways 1 leaves the backward pass out */
function decoderOf(project: Project, ways = 2): Decoder {
  const compiled = compileProject(project);
  const decoder = projectDecoder(compiled, boundsOf(compiled).best);
  return ways === 2 ? decoder : { ...decoder, backward: null };
}

function turnedRound({ capacities, activities }: Project): Project {
  return {
    capacities,
    activities: activities.map((activity, v) => ({
      ...activity,
      successors: [...activities.keys()].filter((u) => activities[u]!.successors.includes(v)),
    })),
  };
}

function sorted(list: Int32Array, by: Int32Array): Int32Array {
  return Int32Array.from([...list].sort((a, b) => by[a]! - by[b]!));
}

function brokenLinks({ activities }: Project, list: readonly number[]): number {
  expect(list.toSorted((a, b) => a - b)).toEqual([...activities.keys()]);
  const broken = activities.flatMap(({ successors }, v) =>
    successors.filter((w) => list.indexOf(w) < list.indexOf(v)),
  );
  return broken.length;
}
