/**
 * The day by which each of two builds is done in four of five trials, worked out beside the page one after the other. Both
 * are tried with the same draws (common random numbers), so that what differs is the plan and not luck.
 */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { USUAL_TRIALS } from '#shared/odds/odds.ts';
import { SEED } from '../../state/odds.svelte.ts';
import type { OddsAnswer, OddsQuestion } from '../../work/odds-messages.ts';

/** Of a build as it is planned from, and of a day. */
interface Known {
  readonly day: string;
  /** An instant; null: in more than one of five trials there is no finish. */
  readonly p80: string | null;
}

/** Edits come in handfuls. */
const AFTER_MS = 700;

export class FourInFive {
  #known = $state.raw<ReadonlyMap<BuildFile, Known>>(new Map());
  running = $state(false);
  broken = $state(false);

  /**
   * To be an effect of whoever shows them. @param files as dates are computed from them, the ones shown.
   * @param day of now, an instant
   * @returns what ends it
   */
  follow(files: readonly BuildFile[], day: string, now: string): () => void {
    // Only what is shown is remembered: a build is a large thing.
    const kept = new Map(
      [...this.#known].filter(([file, { day: of }]) => files.includes(file) && of === day),
    );
    const missing = files.find((file) => !kept.has(file));
    if (missing === undefined) return () => {};
    let worker: Worker | null = null;
    const wait = setTimeout(() => {
      this.running = true;
      this.broken = false;
      worker = new Worker(new URL('../../work/odds.worker.ts', import.meta.url), { type: 'module' });
      worker.addEventListener('message', ({ data }: MessageEvent<OddsAnswer>) => {
        if (data.kind === 'progress') return;
        worker?.terminate();
        this.running = false;
        this.#known = kept.set(missing, { day, p80: data.odds.finish.p80 });
      });
      worker.addEventListener('error', () => {
        worker?.terminate();
        this.running = false;
        this.broken = true;
      });
      const question: OddsQuestion = { file: missing, asked: { now, seed: SEED, trials: USUAL_TRIALS } };
      worker.postMessage(question, []);
    }, AFTER_MS);
    return () => {
      clearTimeout(wait);
      worker?.terminate();
      this.running = false;
    };
  }

  /** An instant; null where it is not known, or not yet. */
  of(file: BuildFile): string | null {
    return this.#known.get(file)?.p80 ?? null;
  }
}
