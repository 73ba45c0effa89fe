/** Who listens to which build: each change is told to all its listeners as a server-sent event. */
import fp from 'fastify-plugin';
import type { FastifyReply } from 'fastify';
import type { Changed } from '#shared/contract/changes.ts';
import { orderOf } from '../store/build-order.ts';

/** A sign of life, so that a dead connection is noticed. */
const BEAT_MS = 20_000;
/** A listener that leaves more than this unread is let go: it comes back and reads the build anew. */
const MOST_UNREAD = 4 * 1024 * 1024;

/** The builds that may be planned otherwise after a change of this one. */
type Later = (build: string, changed: Changed) => readonly string[];

export class Listeners {
  readonly #byBuild = new Map<string, Set<FastifyReply>>();
  readonly #later: Later;

  constructor(later: Later) {
    this.#later = later;
  }

  add(build: string, reply: FastifyReply): void {
    const set = this.#byBuild.get(build) ?? new Set();
    this.#byBuild.set(build, set.add(reply));
    const beat = setInterval(() => send(reply, ': still here\n\n'), BEAT_MS);
    beat.unref();
    reply.raw.on('close', () => {
      clearInterval(beat);
      set.delete(reply);
      if (set.size === 0 && this.#byBuild.get(build) === set) this.#byBuild.delete(build);
    });
  }

  /** @param source the client that made the change, so that it can tell its own */
  tell(build: string, changed: Changed, source: string | null): void {
    const text = `id: ${changed.revision}\nevent: changed\ndata: ${JSON.stringify({ ...changed, source })}\n\n`;
    for (const reply of this.#byBuild.get(build) ?? []) send(reply, text);
    const others = this.#byBuild.size - (this.#byBuild.has(build) ? 1 : 0);
    if (others > 0) this.moved(this.#later(build, changed));
  }

  /** Builds that come before these have other plans by now, or others come before them. */
  moved(builds: Iterable<string> = this.#byBuild.keys()): void {
    for (const build of builds)
      for (const reply of this.#byBuild.get(build) ?? []) send(reply, 'event: elsewhere\ndata: {}\n\n');
  }

  /** The build is removed: there is nothing more to hear. */
  end(build: string): void {
    for (const reply of this.#byBuild.get(build) ?? []) reply.raw.end('event: removed\ndata: {}\n\n');
    this.#byBuild.delete(build);
  }

  close(): void {
    for (const set of this.#byBuild.values()) for (const reply of set) reply.raw.end();
    this.#byBuild.clear();
  }

  /** How many listen to a build. */
  count(build: string): number {
    return this.#byBuild.get(build)?.size ?? 0;
  }
}

function send({ raw }: FastifyReply, text: string): void {
  if (raw.writableLength > MOST_UNREAD) raw.destroy();
  else raw.write(text);
}

declare module 'fastify' {
  interface FastifyInstance {
    listeners: Listeners;
  }
}

export default fp(
  (app) => {
    const inOrder = orderOf(app.store.db);
    const listeners = new Listeners((build, { rows }) => {
      const all = inOrder();
      const at = all.findIndex(({ id }) => id === build);
      // Whoever is shared no longer was perhaps shared before.
      const isFelt = all[at]!.shares || rows.some(({ noun }) => noun === 'people');
      return isFelt ? all.slice(at + 1).map(({ id }) => id) : [];
    });
    app.decorate('listeners', listeners);
    app.addHook('preClose', () => Promise.resolve(listeners.close()));
    return Promise.resolve();
  },
  { name: 'listeners', fastify: '5.x', dependencies: ['store'] },
);
