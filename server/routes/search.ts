/** /api/builds/{build}/search: looks for better dates in a thread of its own. The order it finds is kept by a change. */
import { Type } from 'typebox';
import type { FastifyPluginCallback } from 'fastify';
import { Key } from '#shared/contract/common.ts';
import { Searches } from '../work/searches.ts';
import { readBody } from './body.ts';
import { pathOf } from './parameters.ts';
import { PROBLEM_RESPONSES } from './problem-schema.ts';

const tags = ['Search'];
const params = pathOf('build');
/** So many orders take minutes on a large build. */
const MOST = 1_000_000;
const Orders = Type.Integer({
  minimum: 0,
  maximum: MOST,
  description: `a whole number of orders to try, 0 to ${MOST}`,
});

const Asked = Type.Object(
  {
    seed: Type.Optional(
      Type.Integer({
        minimum: 0,
        maximum: 0xffff_ffff,
        description: 'a whole number: the same build, seed and counts give the same order',
      }),
    ),
    still: Type.Optional(Orders),
    free: Type.Optional(Orders),
  },
  { additionalProperties: false },
);

const Standing = Type.Object(
  {
    state: Type.Enum(['idle', 'running', 'done', 'stopped', 'failed']),
    seed: Type.Integer(),
    done: Type.Integer({ description: 'orders tried so far' }),
    total: Type.Integer({ description: 'orders to try' }),
    best: Type.Union([
      Type.Object(
        {
          order: Type.Array(Key, { description: 'to be kept as `order` of the head of the build' }),
          isBetter: Type.Boolean(),
          daysWon: Type.Integer({ description: 'days by which the finish comes earlier' }),
          moved: Type.Array(Key, { description: 'tasks of the next 14 days that it moves' }),
          proven: Type.Boolean({ description: 'no order can finish on an earlier day' }),
        },
        { additionalProperties: false },
      ),
      Type.Null(),
    ]),
  },
  { additionalProperties: false },
);

interface Params {
  readonly build: string;
}

const search: FastifyPluginCallback = (app, _options, done) => {
  const searches = new Searches();
  app.addHook('onClose', () => searches.close());

  app.post<{ Params: Params; Body: unknown }>(
    '/:build/search',
    {
      schema: {
        tags,
        summary: 'Look for better dates',
        description:
          'Tries orders of the tasks: `still` with the next 14 days kept where they are, then `free` with everything free to move, which only counts where it wins more than a day. Answers at once; ask again how far it is.',
        params,
        body: Asked,
        response: { 202: Standing, ...PROBLEM_RESPONSES },
      },
    },
    (request, reply) => {
      const { seed = 1, still = 2000, free = 1000 } = readBody(Asked, request.body ?? {});
      const { build } = request.params;
      const now = app.now();
      const file = app.answers.planned(build, now);
      reply.code(202);
      return searches.start(build, { file, search: { now, seed, counts: { still, free } } });
    },
  );

  app.get<{ Params: Params }>(
    '/:build/search',
    {
      schema: {
        tags,
        summary: 'How far the search is, and the best order so far',
        params,
        response: { 200: Standing, ...PROBLEM_RESPONSES },
      },
    },
    (request) => {
      app.answers.snapshot(request.params.build);
      return searches.of(request.params.build);
    },
  );

  app.delete<{ Params: Params }>(
    '/:build/search',
    {
      schema: {
        tags,
        summary: 'End the search: the best order so far stands',
        params,
        response: { 200: Standing, ...PROBLEM_RESPONSES },
      },
    },
    (request) => {
      app.answers.snapshot(request.params.build);
      return searches.stop(request.params.build);
    },
  );
  done();
};
export default search;
