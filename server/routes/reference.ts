/** /api/openapi.json and /api/reference: the interface described from the same schemas, for programs and for people. */
import { readFileSync } from 'node:fs';
import swagger from '@fastify/swagger';
import fp from 'fastify-plugin';
import type { FastifyInstance } from 'fastify';
import { ProblemSchema } from './problem-schema.ts';
import { referencePage, type OpenApi } from './reference-page.ts';

const STYLE = readFileSync(new URL('./reference.css', import.meta.url));

const DESCRIPTION =
  'Everything the screens do. Money in minor units, time in minutes, mass in grams, dates local without a zone. A row is changed only with If-Match and the version that was read. What is not right is refused with a problem (RFC 9457) that names each field by its JSON pointer; nothing is coerced or dropped.';

export default fp(
  async (app: FastifyInstance, { prefix }: { prefix: string }) => {
    app.addSchema(ProblemSchema);
    await app.register(swagger, {
      openapi: { openapi: '3.1.0', info: { title: 'Coverlast', version: '1', description: DESCRIPTION } },
      refResolver: { buildLocalReference: (schema) => String(schema.$id) },
    });
    const hidden = { schema: { hide: true } };
    app.get(`${prefix}/health`, hidden, () => ({ ok: true }));
    app.get(`${prefix}/openapi.json`, hidden, () => app.swagger());
    app.get(`${prefix}/reference`, hidden, (_request, reply) =>
      reply.type('text/html; charset=utf-8').send(referencePage(app.swagger() as unknown as OpenApi)),
    );
    app.get(`${prefix}/reference.css`, hidden, (_request, reply) =>
      reply.type('text/css; charset=utf-8').send(STYLE),
    );
  },
  { name: 'reference', fastify: '5.x' },
);
