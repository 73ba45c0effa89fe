/** /api/builds/{build}/head: what a build says of itself (name, dates, budget, limits) and the kept order, as one row. */
import { Type } from 'typebox';
import type { FastifyPluginCallback, FastifyReply, FastifyRequest } from 'fastify';
import { HEAD_ID } from '#shared/changes/diff.ts';
import { HeadRow } from '#shared/contract/changes.ts';
import { getBuild, type StoredBuild } from '../store/builds.ts';
import { change } from '../store/journal.ts';
import { actorOf, sourceOf } from '../plugins/store.ts';
import { IF_MATCH, pathOf, versionIn } from './parameters.ts';
import { PROBLEM_RESPONSES } from './problem-schema.ts';
import { inputSchemas, labelOf, merged, ofOneRecord, readRecord } from './record.ts';

interface Route {
  Params: { readonly build: string };
  Body: unknown;
}

const tags = ['Head'];
const params = pathOf('build');
const Head = Type.Object(
  { id: Type.String(), version: Type.Integer(), value: HeadRow },
  { additionalProperties: false },
);
const response = { 200: Head, ...PROBLEM_RESPONSES };
const { whole, part } = inputSchemas('build');

const head: FastifyPluginCallback = (app, _options, done) => {
  app.get<Route>(
    '/:build/head',
    { schema: { tags, params, summary: 'Name, dates, budget, limits and kept order of a build', response } },
    (request, reply) => answer(reply, getBuild(app.store.db, request.params.build)),
  );

  app.patch<Route>(
    '/:build/head',
    {
      schema: {
        tags,
        params,
        headers: IF_MATCH,
        summary: 'Change fields of the head',
        description:
          'The fields sent replace those stored; the rest stays. Needs If-Match with the version that was read.',
        body: part,
        response,
      },
    },
    (request, reply) => {
      const stored = getBuild(app.store.db, request.params.build);
      return write(request, reply, merged(stored.head, request.body));
    },
  );

  app.put<Route>(
    '/:build/head',
    {
      schema: {
        tags,
        params,
        headers: IF_MATCH,
        summary: 'Replace the head',
        description: 'Needs If-Match with the version that was read.',
        body: whole,
        response,
      },
    },
    (request, reply) => {
      getBuild(app.store.db, request.params.build);
      return write(request, reply, request.body);
    },
  );
  done();

  function write(request: FastifyRequest<Route>, reply: FastifyReply, body: unknown) {
    const { build } = request.params;
    const version = versionIn(request);
    const value = readRecord('build', body);
    const edit = { noun: 'build' as const, id: HEAD_ID, version, value };
    const changed = ofOneRecord(() =>
      change(app.store, build, labelOf('Change', 'build', value), [edit], actorOf(request)),
    );
    app.listeners.tell(build, changed, sourceOf(request));
    return answer(reply, getBuild(app.store.db, build));
  }
};
export default head;

function answer(reply: FastifyReply, { version, head: value }: StoredBuild) {
  void reply.header('etag', `"${version}"`);
  return { id: HEAD_ID, version, value };
}
