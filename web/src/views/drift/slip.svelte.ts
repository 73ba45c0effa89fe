/** The slip of a build as the server works it out, read again a moment after the build was changed. */
import type { SlipPoint } from '#shared/baselines/slip.ts';
import { ask } from '../../state/api.ts';
import { wordsOf, type Build } from '../../state/build.svelte.ts';
import { pathOf } from '../../state/snapshot.ts';

interface Answer {
  readonly since: string;
  readonly points: readonly SlipPoint[];
}

/** Changes come in handfuls. */
const AFTER_MS = 400;

export class Slip {
  answer = $state.raw<Answer | null>(null);
  /** Why it could not be read; '' where it was. */
  refused = $state('');
  readonly #build: Build;
  #asked = 0;

  /** Call it while a component is being made. */
  constructor(build: Build) {
    this.#build = build;
    $effect(() => {
      void build.stored;
      if (build.saving) return;
      const wait = setTimeout(() => void this.read(), this.answer === null ? 0 : AFTER_MS);
      return () => clearTimeout(wait);
    });
  }

  async read(): Promise<void> {
    const number = ++this.#asked;
    try {
      const answer = await ask<Answer>('GET', `${pathOf(this.#build.id)}/slip`);
      if (number !== this.#asked) return;
      this.answer = answer;
      this.refused = '';
    } catch (error) {
      if (number === this.#asked) this.refused = wordsOf(error);
    }
  }
}
