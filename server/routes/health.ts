/** /api/builds/{build}/health: how far the plan can be trusted, worked out when it is asked for. */
import type { FastifyPluginCallback } from 'fastify';
import { PlanHealth } from '#shared/contract/plan-health.ts';
import { planHealth } from '#shared/health/plan-health.ts';
import { computePlan } from '#shared/plan.ts';
import { MOMENT, momentIn, pathOf, type Moment } from './parameters.ts';
import { PROBLEM_RESPONSES } from './problem-schema.ts';

interface Address {
  readonly Params: { readonly build: string };
  readonly Querystring: Moment;
}

const health: FastifyPluginCallback = (app, _options, done) => {
  app.get<Address>(
    '/:build/health',
    {
      schema: {
        tags: ['Builds'],
        summary: 'How far the plan can be trusted',
        description:
          'One row for each check of a good schedule: how many were found, of how many, which, and the most that is allowed. After GAO-16-89G (2015) and DCMA-EA PAM 200.1 (2012), with thresholds of our own for a van.',
        params: pathOf('build'),
        querystring: MOMENT,
        response: { 200: PlanHealth, ...PROBLEM_RESPONSES },
      },
    },
    ({ params, query }) => {
      const now = momentIn(query, app.now());
      const file = app.answers.planned(params.build, now);
      return planHealth(file, computePlan(file, { now }));
    },
  );
  done();
};
export default health;
