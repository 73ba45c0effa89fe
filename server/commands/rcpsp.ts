/**
 * `npm run --silent rcpsp -- FILE [--seed 1] [--schedules 5000]`: plain projects solved by the search that also improves
 * the dates of a build, so that it can be held against published results.
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { PlanError } from '#shared/errors.ts';
import { readProjects, type NamedProject } from '#shared/search/read-projects.ts';
import { solveProject, type Solved } from '#shared/search/solve-project.ts';
import { print, runCommand } from './files.ts';

const USAGE = 'npm run --silent rcpsp -- FILE [--seed 1] [--schedules 5000]';

runCommand(() => {
  const { path, seed, schedules } = argumentsOf(process.argv.slice(2));
  const projects = readProjects(textOf(path).replace(/^\uFEFF/, ''));
  const from = performance.now();
  const solved = projects.map((project) => ({
    project,
    result: solveProject(project, { seed, schedules }),
  }));
  const ms = performance.now() - from;
  print({
    instances: solved.map(({ project, result: { makespan, starts, bounds, proven, schedules } }) => ({
      name: project.name,
      makespan,
      starts,
      bounds,
      proven,
      schedules,
    })),
    deviationFromBest: meanExcess(solved, ({ best }) => best),
    deviationFromCpm: meanExcess(solved, (_, { bounds }) => bounds.criticalPath),
    schedulesUsed: solved.reduce((sum, { result }) => sum + result.schedules, 0),
    ms: Math.round(ms),
  });
});

/** In percent, to the thousandth; null where nothing is known to compare with. */
function meanExcess(
  solved: readonly { readonly project: NamedProject; readonly result: Solved }[],
  against: (project: NamedProject, result: Solved) => number | null,
): number | null {
  let sum = 0;
  for (const { project, result } of solved) {
    const least = against(project, result);
    if (least === null || least === 0) return null;
    sum += 100 * (result.makespan / least - 1);
  }
  return Math.round((1000 * sum) / solved.length) / 1000;
}

function textOf(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    const why = error instanceof Error && 'code' in error ? String(error.code) : 'unreadable';
    throw new PlanError(`The file ${path} cannot be read (${why}).`, { code: 'no-file', path });
  }
}

function argumentsOf(args: string[]): { path: string; seed: number; schedules: number } {
  let parsed;
  try {
    parsed = parseArgs({
      args,
      allowPositionals: true,
      options: { seed: { type: 'string' }, schedules: { type: 'string' } },
    });
  } catch (error) {
    throw usage(error instanceof Error ? error.message : 'These words are not understood');
  }
  const [path, ...rest] = parsed.positionals;
  if (path === undefined || rest.length > 0) throw usage('Name one file of projects');
  const { seed = '1', schedules = '5000' } = parsed.values;
  return { path, seed: numberOf(seed, 'seed', 0), schedules: numberOf(schedules, 'number of schedules', 1) };
}

function numberOf(text: string, what: string, least: number): number {
  if (/^\d{1,9}$/.test(text) && Number(text) >= least) return Number(text);
  throw usage(`"${text}" is no ${what}`);
}

function usage(message: string): PlanError {
  return new PlanError(`${message}: ${USAGE}`, { code: 'bad-usage', usage: USAGE });
}
