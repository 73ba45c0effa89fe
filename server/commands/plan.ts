/** `npm run --silent plan -- FILE`: the whole plan of a build file as JSON. */
import { PlanError } from '#shared/errors.ts';
import { computePlan } from '#shared/plan.ts';
import { nowText } from '../clock.ts';
import { print, readBuildFile, runCommand } from './files.ts';

const USAGE = 'npm run --silent plan -- FILE';

runCommand(() => {
  const [path, ...rest] = process.argv.slice(2);
  if (path === undefined || path.startsWith('--') || rest.length > 0)
    throw new PlanError(`Name one build file: ${USAGE}`, { code: 'bad-usage', usage: USAGE });
  print(computePlan(readBuildFile(path), { now: nowText() }));
});
