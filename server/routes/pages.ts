/** The client: its built files, and its one page for every address of a view. */
import fastifyStatic from '@fastify/static';
import fp from 'fastify-plugin';
import type { FastifyInstance } from 'fastify';

export interface PagesOptions {
  /** Of the built client. */
  readonly folder: string;
}

/** Names of assets carry their content, so they never change; the page itself is asked for anew. */
const FOR_EVER = 'public, max-age=31536000, immutable';

export default fp<PagesOptions>(
  async (app: FastifyInstance, { folder }: PagesOptions) => {
    await app.register(fastifyStatic, {
      root: folder,
      prefix: '/',
      // Only the files that are there now, each by its own name.
      wildcard: false,
      index: false,
      serveDotFiles: false,
      cacheControl: false,
      setHeaders: (reply, path) => {
        void reply.header('cache-control', /[\\/]assets[\\/]/.test(path) ? FOR_EVER : 'no-cache');
      },
    });
    for (const address of ['/', '/builds', '/builds/*'])
      app.get(address, { schema: { hide: true } }, (_request, reply) => reply.sendFile('index.html'));
  },
  { name: 'pages', fastify: '5.x' },
);
