/** /api/builds: the list, a build in and out as a file, its snapshot and its plan. No rules here. */
import { Type } from 'typebox';
import type { FastifyPluginCallback } from 'fastify';
import { BuildFile, BuildFileInput } from '#shared/contract/build-file.ts';
import { Elsewhere } from '#shared/contract/elsewhere.ts';
import { Plan } from '#shared/contract/plan.ts';
import { readBuild } from '#shared/contract/read.ts';
import { addBuild, getBuild, removeBuild } from '../store/builds.ts';
import { actorOf } from '../plugins/store.ts';
import { sendAnswer } from './answer.ts';
import { BuildStanding, BuildSummary, summaries, summaryOf } from './build-summary.ts';
import { IF_MATCH, MOMENT, momentIn, pathOf, versionIn, type Moment } from './parameters.ts';
import { NO_CONTENT, PROBLEM_RESPONSES } from './problem-schema.ts';

const SnapshotSchema = Type.Object(
  {
    id: Type.String(),
    revision: Type.Integer(),
    file: BuildFile,
    versions: Type.Record(Type.String(), Type.Record(Type.String(), Type.Integer()), {
      description: 'the version of every row, by noun and id; the head of the build is `build` of `build`',
    }),
    canUndo: Type.Union([Type.String(), Type.Null()], { description: 'what an undo would take back' }),
    canRedo: Type.Union([Type.String(), Type.Null()], { description: 'what a redo would do again' }),
    elsewhere: Elsewhere,
  },
  { additionalProperties: false },
);

/** With what its people do elsewhere, where they do. */
const PlanAround = Type.Object(
  { ...Plan.properties, elsewhere: Type.Optional(Elsewhere) },
  { additionalProperties: false },
);

const tags = ['Builds'];
const params = pathOf('build');
/** A whole build may be large. */
const FILE_LIMIT = 64 * 1024 * 1024;

interface Params {
  readonly build: string;
}

const builds: FastifyPluginCallback = (app, _options, done) => {
  app.get(
    '',
    {
      schema: {
        tags,
        summary: 'Every build in this store',
        description:
          'In order: a build that shares people with others has them before those below it. Builds that are put away have `archivedAt` and keep their place.',
        response: { 200: Type.Array(BuildSummary), ...PROBLEM_RESPONSES },
      },
    },
    () => summaries(app.store.db),
  );

  app.post<{ Body: unknown }>(
    '',
    {
      bodyLimit: FILE_LIMIT,
      schema: {
        tags,
        summary: 'Take in a build file',
        description:
          'A file that is refused leaves nothing behind; each fault names its field and what would be right.',
        body: BuildFileInput,
        response: { 201: BuildSummary, ...PROBLEM_RESPONSES },
      },
    },
    (request, reply) => {
      const stored = addBuild(app.store, readBuild(request.body), actorOf(request).at);
      reply.code(201).header('location', `/api/builds/${stored.id}`);
      return summaryOf(app.store.db, stored.id);
    },
  );

  app.get<{ Params: Params }>(
    '/:build',
    {
      schema: {
        tags,
        summary: 'One build in short, and where it stands',
        params,
        response: { 200: BuildStanding, ...PROBLEM_RESPONSES },
      },
    },
    ({ params: { build } }) => ({
      ...summaryOf(app.store.db, build),
      ...app.answers.plan(build, app.now()).standing,
    }),
  );

  app.delete<{ Params: Params }>(
    '/:build',
    {
      schema: {
        tags,
        summary: 'Remove a build with all its rows and history',
        description:
          'Needs If-Match with the revision that was read. The build is first written as a build file into the folder `backups` beside the store.',
        params,
        headers: IF_MATCH,
        response: NO_CONTENT,
      },
    },
    (request, reply) => {
      const { build } = request.params;
      getBuild(app.store.db, build);
      removeBuild(app.store, build, versionIn(request));
      app.listeners.end(build);
      app.listeners.moved();
      return reply.code(204).send();
    },
  );

  app.get<{ Params: Params }>(
    '/:build/file',
    {
      schema: {
        tags,
        summary: 'The build as a build file',
        params,
        response: { 200: BuildFile, ...PROBLEM_RESPONSES },
      },
    },
    (request, reply) => {
      const { build } = request.params;
      const { file } = app.answers.snapshot(build).snapshot;
      void reply.header('content-disposition', `attachment; filename="${build}.json"`);
      return file;
    },
  );

  app.get<{ Params: Params }>(
    '/:build/snapshot',
    {
      schema: {
        tags,
        summary: 'The build file with the version of every row: what a client keeps',
        params,
        response: { 200: SnapshotSchema, ...PROBLEM_RESPONSES },
      },
    },
    (request, reply) => sendAnswer(request, reply, app.answers.forClient(request.params.build, app.now())),
  );

  app.get<{ Params: Params; Querystring: Moment }>(
    '/:build/plan',
    {
      schema: {
        tags,
        summary: 'The whole plan, computed from the build as it stands',
        params,
        querystring: MOMENT,
        response: { 200: PlanAround, ...PROBLEM_RESPONSES },
      },
    },
    (request, reply) => {
      const now = momentIn(request.query, app.now());
      return sendAnswer(request, reply, app.answers.plan(request.params.build, now));
    },
  );
  done();
};
export default builds;
