/**
 * Every failure as a problem (RFC 9457): `type` names the code, `title` and `status` come from one table, `detail` is
 * the sentence, the failure's data are extension members. What nobody foresaw is reported and told without its details.
 */
import fp from 'fastify-plugin';
import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify';
import { PlanError, type Failure, type FailureCode } from '#shared/errors.ts';
import { asFailure } from '../store/failures.ts';
import { OWN_HEADERS } from './guard.ts';

interface Kind {
  readonly status: number;
  readonly title: string;
}

export const PROBLEMS: Readonly<Record<FailureCode, Kind>> = {
  'not-json': { status: 400, title: 'The text is not JSON' },
  'bad-build': { status: 422, title: 'The document is not a build' },
  'bad-request': { status: 400, title: 'The request is not right' },
  'bad-change': { status: 422, title: 'The change is not right' },
  'bad-table': { status: 422, title: 'The table is not right' },
  'bad-usage': { status: 400, title: 'The command is not right' },
  'no-file': { status: 404, title: 'There is no such file' },
  'not-found': { status: 404, title: 'There is no such thing' },
  'repair-gone': { status: 409, title: 'The repair no longer fits' },
  'stale-write': { status: 412, title: 'It was changed meanwhile' },
  'version-missing': { status: 428, title: 'Say which version you read' },
  'nothing-to-undo': { status: 409, title: 'There is nothing to undo' },
  'nothing-to-redo': { status: 409, title: 'There is nothing to do again' },
  'foreign-host': { status: 403, title: 'This server answers only under its own name' },
  'foreign-origin': { status: 403, title: 'This server answers only its own pages' },
  'too-large': { status: 413, title: 'That is too much at once' },
  'unsupported-media': { status: 415, title: 'That is not read here' },
  busy: { status: 409, title: 'It is at work already' },
  'store-in-use': { status: 503, title: 'Another program has the store' },
  'store-full': { status: 507, title: 'There is no room left' },
  'newer-store': { status: 503, title: 'The store is newer than this program' },
};

export interface Problem {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
  readonly instance: string;
  readonly [member: string]: unknown;
}

export function problemOf(failure: Failure, detail: string, instance: string): Problem {
  const { code, ...data } = failure;
  const { title, status } = PROBLEMS[code];
  return { type: `/problems/${code}`, title, status, detail, instance, ...data } satisfies Problem;
}

export interface ProblemsOptions {
  /** Told of every fault of the server's own. */
  readonly report: (error: unknown) => void;
}

export default fp<ProblemsOptions>(
  (app, { report }) => {
    app.setErrorHandler((error: FastifyError, request, reply) =>
      sendProblem(reply, toProblem(error, request, report)),
    );
    app.setNotFoundHandler((request, reply) => {
      const failure: Failure = { code: 'not-found', what: 'address', id: request.url };
      return sendProblem(
        reply,
        problemOf(failure, `There is nothing at ${request.method} ${request.url}.`, request.url),
      );
    });
    return Promise.resolve();
  },
  { name: 'problems', fastify: '5.x' },
);

export function sendProblem(reply: FastifyReply, problem: Problem): FastifyReply {
  return reply.code(problem.status).type('application/problem+json').send(problem);
}

/** Addresses that cannot be read fail before any route is found, so Fastify asks for their answer apart. */
export function unreadable(_error: FastifyError, request: FastifyRequest, reply: FastifyReply): void {
  const detail = 'is too long or not well written: it must be an address of this server';
  const errors = [{ pointer: '', detail }];
  void reply.headers(OWN_HEADERS);
  void sendProblem(
    reply,
    problemOf({ code: 'bad-request', errors }, `The address ${detail}.`, request.raw.url ?? ''),
  );
}

function toProblem(caught: FastifyError, request: FastifyRequest, report: (error: unknown) => void): Problem {
  const { url } = request;
  const error = asFailure(caught);
  if (error instanceof PlanError) return problemOf(error.failure, error.message, url);
  if (caught.code === 'FST_ERR_CTP_BODY_TOO_LARGE') {
    const most = request.routeOptions.bodyLimit ?? 0;
    return problemOf(
      { code: 'too-large', most },
      `The body is too large: at most ${most / 1024 / 1024} MB are taken here.`,
      url,
    );
  }
  if (caught.code === 'FST_ERR_CTP_INVALID_MEDIA_TYPE') {
    const media = request.headers['content-type'] ?? '';
    return problemOf(
      { code: 'unsupported-media', media },
      `"${media}" is not read here: send application/json.`,
      url,
    );
  }
  if (caught.statusCode !== undefined && caught.statusCode < 500) {
    const errors = [{ pointer: '', detail: caught.message }];
    return problemOf({ code: 'bad-request', errors }, `The request is not right: ${caught.message}.`, url);
  }
  report(caught);
  return {
    type: 'about:blank',
    title: 'Something went wrong here',
    status: 500,
    detail: 'The server met a fault of its own. What you sent was not stored.',
    instance: url,
  };
}
