/** The server as this client knows it: JSON in, JSON out, and every failure as a `Refusal` with a sentence to show. */
import type { FieldFault } from '#shared/errors.ts';

/** A problem (RFC 9457) the server answered, or that it could not be reached (`code` "unreachable"). */
export class Refusal extends Error {
  readonly code: string;
  readonly errors: readonly FieldFault[];

  constructor(code: string, message: string, errors: readonly FieldFault[] = []) {
    super(message);
    this.name = 'Refusal';
    this.code = code;
    this.errors = errors;
  }
}

/** This page's own mark: its changes come back in the events under it. */
export const CLIENT = crypto.randomUUID();

const WHO = 'coverlast.who';

/** Who works at this device: stands in the history beside each change. */
export const who = {
  get: (): string | null => localStorage.getItem(WHO),
  set: (name: string): void => localStorage.setItem(WHO, name),
};

/** A server that has not answered by then is taken for one that was not reached. */
const PATIENCE_MS = 60_000;

/** @throws Refusal */
export async function ask<T>(
  method: 'GET' | 'POST' | 'DELETE',
  path: string,
  body?: unknown,
  /** The version that was read, for what is written only by whoever knows it. */
  { ifMatch }: { readonly ifMatch?: number } = {},
): Promise<T> {
  let response: Response;
  let text: string;
  try {
    response = await fetch(path, {
      method,
      headers: {
        'x-client': CLIENT,
        ...(who.get() === null ? {} : { 'x-who': encodeURIComponent(who.get()!) }),
        ...(ifMatch === undefined ? {} : { 'if-match': `"${ifMatch}"` }),
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      },
      ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
      signal: AbortSignal.timeout(PATIENCE_MS),
    });
    text = await response.text();
  } catch {
    throw unreachable();
  }
  const value = parsed(text);
  if (response.ok) {
    // An answer that broke off says nothing of what was stored.
    if (value === undefined && text !== '') throw unreachable();
    return value as T;
  }
  const problem = (value ?? {}) as Problem;
  // Something between here and the server answered in its place.
  if (response.status >= 500 && problem.type === undefined) throw unreachable();
  const code = problem.type?.split('/').at(-1) ?? 'unknown';
  throw new Refusal(
    code,
    problem.detail ?? problem.title ?? `The server answered ${response.status}.`,
    problem.errors ?? [],
  );
}

interface Problem {
  readonly type?: string;
  readonly title?: string;
  readonly detail?: string;
  readonly errors?: readonly FieldFault[];
}

function unreachable(): Refusal {
  return new Refusal('unreachable', 'The server cannot be reached: is it still running?');
}

/** Undefined where it is no JSON. */
function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
