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
  | { readonly code: 'not-found'; readonly what: string; readonly id: string }
  /** Somebody else wrote the row since it was read; `found` is its version now. */
  | { readonly code: 'stale-write'; readonly noun: string; readonly id: string; readonly found: number }
  /** A change whose fields, or whose effect on the build, are not right. */
  | { readonly code: 'bad-change'; readonly errors: readonly FieldFault[] }
  /** A table whose rows cannot be taken in: each fault names its row and column, as `/rows/7/quantity`. */
  | { readonly code: 'bad-table'; readonly errors: readonly FieldFault[] }
  | { readonly code: 'nothing-to-undo' }
  | { readonly code: 'nothing-to-redo' }
  /** A row is written only by whoever says which version they read (If-Match). */
  | { readonly code: 'version-missing' }
  /** The request did not come from this server's own pages. */
  | { readonly code: 'foreign-host'; readonly host: string }
  | { readonly code: 'foreign-origin'; readonly origin: string }
  | { readonly code: 'too-large'; readonly most: number }
  | { readonly code: 'bad-request'; readonly errors: readonly FieldFault[] }
  /** A body of a kind this server does not read. */
  | { readonly code: 'unsupported-media'; readonly media: string }
  /** Another program holds the store; nothing was written. */
  | { readonly code: 'store-in-use'; readonly path: string }
  /** The disk is full; nothing was written. */
  | { readonly code: 'store-full' }
  /** The store was written by a later version of this program. */
  | { readonly code: 'newer-store'; readonly path: string }
  /** A file of that name cannot be read or written. */
  | { readonly code: 'no-file'; readonly path: string }
  /** Work of that kind runs already. */
  | { readonly code: 'busy' }
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
