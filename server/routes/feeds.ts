/** /api/builds/{build}/feeds: secret addresses of a build's calendar; /feeds/{secret}.ics: the calendar behind one. */
import { Type } from 'typebox';
import type { FastifyPluginCallback } from 'fastify';
import { Name } from '#shared/contract/common.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { PlanError } from '#shared/errors.ts';
import { calendarEvents } from '#shared/exchange/calendar.ts';
import { calendarText } from '../calendar.ts';
import { lastActionAt } from '../store/actions.ts';
import { getBuild } from '../store/builds.ts';
import { addFeed, findFeed, listFeeds, revokeFeed, type Feed } from '../store/feeds.ts';
import { actorOf } from '../plugins/store.ts';
import { readBody } from './body.ts';
import { pathOf } from './parameters.ts';
import { NO_CONTENT, PROBLEM_RESPONSES } from './problem-schema.ts';

const tags = ['Calendar'];
const Asked = Type.Object({ name: Name }, { additionalProperties: false });
const FeedSchema = Type.Object(
  {
    secret: Type.String({ description: 'whoever has it may read the calendar' }),
    name: Type.String({ description: 'the device or person it was made for' }),
    createdAt: Type.String(),
    address: Type.String({ description: 'where a calendar program reads it, on this server' }),
  },
  { additionalProperties: false },
);

const feeds: FastifyPluginCallback = (app, _options, done) => {
  app.get<{ Params: { build: string } }>(
    '/api/builds/:build/feeds',
    {
      schema: {
        tags,
        summary: 'The secret calendar addresses of a build',
        params: pathOf('build'),
        response: { 200: Type.Array(FeedSchema), ...PROBLEM_RESPONSES },
      },
    },
    (request) => {
      const { id } = getBuild(app.store.db, request.params.build);
      return listFeeds(app.store.db, id).map(onWire);
    },
  );

  app.post<{ Params: { build: string }; Body: unknown }>(
    '/api/builds/:build/feeds',
    {
      schema: {
        tags,
        summary: 'A new secret calendar address',
        description: 'It can be read until it is revoked. It belongs to this server and is in no build file.',
        params: pathOf('build'),
        body: Asked,
        response: { 201: FeedSchema, ...PROBLEM_RESPONSES },
      },
    },
    (request, reply) => {
      const { id } = getBuild(app.store.db, request.params.build);
      const { name } = readBody(Asked, request.body);
      void reply.code(201);
      return onWire(addFeed(app.store.db, id, name, actorOf(request).at));
    },
  );

  app.delete<{ Params: { build: string; feed: string } }>(
    '/api/builds/:build/feeds/:feed',
    {
      schema: {
        tags,
        summary: 'Revoke a calendar address',
        params: pathOf('build', 'feed'),
        response: NO_CONTENT,
      },
    },
    (request, reply) => {
      const { id } = getBuild(app.store.db, request.params.build);
      revokeFeed(app.store.db, id, request.params.feed);
      return reply.code(204).send();
    },
  );

  app.get<{ Params: { address: string } }>(
    '/feeds/:address',
    {
      schema: {
        tags,
        summary: 'The calendar: sittings, closings, order-by days, checks, decisions',
        description: 'iCalendar (RFC 5545), local times without a zone. Events keep their UID across edits.',
        params: pathOf('address'),
        response: {
          200: { description: 'the calendar', content: { 'text/calendar': { schema: { type: 'string' } } } },
          ...PROBLEM_RESPONSES,
        },
      },
    },
    (request, reply) => {
      const [, secret = ''] = /^([\w-]{43})\.ics$/.exec(request.params.address) ?? [];
      const feed = findFeed(app.store.db, secret);
      if (feed === null)
        throw new PlanError('There is no calendar at this address: it may have been revoked.', {
          code: 'not-found',
          what: 'calendar',
          id: '',
        });
      const { etag, body } = app.answers.plan(feed.build, app.now());
      void reply.headers({ etag, 'cache-control': 'private, no-cache' });
      if (request.headers['if-none-match'] === etag) return reply.code(304).send();
      const { snapshot } = app.answers.snapshot(feed.build);
      const plan = JSON.parse(body.toString('utf8')) as Plan;
      const of = {
        build: feed.build,
        name: snapshot.file.build.name,
        revision: snapshot.revision,
        changedAt: lastActionAt(app.store.db, feed.build) ?? getBuild(app.store.db, feed.build).createdAt,
      };
      return reply
        .type('text/calendar; charset=utf-8')
        .header('content-disposition', `inline; filename="${feed.build}.ics"`)
        .send(calendarText(of, calendarEvents(snapshot.file, plan)));
    },
  );
  done();
};
export default feeds;

function onWire({ secret, name, createdAt }: Feed) {
  return { secret, name, createdAt, address: `/feeds/${secret}.ics` };
}
