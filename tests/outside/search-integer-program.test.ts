/** The search on small random projects against an integer program solved to a proven optimum. 100 more in the bench. */
import { describe, expect, it } from 'vitest';
import { solveProject } from '#shared/search/solve-project.ts';
import { brokenRules } from '../support/check-schedule.ts';
import { loadIntegerSolver } from '../support/integer-program.ts';
import { tightProjects } from '../support/tight-projects.ts';

const leastMakespan = await loadIntegerSolver();

describe('the search on projects of five to eight activities', () => {
  const projects = tightProjects(20, 1);

  it.each(projects.map((project, i) => ({ project, i })))(
    'should reach the proven least makespan of project $i',
    ({ project }) => {
      const { makespan, starts, bounds } = solveProject(project, { seed: 1, schedules: 2000 });
      expect(brokenRules(project, starts, makespan)).toEqual([]);
      const least = leastMakespan(project, makespan);
      expect(makespan).toBe(least);
      expect(bounds.best).toBeLessThanOrEqual(least);
    },
  );

  it('should be projects in which resources matter', () => {
    const matter = projects.filter((project) => {
      const { makespan, bounds } = solveProject(project, { seed: 1, schedules: 1000 });
      return makespan > bounds.criticalPath;
    });
    expect(matter.length).toBeGreaterThan(10);
  });
});
