/**
 * What comes with an address: path and query against their schemas (strings on the wire, strings they stay), and the
 * version that was read, which every write of a row must name.
 */
import type { FastifyRequest } from 'fastify';
import type { TSchema } from 'typebox';
import { faultsOf } from '#shared/contract/faults.ts';
import { isInstant } from '#shared/contract/formats.ts';
import { PlanError } from '#shared/errors.ts';

/** As Fastify wants a validator: true, or what is wrong. */
export function parameterCheck(schema: object): (value: unknown) => true | { error: Error } {
  return (value) => {
    const errors = faultsOf(schema as TSchema, value);
    const [first] = errors;
    if (first === undefined) return true;
    const message = `The address is not right: ${first.pointer} ${first.detail}.`;
    return { error: new PlanError(message, { code: 'bad-request', errors }) };
  };
}

/** The parts of a path, for validation and for the reference. */
export function pathOf(...names: readonly (keyof typeof PARTS)[]) {
  return {
    type: 'object',
    properties: Object.fromEntries(names.map((name) => [name, { type: 'string', description: PARTS[name] }])),
    required: names,
  };
}

const PARTS = {
  build: 'the id of a build',
  id: 'the id of a record',
  table: 'the name of a table: tasks, links, purchases or hours',
  file: 'a stored file by its 64 hex digits',
  feed: 'the secret of a calendar address',
  address: 'the secret of a calendar address, with .ics behind it',
};

/** The moment to plan from, for whoever asks for what follows from it. */
export const MOMENT = {
  type: 'object',
  properties: {
    now: { type: 'string', description: 'the moment to plan from, 2027-03-13T18:30; left out: now' },
  },
};

export interface Moment {
  readonly now?: string;
}

/** @param otherwise the server's now. @throws PlanError `bad-request` */
export function momentIn(query: Moment, otherwise: string): string {
  const now = query.now ?? otherwise;
  if (isInstant(now)) return now;
  const detail = `is "${now}": it must be a day and a time, written 2027-03-13T18:30`;
  const errors = [{ pointer: '/now', detail }];
  throw new PlanError(`The moment to plan from ${detail}.`, { code: 'bad-request', errors });
}

/** In the reference only: the handlers look for themselves, because a missing version has a problem of its own. */
export const IF_MATCH = {
  type: 'object',
  properties: { 'if-match': { type: 'string', description: 'the version that was read, "3"' } },
  required: ['if-match'],
};

/** @throws PlanError `version-missing` */
export function versionIn(request: FastifyRequest): number {
  const version = /^(?:W\/)?"?(\d{1,15})"?$/.exec(request.headers['if-match'] ?? '')?.[1];
  if (version === undefined)
    throw new PlanError('Send If-Match with the version you read, so that nothing is overwritten unseen.', {
      code: 'version-missing',
    });
  return Number(version);
}
