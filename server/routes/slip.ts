/** /api/builds/{build}/slip: how the planned finish moved, day by day, as the build was changed. */
import { Type } from 'typebox';
import type { FastifyPluginCallback } from 'fastify';
import type { Elsewhere } from '#shared/contract/elsewhere.ts';
import { getBuild } from '../store/builds.ts';
import { readPast } from '../store/past.ts';
import { Slips } from '../work/slips.ts';
import { pathOf } from './parameters.ts';
import { PROBLEM_RESPONSES } from './problem-schema.ts';

/** Points where the caller does not say how many: a year of weeks, and what a chart can show. */
const USUAL = 60;

const Slip = Type.Object(
  {
    revision: Type.Integer(),
    since: Type.String({ description: 'the day of the first point: the build came, or the history ends' }),
    points: Type.Array(
      Type.Object(
        {
          day: Type.String(),
          finish: Type.Union([Type.String(), Type.Null()], {
            description: 'the planned finish as of the end of that day; null where there was none',
          }),
          provisional: Type.Boolean({ description: 'links were left out, something was in the wrong order' }),
          changes: Type.Integer({ description: 'changes since the point before' }),
        },
        { additionalProperties: false },
      ),
    ),
  },
  { additionalProperties: false },
);

interface Params {
  readonly build: string;
}

const slip: FastifyPluginCallback = (app, _options, done) => {
  const slips = new Slips();
  app.addHook('onClose', () => slips.close());

  app.get<{ Params: Params; Querystring: { points?: string } }>(
    '/:build/slip',
    {
      schema: {
        tags: ['Builds'],
        summary: 'How the planned finish moved as the build was changed',
        description:
          'For each day on which it was changed, the finish its plan had at the end of that day, worked out by today’s rules. Of more days than points: the last of each week, then evenly some. Worked out in a thread of its own, so a large build takes a while.',
        params: pathOf('build'),
        querystring: {
          type: 'object',
          properties: {
            points: {
              type: 'string',
              pattern: '^([2-9]|[1-9]\\d|1\\d\\d|200)$',
              description: `how many points at most, 2 to 200; left out: ${USUAL}`,
            },
          },
        },
        response: { 200: Slip, ...PROBLEM_RESPONSES },
      },
    },
    (request) => {
      const { build } = request.params;
      const most = Number(request.query.points ?? USUAL);
      const now = app.now();
      const { snapshot } = app.answers.snapshot(build);
      const { etag, body } = app.answers.elsewhere(build, now);
      const past = readPast(app.store.db, build);
      const elsewhere = JSON.parse(body.toString()) as Elsewhere;
      const asked = { now, since: past.since, most, elsewhere };
      const { createdAt } = getBuild(app.store.db, build);
      const stamp = `${build} ${createdAt} ${snapshot.revision} ${etag} ${now.slice(0, 10)} ${most}`;
      return slips
        .get(stamp, () => ({ file: snapshot.file, days: past.days, asked }))
        .then((points) => ({ revision: snapshot.revision, since: past.since, points }));
    },
  );
  done();
};
export default slip;
