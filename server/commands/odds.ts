/**
 * `npm run --silent odds -- FILE [--trials 2000] [--seed 1] [--pace-sigma X] [--distribution pert]`: when a build ends and
 * what it costs over many trials of its plan, as JSON.
 */
import { parseArgs } from 'node:util';
import { ODDS_DISTRIBUTIONS, type OddsDistribution } from '#shared/contract/plan-odds.ts';
import { PlanError } from '#shared/errors.ts';
import { MOST_SIGMA, MOST_TRIALS, oddsOf, USUAL_TRIALS } from '#shared/odds/odds.ts';
import { nowText } from '../clock.ts';
import { print, readBuildFile, runCommand } from './files.ts';

const USAGE =
  'npm run --silent odds -- FILE [--trials 2000] [--seed 1] [--pace-sigma 0.3] [--distribution pert]';

runCommand(() => {
  const { path, ...asked } = argumentsOf(process.argv.slice(2));
  const file = readBuildFile(path);
  const from = performance.now();
  const odds = oddsOf(file, { now: nowText(), ...asked });
  print({ ...odds, ms: Math.round(performance.now() - from) });
});

function argumentsOf(args: string[]) {
  let parsed;
  try {
    parsed = parseArgs({
      args,
      allowPositionals: true,
      options: {
        trials: { type: 'string', default: String(USUAL_TRIALS) },
        seed: { type: 'string', default: '1' },
        'pace-sigma': { type: 'string' },
        distribution: { type: 'string', default: 'pert' },
      },
    });
  } catch (error) {
    throw usage(error instanceof Error ? error.message : 'These words are not understood');
  }
  const [path, ...rest] = parsed.positionals;
  if (path === undefined || rest.length > 0) throw usage('Name one build file');
  const { trials, seed, distribution, 'pace-sigma': sigma } = parsed.values;
  return {
    path,
    trials: wholeOf(trials, 'number of trials', 1, MOST_TRIALS),
    seed: wholeOf(seed, 'seed', 0, 0xffff_ffff),
    distribution: distributionOf(distribution),
    ...(sigma === undefined ? {} : { paceSigma: sigmaOf(sigma) }),
  };
}

function wholeOf(text: string, what: string, least: number, most: number): number {
  if (/^\d{1,10}$/.test(text) && Number(text) >= least && Number(text) <= most) return Number(text);
  throw usage(`"${text}" is no ${what}, a whole number from ${least} to ${most}`);
}

function sigmaOf(text: string): number {
  if (/^\d+(\.\d+)?$/.test(text) && Number(text) <= MOST_SIGMA) return Number(text);
  throw usage(`"${text}" is no spread of the pace, a number from 0 to ${MOST_SIGMA}`);
}

function distributionOf(text: string): OddsDistribution {
  const found = ODDS_DISTRIBUTIONS.find((one) => one === text);
  if (found !== undefined) return found;
  throw usage(`"${text}" is no distribution: it is pert or triangular`);
}

function usage(message: string): PlanError {
  return new PlanError(`${message}: ${USAGE}`, { code: 'bad-usage', usage: USAGE });
}
