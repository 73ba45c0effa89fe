/** The shape of every failure on the wire: problem details (RFC 9457) with their extension members. */
import { Type } from 'typebox';

/** Put among the components of the OpenAPI document, so that it stands there once. */
export const ProblemSchema = Type.Object(
  {
    type: Type.String({ description: 'what kind of failure: /problems/ and its code' }),
    title: Type.String({ description: 'the kind in words' }),
    status: Type.Integer({ description: 'the HTTP status' }),
    detail: Type.String({ description: 'what went wrong this time: one sentence' }),
    instance: Type.String({ description: 'the address that was asked' }),
    errors: Type.Optional(
      Type.Array(Type.Object({ pointer: Type.String(), detail: Type.String() }), {
        description: 'each field that is wrong: its JSON pointer and what would be right',
      }),
    ),
  },
  { $id: 'Problem', additionalProperties: true, description: 'problem details (RFC 9457)' },
);

const problem = {
  description: 'problem details (RFC 9457)',
  content: { 'application/problem+json': { schema: { $ref: 'Problem#' } } },
};

export const PROBLEM_RESPONSES = { '4xx': problem, '5xx': problem };

/** A record is gone, or a build is. */
export const NO_CONTENT = { 204: { type: 'null', description: 'it is removed' }, ...PROBLEM_RESPONSES };
