/**
 * The search on published projects whose least makespan is known (R. Kolisch, A. Sprecher, "PSPLIB: a project scheduling
 * problem library", EJOR 96, 1997), typed as figures. More of them: `npm run bench -- rcpsp`.
 */
import { describe, expect, it } from 'vitest';
import { readProjects } from '#shared/search/read-projects.ts';
import { solveProject } from '#shared/search/solve-project.ts';
import { brokenRules } from '../support/check-schedule.ts';
import data from './data/psplib.json' with { type: 'json' };

describe(data.source, () => {
  const projects = readProjects(JSON.stringify(data.instances));

  it.each(projects.map((project, i) => ({ ...project, criticalPath: data.instances[i]!.criticalPath })))(
    'should solve $name in $best days',
    ({ best, criticalPath, ...project }) => {
      const { makespan, starts, bounds } = solveProject(project, { seed: 1, schedules: 20_000 });
      expect(brokenRules(project, starts, makespan)).toEqual([]);
      expect(bounds.criticalPath).toBe(criticalPath);
      expect(bounds.best).toBeLessThanOrEqual(best!);
      expect(makespan).toBe(best);
    },
  );
});
