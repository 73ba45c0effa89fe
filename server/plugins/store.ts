/** The open store with the answers kept of it, the clock it goes by, and who asks. */
import fp from 'fastify-plugin';
import type { FastifyRequest } from 'fastify';
import { isOneLine } from '#shared/contract/formats.ts';
import { stampText } from '../clock.ts';
import { Answers } from '../store/answers.ts';
import type { Store } from '../store/database.ts';
import type { Actor } from '../store/journal.ts';

declare module 'fastify' {
  interface FastifyInstance {
    store: Store;
    answers: Answers;
    /** Now, local and without a zone: `2027-03-13T18:30`. */
    now: () => string;
  }
}

export interface StoreOptions {
  readonly store: Store;
  readonly now: () => string;
}

export default fp<StoreOptions>(
  (app, { store, now }) => {
    app.decorate('store', store);
    app.decorate('answers', new Answers(store));
    app.decorate('now', now);
    app.addHook('onClose', () => Promise.resolve(store.close()));
    return Promise.resolve();
  },
  { name: 'store', fastify: '5.x' },
);

/** Who asks: the name a client gives itself; until there are sessions, whoever is at this machine. */
export function actorOf(request: FastifyRequest): Actor {
  return { who: wordOf(request, 'x-who') ?? 'builder', at: stampText() };
}

/** The client's own mark, which comes back in the event of its change. */
export function sourceOf(request: FastifyRequest): string | null {
  return wordOf(request, 'x-client');
}

/** One line of at most 80 characters in a header, percent-encoded where it is not ASCII; null for anything else. */
function wordOf(request: FastifyRequest, header: string): string | null {
  const value = request.headers[header];
  if (typeof value !== 'string' || value.length > 1000) return null;
  try {
    const word = Array.from(decodeURIComponent(value)).slice(0, 80).join('');
    return isOneLine(word) ? word : null;
  } catch {
    return null;
  }
}
