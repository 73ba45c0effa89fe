/** Plain projects by example: what a list leads to, what a bound proves, when a search ends. */
import { describe, expect, it } from 'vitest';
import { boundsOf } from '#shared/search/bounds.ts';
import { emptySchedule } from '#shared/search/decoder.ts';
import { projectDecoder } from '#shared/search/project-decoder.ts';
import { compileProject, LONGEST, type Project } from '#shared/search/project.ts';
import { seededRandom } from '#shared/search/random.ts';
import { urgentFirst } from '#shared/search/sampling.ts';
import { search } from '#shared/search/search.ts';
import { solveProject } from '#shared/search/solve-project.ts';

/** Two people: sanding takes both, the others one each; painting follows sanding. */
const SANDING = 0;
const PAINTING = 1;
const WIRING = 2;
const shed: Project = {
  capacities: [2],
  activities: [
    { duration: 2, demands: [2], successors: [PAINTING] },
    { duration: 3, demands: [1], successors: [] },
    { duration: 4, demands: [1], successors: [] },
  ],
};

describe('the plain decoder', () => {
  it('should give each activity of the list its earliest start', () => {
    expect(forward(shed, [SANDING, PAINTING, WIRING])).toEqual({ starts: [0, 2, 2], end: 6 });
    expect(forward(shed, [WIRING, SANDING, PAINTING])).toEqual({ starts: [4, 6, 0], end: 9 });
  });

  it('should give each its latest start when the list is walked from the end', () => {
    const decoder = decoderOf(shed);
    const schedule = emptySchedule(decoder);
    decoder.backward!(Int32Array.of(PAINTING, WIRING, SANDING), schedule);
    expect([...schedule.starts]).toEqual([0, 3, 2]);
    expect([...schedule.finishes]).toEqual([2, 6, 6]);
  });

  it('should let an activity without a duration or a demand wait for its predecessors only', () => {
    const project: Project = {
      capacities: [1],
      activities: [
        { duration: 5, demands: [1], successors: [] },
        { duration: 0, demands: [1], successors: [2] },
        { duration: 2, demands: [0], successors: [] },
      ],
    };
    expect(forward(project, [0, 1, 2]).starts).toEqual([0, 0, 0]);
  });

  it('should take capacities up to 31 bits', () => {
    const much = 2 ** 31 - 1;
    const half = 2 ** 30;
    const project: Project = {
      capacities: [much],
      activities: [
        { duration: 3, demands: [half], successors: [] },
        { duration: 2, demands: [half - 1], successors: [] },
        { duration: 1, demands: [half], successors: [] },
      ],
    };
    expect(forward(project, [0, 1, 2])).toEqual({ starts: [0, 0, 3], end: 4 });
  });
});

describe('the bounds', () => {
  it('should know the critical path', () => {
    expect(boundsOf(compileProject(shed)).criticalPath).toBe(5);
  });

  it('should count the work of a resource between what lies before and behind it', () => {
    const project: Project = {
      capacities: [1],
      activities: [
        { duration: 3, demands: [0], successors: [1, 2] },
        { duration: 2, demands: [1], successors: [3] },
        { duration: 2, demands: [1], successors: [3] },
        { duration: 4, demands: [0], successors: [] },
      ],
    };
    expect(boundsOf(compileProject(project))).toEqual({
      criticalPath: 9,
      resourceEnergy: 11,
      disjointPairs: 11,
      best: 11,
    });
  });

  it('should set two that cannot share a moment one after the other', () => {
    const project: Project = {
      capacities: [3],
      activities: [
        { duration: 4, demands: [2], successors: [] },
        { duration: 5, demands: [2], successors: [] },
      ],
    };
    expect(boundsOf(compileProject(project))).toMatchObject({ resourceEnergy: 6, disjointPairs: 9, best: 9 });
  });
});

