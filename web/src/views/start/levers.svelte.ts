/** The levers beside the finish date: asked for beside the page, anew whenever the build changes. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Elsewhere } from '#shared/contract/elsewhere.ts';
import type { FirstLever } from '#shared/levers/first-levers.ts';
import type { LeverAnswer, LeverQuestion } from '../../work/first-levers.worker.ts';

export class Levers {
  /** Null while they are worked out. */
  found = $state.raw<readonly FirstLever[] | null>(null);
  broken = $state(false);
  #worker: Worker | null = null;

  /** @returns ends it */
  ask(file: BuildFile, now: string, elsewhere: Elsewhere): () => void {
    this.found = null;
    this.broken = false;
    const worker = new Worker(new URL('../../work/first-levers.worker.ts', import.meta.url), {
      type: 'module',
    });
    this.#worker = worker;
    worker.addEventListener('message', ({ data }: MessageEvent<LeverAnswer>) => {
      this.found = data;
      this.#end();
    });
    worker.addEventListener('error', () => {
      this.broken = true;
      this.#end();
    });
    const question: LeverQuestion = { file, now, elsewhere };
    worker.postMessage(question, []);
    return () => this.#end();
  }

  #end(): void {
    this.#worker?.terminate();
    this.#worker = null;
  }
}
