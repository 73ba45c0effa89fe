/** Reading a body against its schema. */
import type { Static, TSchema } from 'typebox';
import { PlanError } from '#shared/errors.ts';
import { schemaFaults } from '../store/schema-faults.ts';

/** @throws PlanError `bad-request`, a fault per field */
export function readBody<T extends TSchema>(schema: T, body: unknown): Static<T> {
  const errors = schemaFaults(schema, body);
  const [first] = errors;
  if (first === undefined) return body as Static<T>;
  const message = `The request is not right: ${first.pointer || 'the body'} ${first.detail}.`;
  throw new PlanError(message, { code: 'bad-request', errors });
}
