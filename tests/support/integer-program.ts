/**
 * The least makespan of a plain project as an integer program over time, in the text of the CPLEX LP format, solved by
 * HiGHS to a proven optimum: one binary for each activity and start, each link once for each unit of time (A. A. B.
 * Pritsker, L. J. Watters, P. M. Wolfe, "Multiproject scheduling with limited resources", Management Science 16, 1969;
 * N. Christofides, R. Alvarez-Valdes, J. M. Tamarit, EJOR 29, 1987).
 */
import highsLoader, { type Highs } from 'highs';
import type { Project } from '#shared/search/project.ts';

/** @param horizon a makespan that can be reached. @returns the least one; throws unless it is proven */
export type LeastMakespan = (project: Project, horizon: number) => number;

export async function loadIntegerSolver(): Promise<LeastMakespan> {
  // The types are written as for CommonJS, where the default export would be one level down.
  const load = highsLoader as unknown as typeof highsLoader.default;
  const highs: Highs = await load();
  return (project, horizon) => {
    if (horizon === 0) return 0;
    const solution = highs.solve(program(project, horizon), { output_flag: false });
    if (solution.Status !== 'Optimal') throw new Error(`the integer program is ${solution.Status}`);
    return Math.round(solution.ObjectiveValue);
  };
}

// Helpers

function program({ capacities, activities }: Project, horizon: number): string {
  const rows: string[] = [];
  const starts = activities.map(({ duration }) => range(0, horizon - duration));
  const x = (v: number, t: number) => `x${v}_${t}`;
  activities.forEach(({ duration, successors }, v) => {
    rows.push(`${sum(starts[v]!.map((t) => x(v, t)))} = 1`);
    rows.push(`finish ${starts[v]!.map((t) => `- ${t + duration} ${x(v, t)}`).join(' ')} >= 0`);
    for (const w of successors)
      for (const t of range(0, horizon)) {
        const late = starts[v]!.filter((s) => s >= t).map((s) => x(v, s));
        const early = starts[w]!.filter((s) => s <= t + duration - 1).map((s) => x(w, s));
        if (late.length > 0 && early.length > 0) rows.push(`${sum([...late, ...early])} <= 1`);
      }
  });
  capacities.forEach((capacity, k) => {
    for (const t of range(0, horizon - 1)) {
      const terms = activities.flatMap(({ duration, demands }, v) =>
        demands[k] === 0
          ? []
          : starts[v]!.filter((s) => s <= t && t < s + duration).map((s) => `${demands[k]} ${x(v, s)}`),
      );
      if (terms.length > 0) rows.push(`${sum(terms)} <= ${capacity}`);
    }
  });
  const binaries = starts.flatMap((times, v) => times.map((t) => x(v, t)));
  return [
    'Minimize',
    ' makespan: finish',
    'Subject To',
    ...rows.map((row, i) => ` c${i}: ${row}`),
    'Bounds',
    ` 0 <= finish <= ${horizon}`,
    'Binary',
    ...binaries.map((name) => ` ${name}`),
    'End',
    '',
  ].join('\n');
}

function sum(terms: readonly string[]): string {
  return terms.join('\n + ');
}

/** From the first to the last, both included. */
function range(first: number, last: number): number[] {
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => first + i);
}
