/** /api/builds/{build}/odds: when a build ends and what it costs over many trials, worked out in a thread of its own. */
import { Type } from 'typebox';
import type { FastifyPluginCallback } from 'fastify';
import { Odds, ODDS_DISTRIBUTIONS } from '#shared/contract/plan-odds.ts';
import { MOST_SIGMA, MOST_TRIALS, USUAL_TRIALS } from '#shared/odds/odds.ts';
import { getBuild } from '../store/builds.ts';
import { OddsRuns, type OddsStanding } from '../work/odds-runs.ts';
import { readBody } from './body.ts';
import { pathOf } from './parameters.ts';
import { PROBLEM_RESPONSES } from './problem-schema.ts';

const tags = ['Odds'];
const params = pathOf('build');

const Asked = Type.Object(
  {
    trials: Type.Optional(
      Type.Integer({
        minimum: 1,
        maximum: MOST_TRIALS,
        description: `a whole number of trials, 1 to ${MOST_TRIALS}`,
      }),
    ),
    seed: Type.Optional(
      Type.Integer({
        minimum: 0,
        maximum: 0xffff_ffff,
        description: 'a whole number: the same build, seed and trials give the same figures',
      }),
    ),
    paceSigma: Type.Optional(
      Type.Number({
        minimum: 0,
        maximum: MOST_SIGMA,
        description: `the spread of the pace all tasks have in common, 0 to ${MOST_SIGMA}; left out: from the finished hours`,
      }),
    ),
    distribution: Type.Optional(Type.Enum([...ODDS_DISTRIBUTIONS], { description: 'pert or triangular' })),
  },
  { additionalProperties: false },
);

const Standing = Type.Object(
  {
    state: Type.Enum(['idle', 'running', 'done', 'stopped', 'failed']),
    seed: Type.Integer(),
    done: Type.Integer({ description: 'trials made so far' }),
    total: Type.Integer({ description: 'trials to make' }),
    revision: Type.Integer({ description: 'the revision of the build they are of' }),
    stale: Type.Boolean({ description: 'the build has changed since, or another day has begun' }),
    odds: Type.Union([Odds, Type.Null()]),
  },
  { additionalProperties: false },
);

interface Params {
  readonly build: string;
}

const odds: FastifyPluginCallback = (app, _options, done) => {
  const runs = new OddsRuns();
  app.addHook('onClose', () => runs.close());
  const revisionOf = (build: string) => app.answers.snapshot(build).snapshot.revision;
  // A build that was removed leaves its id to the next; its odds it does not.
  const runOf = (build: string) => `${build} ${getBuild(app.store.db, build).createdAt}`;
  const told = ({ day, ...standing }: OddsStanding, revision: number) => ({
    ...standing,
    stale: standing.state !== 'idle' && (standing.revision !== revision || day !== app.now().slice(0, 10)),
  });

  app.post<{ Params: Params; Body: unknown }>(
    '/:build/odds',
    {
      schema: {
        tags,
        summary: 'Work out the odds',
        description:
          'Tries the plan many times with other minutes, pace, lead times and prices, its order, teams and turns kept. Answers at once; ask again how far it is.',
        params,
        body: Asked,
        response: { 202: Standing, ...PROBLEM_RESPONSES },
      },
    },
    (request, reply) => {
      const { trials = USUAL_TRIALS, seed = 1, ...rest } = readBody(Asked, request.body ?? {});
      const { build } = request.params;
      const now = app.now();
      const revision = revisionOf(build);
      const file = app.answers.planned(build, now);
      reply.code(202);
      return told(
        runs.start(runOf(build), revision, { file, asked: { now, trials, seed, ...rest } }),
        revision,
      );
    },
  );

  app.get<{ Params: Params }>(
    '/:build/odds',
    {
      schema: {
        tags,
        summary: 'How far the odds are, and the odds once they are known',
        params,
        response: { 200: Standing, ...PROBLEM_RESPONSES },
      },
    },
    (request) => {
      const { build } = request.params;
      const revision = revisionOf(build);
      return told(runs.of(runOf(build)), revision);
    },
  );

  app.delete<{ Params: Params }>(
    '/:build/odds',
    {
      schema: {
        tags,
        summary: 'Stop working them out',
        params,
        response: { 200: Standing, ...PROBLEM_RESPONSES },
      },
    },
    (request) => {
      const { build } = request.params;
      const revision = revisionOf(build);
      return runs.stop(runOf(build)).then((standing) => told(standing, revision));
    },
  );
  done();
};
export default odds;
