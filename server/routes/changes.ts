/** /api/builds/{build}/…: several rows as one action, repairs, undo, redo, the history, and the events of a build. */
import { Type } from 'typebox';
import type { FastifyPluginCallback, FastifyReply, FastifyRequest } from 'fastify';
import { applyRepair } from '#shared/covers/apply-repair.ts';
import { editsBetween } from '#shared/changes/diff.ts';
import { Changed, ChangeSet, HistoryEntry, RepairRequest } from '#shared/contract/changes.ts';
import type { Repair } from '#shared/contract/plan.ts';
import { PlanError } from '#shared/errors.ts';
import { history } from '../store/actions.ts';
import { getBuild, versionIn } from '../store/builds.ts';
import { change, redo, undo } from '../store/journal.ts';
import { actorOf, sourceOf } from '../plugins/store.ts';
import { readBody } from './body.ts';
import { pathOf } from './parameters.ts';
import { PROBLEM_RESPONSES } from './problem-schema.ts';

interface Params {
  readonly build: string;
}
type ChangeRequest = FastifyRequest<{ Params: Params; Body: unknown }>;

const params = pathOf('build');
const tags = ['Changes'];
const response = { 200: Changed, ...PROBLEM_RESPONSES };

const changes: FastifyPluginCallback = (app, _options, done) => {
  app.post<{ Params: Params; Body: unknown }>(
    '/:build/changes',
    {
      bodyLimit: 64 * 1024 * 1024,
      schema: {
        tags,
        params,
        summary: 'Change several rows as one action',
        description: 'All of it or nothing; one step of undo. Each edit carries the version that was read.',
        body: ChangeSet,
        response,
      },
    },
    (request) => {
      const { label, edits } = readBody(ChangeSet, request.body);
      return told(request, change(app.store, request.params.build, label, edits, actorOf(request)));
    },
  );

  app.post<{ Params: Params; Body: unknown }>(
    '/:build/repairs',
    {
      schema: {
        tags,
        params,
        summary: 'Apply a repair the plan suggests',
        description:
          'To `sign`, `at` is the moment (left out: now) and `by` the person (left out: the first); `reason` is why an excepted task can still be reached.',
        body: RepairRequest,
        response,
      },
    },
    (request) => {
      const { repair, at, by, reason } = readBody(RepairRequest, request.body);
      const { snapshot } = app.answers.snapshot(request.params.build);
      const context = {
        at: at ?? app.now(),
        by: by ?? snapshot.file.people[0]?.key ?? '',
        reason: reason ?? 'can still be reached',
      };
      const after = applyRepair(snapshot.file, repair, context);
      const edits = editsBetween(snapshot.file, after, { of: (noun, id) => versionIn(snapshot, noun, id) });
      if (edits.length === 0)
        throw new PlanError('This repair no longer fits: what it would change is so already.', {
          code: 'repair-gone',
          repair: repair.kind,
        });
      return told(
        request,
        change(app.store, request.params.build, LABELS[repair.kind], edits, actorOf(request)),
      );
    },
  );

  app.post<{ Params: Params; Body: unknown }>(
    '/:build/undo',
    { schema: { tags, params, summary: 'Take back the last action', response } },
    (request) => told(request, undo(app.store, request.params.build, actorOf(request))),
  );

  app.post<{ Params: Params; Body: unknown }>(
    '/:build/redo',
    { schema: { tags, params, summary: 'Do again what was taken back last', response } },
    (request) => told(request, redo(app.store, request.params.build, actorOf(request))),
  );

  app.get<{ Params: Params; Querystring: { limit?: string; before?: string } }>(
    '/:build/history',
    {
      schema: {
        tags,
        params,
        summary: 'Every action, newest first, with each row as it was and became',
        querystring: {
          type: 'object',
          properties: {
            limit: {
              type: 'string',
              pattern: '^[1-9]\\d{0,2}$',
              description: 'how many, 1 to 999; left out: 50',
            },
            before: {
              type: 'string',
              pattern: '^\\d{1,15}$',
              description: 'the number of an action: only older ones',
            },
          },
        },
        response: { 200: Type.Array(HistoryEntry), ...PROBLEM_RESPONSES },
      },
    },
    (request) => {
      const { limit, before } = request.query;
      const { id } = getBuild(app.store.db, request.params.build);
      return history(app.store.db, id, Number(limit ?? 50), before === undefined ? null : Number(before));
    },
  );

  app.get<{ Params: Params }>(
    '/:build/events',
    {
      // Whoever asks for the head alone would be left with a stream.
      exposeHeadRoute: false,
      schema: {
        tags,
        params,
        summary: 'The changes as they happen, as server-sent events',
        description:
          'First `hello` with the revision, then one `changed` per action: what the change answered, and `source`, the header x-client of whoever made it. `removed` ends it.',
        response: {
          200: { description: 'a stream', content: { 'text/event-stream': { schema: { type: 'string' } } } },
          ...PROBLEM_RESPONSES,
        },
      },
    },
    (request, reply) => listen(request.params.build, reply),
  );
  done();

  function told(request: ChangeRequest, changed: Changed): Changed {
    app.listeners.tell(request.params.build, changed, sourceOf(request));
    return changed;
  }

  function listen(build: string, reply: FastifyReply): void {
    const { revision } = getBuild(app.store.db, build);
    reply.hijack();
    reply.raw.writeHead(200, {
      ...(reply.getHeaders() as Record<string, string>),
      'content-type': 'text/event-stream',
      'cache-control': 'no-store',
    });
    reply.raw.write(`retry: 1000\nid: ${revision}\nevent: hello\ndata: {"revision":${revision}}\n\n`);
    app.listeners.add(build, reply);
  }
};
export default changes;

const LABELS: Record<Repair['kind'], string> = {
  'drop-links': 'Drop a link that forced a wrong order',
  split: 'Split a task by zone',
  exception: 'Free a pair from the cover rule',
  'drop-place': 'Drop a place of a task',
  sign: 'Sign a check',
  reopen: 'Take covers off again',
  'drop-fixed-start': 'Free a fixed date',
};
