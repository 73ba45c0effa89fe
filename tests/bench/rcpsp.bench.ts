/**
 * The search on published projects: how far from the best known after so many schedules, beside what others have
 * published, and how long a schedule takes; then on small projects against proven optima. The projects are no part of this
 * one: `npm run bench -- rcpsp FILE`, or COVERLAST_PSPLIB names them. The settings of the search were chosen on the same
 * projects, so these are figures of a set that was seen before.
 */
import { existsSync, readFileSync } from 'node:fs';
import { emptySchedule } from '#shared/search/decoder.ts';
import { projectDecoder } from '#shared/search/project-decoder.ts';
import { compileProject } from '#shared/search/project.ts';
import { seededRandom } from '#shared/search/random.ts';
import { readProjects, type NamedProject } from '#shared/search/read-projects.ts';
import { samplerOf } from '#shared/search/sampling.ts';
import { solveProject } from '#shared/search/solve-project.ts';
import { brokenRules } from '../support/check-schedule.ts';
import { loadIntegerSolver } from '../support/integer-program.ts';
import { tightProjects } from '../support/tight-projects.ts';
import { alternate, checksum, median } from './measure.ts';
import { BEST_ABOVE_PATH, COUNTS, GOALS, PUBLISHED } from './published.ts';
import { atMost, digits, printTable } from './table.ts';

const SEEDS = [1, 2];
const SMALL = 100;
const SLOWEST = 40;

export async function run(): Promise<void> {
  const path = process.argv[3] ?? process.env['COVERLAST_PSPLIB'];
  if (path !== undefined && existsSync(path)) {
    const sets = setsOf(readProjects(readFileSync(path, 'utf8')));
    benchDecoder(sets);
    for (const [name, projects] of sets) benchSet(name, projects);
  } else
    process.stdout.write(
      `There are no published projects${path === undefined ? '' : ` at ${path}`}: name their file, npm run bench -- rcpsp FILE, or set COVERLAST_PSPLIB.\n`,
    );
  await benchSmall();
  process.stdout.write(`\nEverything was used: ${checksum()}\n`);
}

/** Forward and backward passes over sampled lists, without the search. */
function benchDecoder(sets: ReadonlyMap<string, readonly NamedProject[]>): void {
  const rows = [...sets].map(([name, projects]) => {
    const works = projects.map((project) => {
      const decoder = projectDecoder(compileProject(project), 0);
      const list = new Int32Array(decoder.size);
      samplerOf(decoder, seededRandom(1))(list);
      return { decoder, list, reversed: list.toReversed(), schedule: emptySchedule(decoder) };
    });
    const all = () => {
      let sum = 0;
      for (const { decoder, list, reversed, schedule } of works) {
        decoder.forward(list, schedule);
        sum += schedule.objective[0]!;
        decoder.backward!(reversed, schedule);
        sum += schedule.objective[0]!;
      }
      return sum;
    };
    const micros = (1000 * median(alternate({ all }, { samples: 51 }).all)) / (2 * works.length);
    return [name, digits(micros), name === 'J120' ? atMost(SLOWEST, micros, ' µs') : ''];
  });
  printTable('The plain decoder, one pass', ['', 'µs', 'aim'], rows);
}

