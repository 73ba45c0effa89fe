/** /api/builds: the list, a build in and out as a file, its snapshot and its plan. No rules here. */
import { Type } from 'typebox';
import type { FastifyPluginCallback, FastifyReply, FastifyRequest } from 'fastify';
import { BuildFile, BuildFileInput } from '#shared/contract/build-file.ts';
import { isInstant } from '#shared/contract/formats.ts';
import { Plan } from '#shared/contract/plan.ts';
import { readBuild } from '#shared/contract/read.ts';
import { PlanError } from '#shared/errors.ts';
import type { Answer } from '../store/answers.ts';
import { addBuild, getBuild, listBuilds, removeBuild, type StoredBuild } from '../store/builds.ts';
import { actorOf } from '../plugins/store.ts';
import { IF_MATCH, pathOf, versionIn } from './parameters.ts';
import { NO_CONTENT, PROBLEM_RESPONSES } from './problem-schema.ts';

const BuildSummary = Type.Object(
  {
    id: Type.String(),
    name: Type.String(),
    vehicle: Type.String(),
    revision: Type.Integer(),
    createdAt: Type.String(),
  },
  { additionalProperties: false },
);

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
  },
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
        response: { 200: Type.Array(BuildSummary), ...PROBLEM_RESPONSES },
      },
    },
    () => listBuilds(app.store.db).map(summary),
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
      return summary(stored);
    },
  );

  app.get<{ Params: Params }>(
    '/:build',
    {
      schema: {
        tags,
        summary: 'One build in short',
        params,
        response: { 200: BuildSummary, ...PROBLEM_RESPONSES },
      },
    },
    (request) => summary(getBuild(app.store.db, request.params.build)),
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
    (request, reply) => sendAnswer(request, reply, app.answers.snapshot(request.params.build)),
  );

  app.get<{ Params: Params; Querystring: { now?: string } }>(
    '/:build/plan',
    {
      schema: {
        tags,
        summary: 'The whole plan, computed from the build as it stands',
        params,
        querystring: {
          type: 'object',
          properties: {
            now: { type: 'string', description: 'the moment to plan from, 2027-03-13T18:30; left out: now' },
          },
        },
        response: { 200: Plan, ...PROBLEM_RESPONSES },
      },
    },
    (request, reply) => {
      const now = request.query.now ?? app.now();
      if (!isInstant(now)) {
        const detail = `is "${now}": it must be a day and a time, written 2027-03-13T18:30`;
        const errors = [{ pointer: '/now', detail }];
        throw new PlanError(`The moment to plan from ${detail}.`, { code: 'bad-request', errors });
      }
      return sendAnswer(request, reply, app.answers.plan(request.params.build, now));
    },
  );
  done();
};
export default builds;

/** Bytes that are ready, or nothing for whoever has them already. */
function sendAnswer(request: FastifyRequest, reply: FastifyReply, { etag, body }: Answer): FastifyReply {
  void reply.header('etag', etag).header('cache-control', 'no-cache');
  if (request.headers['if-none-match'] === etag) return reply.code(304).send();
  return reply.type('application/json; charset=utf-8').send(body);
}

function summary({ id, revision, createdAt, head: { name, vehicle } }: StoredBuild) {
  return { id, name, vehicle, revision, createdAt };
}
