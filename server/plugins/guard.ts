/**
 * Who may ask: only this machine, under this server's own name, from this server's own pages. A page elsewhere that
 * points its own name at this machine (DNS rebinding) fails by Host, one that sends a form or script by Origin or by
 * what the browser says of the site it comes from. With that go headers that let nothing but the server's own files run.
 */
import fp from 'fastify-plugin';
import type { FastifyRequest } from 'fastify';
import { PlanError } from '#shared/errors.ts';

const OWN_NAMES = new Set(['localhost', '127.0.0.1', '[::1]']);
const OWN_SITES = new Set(['same-origin', 'none']);

export const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "font-src 'self'",
  "img-src 'self' data: blob:",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ');

/** With every answer. */
export const OWN_HEADERS = {
  'content-security-policy': CONTENT_SECURITY_POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
};

export default fp(
  (app) => {
    app.addHook('onRequest', (request, reply, done) => {
      void reply.headers(OWN_HEADERS);
      done(refusalOf(request) ?? undefined);
    });
    return Promise.resolve();
  },
  { name: 'guard', fastify: '5.x' },
);

function refusalOf({ headers, method }: FastifyRequest): PlanError | null {
  const host = headers.host ?? '';
  // The name without its port: of an IPv6 address that is all in its brackets.
  if (!OWN_NAMES.has(host.replace(/:\d+$/, '').toLowerCase()))
    return new PlanError(`"${host}" is not a name of this server: open it as localhost.`, {
      code: 'foreign-host',
      host,
    });
  const { origin } = headers;
  if (origin !== undefined && origin.toLowerCase() !== `http://${host.toLowerCase()}`) return foreign(origin);
  const site = headers['sec-fetch-site'];
  if (site === undefined || OWN_SITES.has(String(site))) return null;
  // A link elsewhere may lead here; nothing else from there may.
  return method === 'GET' && headers['sec-fetch-mode'] === 'navigate' ? null : foreign(String(site));
}

function foreign(origin: string): PlanError {
  return new PlanError(`A page of another site (${origin}) may not ask this server.`, {
    code: 'foreign-origin',
    origin,
  });
}
