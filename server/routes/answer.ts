/** Sending an answer that is kept as bytes. */
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Answer } from '../store/answers.ts';

/** Bytes that are ready, or nothing for whoever has them already. */
export function sendAnswer(
  request: FastifyRequest,
  reply: FastifyReply,
  { etag, body }: Answer,
): FastifyReply {
  void reply.header('etag', etag).header('cache-control', 'no-cache');
  if (request.headers['if-none-match'] === etag) return reply.code(304).send();
  return reply.type('application/json; charset=utf-8').send(body);
}
