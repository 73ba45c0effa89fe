/**
 * Hearing what happens to a build while its page is seen. A browser holds few connections to one server and each page
 * that listens keeps one, so pages behind others let go of theirs.
 */
import type { Changed } from '#shared/contract/changes.ts';

export interface Listener {
  /** Heard again. @param revision the build's, by now */
  readonly hello: (revision: number) => void;
  readonly changed: (changed: Changed & { readonly source: string | null }) => void;
  readonly removed: () => void;
  /** Builds that come first have other plans by now. */
  readonly elsewhere: () => void;
  /** @param isTurnedAway not broken off but refused: the browser does not ask again by itself */
  readonly lost: (isTurnedAway: boolean) => void;
}

/** How long a page that is not seen goes on listening. */
const UNSEEN_MS = 5000;
const AGAIN_MS = 3000;

export class Listening {
  readonly #path: string;
  readonly #to: Listener;
  #source: EventSource | null = null;
  #later: ReturnType<typeof setTimeout> | undefined;
  readonly #attend = () => {
    clearTimeout(this.#later);
    if (document.hidden) this.#later = setTimeout(() => this.#stop(), UNSEEN_MS);
    else this.#source ??= this.#open();
  };

  constructor(path: string, to: Listener) {
    this.#path = path;
    this.#to = to;
    document.addEventListener('visibilitychange', this.#attend);
    this.#attend();
  }

  close(): void {
    document.removeEventListener('visibilitychange', this.#attend);
    clearTimeout(this.#later);
    this.#stop();
  }

  #stop(): void {
    this.#source?.close();
    this.#source = null;
  }

  #open(): EventSource {
    const source = new EventSource(this.#path);
    const told = (event: Event) => JSON.parse((event as MessageEvent<string>).data) as unknown;
    source.addEventListener('hello', (event) =>
      this.#to.hello((told(event) as { revision: number }).revision),
    );
    source.addEventListener('changed', (event) =>
      this.#to.changed(told(event) as Changed & { source: string | null }),
    );
    source.addEventListener('removed', () => this.#to.removed());
    source.addEventListener('elsewhere', () => this.#to.elsewhere());
    source.addEventListener('error', () => {
      const isTurnedAway = source.readyState === EventSource.CLOSED;
      if (isTurnedAway && this.#source === source) {
        this.#source = null;
        this.#later = setTimeout(this.#attend, AGAIN_MS);
      }
      this.#to.lost(isTurnedAway);
    });
    return source;
  }
}
