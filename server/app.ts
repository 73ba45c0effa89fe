/** Builds the server from its plugins without listening: tests build it the same way. */
import Fastify, { type FastifyInstance } from 'fastify';
import bodies from './plugins/bodies.ts';
import guard from './plugins/guard.ts';
import listeners from './plugins/listeners.ts';
import problems, { unreadable, type ProblemsOptions } from './plugins/problems.ts';
import store, { type StoreOptions } from './plugins/store.ts';
import buildDeeds from './routes/build-deeds.ts';
import builds from './routes/builds.ts';
import changes from './routes/changes.ts';
import feeds from './routes/feeds.ts';
import files from './routes/files.ts';
import head from './routes/head.ts';
import health from './routes/health.ts';
import nouns from './routes/nouns.ts';
import odds from './routes/odds.ts';
import pages from './routes/pages.ts';
import { parameterCheck } from './routes/parameters.ts';
import reference from './routes/reference.ts';
import search from './routes/search.ts';
import slip from './routes/slip.ts';
import tables from './routes/tables.ts';

export interface AppOptions extends StoreOptions, ProblemsOptions {
  /** The folder of the built client; null serves the API alone. */
  readonly pages: string | null;
}

/** Bodies beyond this are refused, except where a whole build comes in. */
const BODY_LIMIT = 4 * 1024 * 1024;

/** Whoever sends by the byte is let go; answers may take as long as they are read. */
const HEADERS_MS = 10_000;
const REQUEST_MS = 30_000;
const IDLE_MS = 10_000;

export async function buildApp({
  store: opened,
  now,
  report,
  pages: folder,
}: AppOptions): Promise<FastifyInstance> {
  const app = Fastify({
    bodyLimit: BODY_LIMIT,
    requestTimeout: REQUEST_MS,
    keepAliveTimeout: IDLE_MS,
    http: { headersTimeout: HEADERS_MS, connectionsCheckingInterval: 5000 },
    forceCloseConnections: true,
    routerOptions: { maxParamLength: 300 },
    frameworkErrors: unreadable,
  });
  // Bodies are checked by the readers of the contract, whose faults say what would be right.
  app.setValidatorCompiler(({ httpPart, schema }) =>
    httpPart === 'params' || httpPart === 'querystring' ? parameterCheck(schema as object) : () => true,
  );
  await app.register(problems, { report });
  await app.register(guard);
  await app.register(bodies);
  await app.register(store, { store: opened, now });
  await app.register(listeners);
  await app.register(reference, { prefix: '/api' });
  for (const routes of [builds, buildDeeds, head, changes, nouns, files, tables, search, odds, slip, health])
    await app.register(routes, { prefix: '/api/builds' });
  await app.register(feeds);
  if (folder !== null) await app.register(pages, { folder });
  return app;
}