function benchSet(name: string, projects: readonly NamedProject[]): void {
  const results = COUNTS.map((schedules) => resultOf(projects, schedules));
  const goals = GOALS[name];
  printTable(
    `${name}: ${projects.length} projects, mean of ${SEEDS.length} seeds`,
    ['schedules', '% above best', 'must', 'aim', '% above path', 'best reached', 'proven', 'µs a schedule'],
    results.map(({ aboveBest, abovePath, reached, proven, micros }, i) => [
      COUNTS[i]!.toLocaleString('en-GB'),
      aboveBest.toFixed(3),
      goals === undefined ? '' : atMost(goals.must[i]!, aboveBest, ''),
      goals === undefined ? '' : atMost(goals.aim[i]!, aboveBest, ''),
      abovePath.toFixed(2),
      `${(100 * reached).toFixed(0)} %`,
      `${(100 * proven).toFixed(0)} %`,
      digits(micros),
    ]),
  );
  const published = PUBLISHED[name];
  if (published === undefined) return;
  const ours = results.map(({ aboveBest, abovePath }) => (name === 'J30' ? aboveBest : abovePath));
  const best = meanOf(projects.map((project) => excess(project.best!, pathOf(project))));
  printTable(
    `${name}: % above the ${name === 'J30' ? 'optimum' : 'critical path'}, whole sets as published, ours on these projects (best known ${best.toFixed(2)} % above the path here, ${BEST_ABOVE_PATH[name]} % in the whole set)`,
    ['', ...COUNTS.map((count) => count.toLocaleString('en-GB')), 'known from'],
    [
      ['this search', ...ours.map((percent) => percent.toFixed(2)), 'measured now'],
      ...published.map(({ method, percent, known }) => [
        method,
        ...percent.map((value) => (value === null ? '–' : value.toFixed(2))),
        known,
      ]),
    ],
  );
}

/** Random projects of five to eight activities, each against an integer program solved to a proven optimum. */
async function benchSmall(): Promise<void> {
  const leastMakespan = await loadIntegerSolver();
  const projects = tightProjects(SMALL, 2);
  const reached = projects.filter((project) => {
    const { makespan, starts } = solveProject(project, { seed: 1, schedules: 2000 });
    assertKept(project, starts, makespan);
    return makespan === leastMakespan(project, makespan);
  });
  printTable(
    'Small projects against an integer program, proven optimal each time',
    ['', 'number', 'aim'],
    [
      [
        'optimum reached',
        `${reached.length} of ${SMALL}`,
        reached.length === SMALL ? 'all, met' : 'all, missed',
      ],
    ],
  );
}

// Helpers

/** By the number of activities without the two dummies, as the published sets are called. */
function setsOf(projects: readonly NamedProject[]): ReadonlyMap<string, readonly NamedProject[]> {
  const sets = new Map<string, NamedProject[]>();
  for (const project of projects) {
    const name = `J${project.activities.length - 2}`;
    sets.set(name, [...(sets.get(name) ?? []), project]);
  }
  return sets;
}

interface Result {
  readonly aboveBest: number;
  readonly abovePath: number;
  /** Shares of all runs. */
  readonly reached: number;
  readonly proven: number;
  readonly micros: number;
}

function resultOf(projects: readonly NamedProject[], schedules: number): Result {
  const runs = SEEDS.flatMap((seed) =>
    projects.map((project) => {
      const from = performance.now();
      const solved = solveProject(project, { seed, schedules });
      const ms = performance.now() - from;
      assertKept(project, solved.starts, solved.makespan);
      const { best } = project;
      if (best === null) throw new Error(`the best known makespan of ${project.name} is not given`);
      if (solved.makespan < best)
        throw new Error(
          `${project.name} in ${solved.makespan}, less than the best known: doubt the checker first`,
        );
      return { ...solved, best, ms };
    }),
  );
  const made = runs.reduce((sum, { schedules }) => sum + schedules, 0);
  return {
    aboveBest: meanOf(runs.map(({ makespan, best }) => excess(makespan, best))),
    abovePath: meanOf(runs.map(({ makespan, bounds }) => excess(makespan, bounds.criticalPath))),
    reached: meanOf(runs.map(({ makespan, best }) => (makespan === best ? 1 : 0))),
    proven: meanOf(runs.map(({ proven }) => (proven ? 1 : 0))),
    micros: (1000 * runs.reduce((sum, { ms }) => sum + ms, 0)) / made,
  };
}

function assertKept(
  project: Parameters<typeof brokenRules>[0],
  starts: readonly number[],
  makespan: number,
): void {
  const [broken] = brokenRules(project, starts, makespan);
  if (broken !== undefined) throw new Error(`a schedule breaks a rule: ${broken}`);
}

function pathOf(project: NamedProject): number {
  return solveProject(project, { seed: 1, schedules: 1 }).bounds.criticalPath;
}

/** In percent. */
function excess(value: number, least: number): number {
  return 100 * (value / least - 1);
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
