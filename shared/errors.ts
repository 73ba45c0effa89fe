/**
 * Every failure a user can cause, as one closed union. A `PlanError` carries its data beside a plain sentence,
 * so that a screen, a command and an HTTP problem (RFC 9457) can each render the same fact.
 */

/** One field that is wrong: where it stands (JSON pointer, RFC 6901) and what would be right. */
export interface FieldFault {
  readonly pointer: string;
  readonly detail: string;
}

export type Failure =
  /** The text is not JSON at all. */
  | { readonly code: 'not-json'; readonly line: number; readonly column: number }
  /** The document is JSON but not a build: each fault names its field. */
  | { readonly code: 'bad-build'; readonly errors: readonly FieldFault[] }
  /** A repair no longer fits the build it is applied to. */
  | { readonly code: 'repair-gone'; readonly repair: string }
  /** A file of that name cannot be read or written. */
  | { readonly code: 'no-file'; readonly path: string }
  /** A command was called with the wrong words. */
  | { readonly code: 'bad-usage'; readonly usage: string };

export type FailureCode = Failure['code'];

/** A failure with its sentence. Throw it for what a user can cause; `RangeError` is for a caller's bug. */
export class PlanError extends Error {
  readonly failure: Failure;

  constructor(message: string, failure: Failure) {
    super(message);
    this.name = 'PlanError';
    this.failure = failure;
  }
}