describe('the search', () => {
  it('should stop as soon as a bound proves that nothing is better', () => {
    expect(solveProject(shed, { seed: 1, schedules: 1000 })).toMatchObject({
      makespan: 6,
      starts: [0, 2, 2],
      proven: true,
      schedules: 1,
    });
  });

  it('should ask before each further schedule whether to go on', () => {
    const asked: number[] = [];
    const { schedules, proven } = solveProject(knotty(), {
      seed: 1,
      schedules: 1000,
      stop: (done) => {
        asked.push(done);
        return done === 7;
      },
    });
    expect({ schedules, proven }).toEqual({ schedules: 7, proven: false });
    expect(asked).toEqual([1, 2, 3, 4, 5, 6, 7]);
  });

  it('should tell of the first schedule and of each better one', () => {
    const told: { makespan: number; at: number }[] = [];
    const { makespan } = solveProject(knotty(), {
      seed: 1,
      schedules: 1000,
      onBetter: ({ objective, foundAt }) => told.push({ makespan: objective[0]!, at: foundAt }),
    });
    expect(told[0]!.at).toBe(1);
    expect(told.at(-1)!.makespan).toBe(makespan);
    expect(told.map(({ makespan }) => makespan)).toEqual(
      told.map(({ makespan }) => makespan).toSorted((a, b) => b - a),
    );
    expect(told.length).toBeGreaterThan(1);
  });

  it('should leave the list it is given as it is', () => {
    const decoder = decoderOf(knotty());
    const start = urgentFirst(decoder);
    const before = [...start];
    search(decoder, { start, random: seededRandom(1), schedules: 100 });
    expect([...start]).toEqual(before);
  });

  it.each([0, 1])('should cope with a project of %i activities', (count) => {
    const activities = Array.from({ length: count }, () => ({ duration: 3, demands: [], successors: [] }));
    const solved = solveProject({ capacities: [], activities }, { seed: 1, schedules: 50 });
    expect(solved).toMatchObject({ makespan: 3 * count, proven: true, schedules: 1 });
  });

  it.each([0, 1, 2, 3])('should cope with %i activities and no bound', (count) => {
    const activities = Array.from({ length: count }, () => ({ duration: 3, demands: [1], successors: [] }));
    const decoder = { ...decoderOf({ capacities: [1], activities }), bound: null };
    const found = search(decoder, { start: urgentFirst(decoder), random: seededRandom(1), schedules: 200 });
    expect([found.objective[0], found.schedules]).toEqual([3 * count, 200]);
  });

  it('should refuse to make no schedule at all', () => {
    expect(() => solveProject(shed, { seed: 1, schedules: 0 })).toThrow(RangeError);
  });

  it('should walk a chain of ten thousand activities', () => {
    const activities = Array.from({ length: 10_000 }, (_, v) => ({
      duration: 1,
      demands: [1],
      successors: v < 9999 ? [v + 1] : [],
    }));
    const solved = solveProject({ capacities: [1], activities }, { seed: 1, schedules: 10 });
    expect(solved).toMatchObject({ makespan: 10_000, proven: true });
  });
});

describe('a project', () => {
  it.each([
    ['a duration that is not whole', { duration: 1.5 }],
    ['a duration below nothing', { duration: -1 }],
    ['a duration beyond all bounds', { duration: LONGEST + 1 }],
    ['a demand above the capacity', { demands: [3] }],
    ['a demand too many', { demands: [1, 1] }],
    ['a successor that is not there', { successors: [7] }],
    ['itself as successor', { successors: [0] }],
  ])('should not have %s', (_, wrong) => {
    const activity = { duration: 1, demands: [1], successors: [], ...wrong };
    expect(() => compileProject({ capacities: [2], activities: [activity] })).toThrow(RangeError);
  });
});

describe('the random numbers', () => {
  it('should come again with their seed, and be others with the next', () => {
    const draw = (seed: number) => {
      const random = seededRandom(seed);
      return Array.from({ length: 20 }, () => random(1000));
    };
    expect(draw(1)).toEqual(draw(1));
    expect(draw(1)).not.toEqual(draw(2));
  });

  it('should fall evenly', () => {
    const random = seededRandom(5);
    const counts = new Int32Array(10);
    for (let i = 0; i < 100_000; i++) counts[random(10)]!++;
    expect(Math.max(...counts) - Math.min(...counts)).toBeLessThan(600);
  });
});

// Helpers

/** Twelve activities for which the first list is not the best. */
function knotty(): Project {
  const random = seededRandom(11);
  return {
    capacities: [5, 4],
    activities: Array.from({ length: 12 }, (_, v) => ({
      duration: 1 + random(8),
      demands: [1 + random(4), random(4)],
      successors: v < 9 ? [v + 1 + random(3)] : [],
    })),
  };
}

function decoderOf(project: Project) {
  const compiled = compileProject(project);
  return projectDecoder(compiled, boundsOf(compiled).best);
}

function forward(project: Project, list: readonly number[]): { starts: number[]; end: number } {
  const decoder = decoderOf(project);
  const schedule = emptySchedule(decoder);
  decoder.forward(Int32Array.from(list), schedule);
  return { starts: [...schedule.starts], end: schedule.objective[0]! };
}
