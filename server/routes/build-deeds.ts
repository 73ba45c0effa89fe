/** /api/builds/{build}/…: a build copied, put away and brought back, its place among all, and what lies before it. */
import { Type } from 'typebox';
import type { FastifyPluginCallback } from 'fastify';
import { copyBuild } from '#shared/changes/copy-build.ts';
import { Day, Name } from '#shared/contract/common.ts';
import { Elsewhere } from '#shared/contract/elsewhere.ts';
import { readBuild } from '#shared/contract/read.ts';
import { moveBuild, setArchived } from '../store/build-order.ts';
import { addBuild } from '../store/builds.ts';
import { actorOf } from '../plugins/store.ts';
import { sendAnswer } from './answer.ts';
import { readBody } from './body.ts';
import { BuildSummary, summaryOf } from './build-summary.ts';
import { pathOf } from './parameters.ts';
import { PROBLEM_RESPONSES } from './problem-schema.ts';

const tags = ['Builds'];
const params = pathOf('build');
const response = { 200: BuildSummary, ...PROBLEM_RESPONSES };
const Strict = { additionalProperties: false } as const;

const Copied = Type.Object(
  {
    name: Name,
    as: Type.Enum(['template', 'whole'], {
      description:
        'template: tasks not begun, purchases wanted, no hours, records or dates; whole: all but running timers and the history',
    }),
    startOn: Type.Optional(Day),
  },
  Strict,
);

const Placed = Type.Object(
  {
    before: Type.Union([Type.String({ minLength: 1, maxLength: 300 }), Type.Null()], {
      description: 'the id of the build it is to stand before; null: behind all',
    }),
  },
  Strict,
);

interface Route {
  Params: { readonly build: string };
  Body: unknown;
}

const deeds: FastifyPluginCallback = (app, _options, done) => {
  app.post<Route>(
    '/:build/copy',
    {
      schema: {
        tags,
        params,
        summary: 'Copy a build under another name',
        description:
          'The copy comes behind all builds. `startOn` is the first day of a template; left out: today. The first build is left as it is.',
        body: Copied,
        response: { 201: BuildSummary, ...PROBLEM_RESPONSES },
      },
    },
    (request, reply) => {
      const { name, as, startOn = app.now().slice(0, 10) } = readBody(Copied, request.body);
      const { file } = app.answers.snapshot(request.params.build).snapshot;
      const copy = readBuild(copyBuild(file, { name, as, startOn }));
      const { id } = addBuild(app.store, copy, actorOf(request).at);
      reply.code(201).header('location', `/api/builds/${id}`);
      return summaryOf(app.store.db, id);
    },
  );

  app.post<Route>(
    '/:build/archive',
    {
      schema: {
        tags,
        params,
        summary: 'Put a build away',
        description:
          'It stays as it is and can be opened; builds after it no longer work around what it has planned. Needs no version: nothing of the build changes.',
        response,
      },
    },
    (request) => archived(request.params.build, actorOf(request).at),
  );

  app.post<Route>(
    '/:build/bring-back',
    { schema: { tags, params, summary: 'Bring back a build that was put away, to its old place', response } },
    (request) => archived(request.params.build, null),
  );

  app.post<Route>(
    '/:build/place',
    {
      schema: {
        tags,
        params,
        summary: 'Say which build comes first',
        description: 'Of builds that share people, the one that comes first has them first.',
        body: Placed,
        response,
      },
    },
    (request) => {
      const { build } = request.params;
      moveBuild(app.store, build, readBody(Placed, request.body).before);
      app.listeners.moved();
      return summaryOf(app.store.db, build);
    },
  );

  app.get<Route>(
    '/:build/elsewhere',
    {
      schema: {
        tags,
        params,
        summary: 'Where people of builds that come first are planned',
        description: 'The dates of this build keep clear of it for people with the same `sharedAs`.',
        response: { 200: Elsewhere, ...PROBLEM_RESPONSES },
      },
    },
    (request, reply) => sendAnswer(request, reply, app.answers.elsewhere(request.params.build, app.now())),
  );
  done();

  function archived(build: string, at: string | null) {
    setArchived(app.store, build, at);
    app.listeners.moved();
    return summaryOf(app.store.db, build);
  }
};
export default deeds;
