/** Who listens to which build: each change is told to all its listeners as a server-sent event. */
import fp from 'fastify-plugin';
import type { FastifyReply } from 'fastify';
import type { Changed } from '#shared/contract/changes.ts';

/** A sign of life, so that a dead connection is noticed. */
const BEAT_MS = 20_000;
/** A listener that leaves more than this unread is let go: it comes back and reads the build anew. */
const MOST_UNREAD = 4 * 1024 * 1024;

export class Listeners {
  readonly #byBuild = new Map<string, Set<FastifyReply>>();

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
    const listeners = new Listeners();
    app.decorate('listeners', listeners);
    app.addHook('preClose', () => Promise.resolve(listeners.close()));
    return Promise.resolve();
  },
  { name: 'listeners', fastify: '5.x' },
);
