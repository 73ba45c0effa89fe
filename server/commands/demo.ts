/** `npm run --silent demo -- FILE [--on DATE]`: writes the demo build, its as-of date moved to DATE by whole weeks. */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { demoOn } from '#shared/demo/demo-on.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { PlanError } from '#shared/errors.ts';
import { isDay } from '#shared/time/days.ts';
import { runCommand } from './files.ts';

const USAGE = 'npm run --silent demo -- FILE [--on 2027-03-09]';

runCommand(() => {
  const { path, on } = argumentsOf(process.argv.slice(2));
  const build = on === undefined ? wagtail() : demoOn(on);
  try {
    writeFileSync(path, `${JSON.stringify(build, null, 2)}\n`);
  } catch (error) {
    const why = error instanceof Error && 'code' in error ? String(error.code) : 'unwritable';
    throw new PlanError(`The file ${path} cannot be written (${why}).`, { code: 'no-file', path });
  }
  process.stderr.write(`Wrote ${build.build.name}, as of ${build.build.asOf}, to ${path}\n`);
});

function argumentsOf(args: string[]): { path: string; on: string | undefined } {
  const usage = (message: string) =>
    new PlanError(`${message}: ${USAGE}`, { code: 'bad-usage', usage: USAGE });
  let parsed;
  try {
    parsed = parseArgs({ args, allowPositionals: true, options: { on: { type: 'string' } } });
  } catch (error) {
    throw usage(error instanceof Error ? error.message : 'These words are not understood');
  }
  const [path, ...rest] = parsed.positionals;
  if (path === undefined || rest.length > 0) throw usage('Name one file to write');
  const { on } = parsed.values;
  if (on !== undefined && !isDay(on)) throw usage(`"${on}" is not a day`);
  return { path, on };
}
