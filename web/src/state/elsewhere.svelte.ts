/**
 * Where the people of the build at hand are planned at builds that come first. It follows from those builds and from the
 * time, so it is read with the build, when the server says that one of those changed, and every hour.
 */
import type { Elsewhere } from '#shared/contract/elsewhere.ts';
import { ask } from './api.ts';

const EVERY_MS = 60 * 60_000;

export class OtherBuilds {
  readonly #path: string;
  /** By the shared name of the person. */
  busy = $state.raw<Elsewhere>({});
  #text = '{}';
  #again: ReturnType<typeof setInterval> | undefined;

  /** @param path of the build, `/api/builds/wagtail` */
  constructor(path: string, busy: Elsewhere) {
    this.#path = path;
    this.take(busy);
  }

  start(): void {
    this.#again = setInterval(() => {
      if (!document.hidden) void this.read();
    }, EVERY_MS);
  }

  stop(): void {
    clearInterval(this.#again);
  }

  take(busy: Elsewhere): void {
    const text = JSON.stringify(busy);
    // The same again would plan everything anew for nothing.
    if (text === this.#text) return;
    this.#text = text;
    this.busy = busy;
  }

  async read(): Promise<void> {
    try {
      this.take(await ask<Elsewhere>('GET', `${this.#path}/elsewhere`));
    } catch {
      // What is known stands until the server is heard again, which reads it anew.
    }
  }
}
