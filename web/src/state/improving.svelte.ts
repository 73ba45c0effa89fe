/**
 * A search for better dates from start to finish: asked for, watched, ended early or not, then kept or dropped. Nothing is
 * stored before the builder says so; what is kept is the order of the tasks.
 */
import type { Improvement } from '#shared/search/dates/improve.ts';
import type { Answer, Question } from '../work/improve-messages.ts';
import type { Build } from './build.svelte.ts';

/** Orders to try for a build of few tasks, and at least for one of many: ten seconds or so on a laptop. */
const MOST = 4000;
const LEAST = 200;
const TASKS_TIMES_ORDERS = 400_000;

export type Stage = 'idle' | 'looking' | 'found' | 'nothing' | 'broken';

export class Improving {
  readonly #build: Build;
  #worker: Worker | null = null;
  #seed = 0;
  stage = $state<Stage>('idle');
  /** Orders tried, and how many there are to be. */
  done = $state(0);
  total = $state(0);
  best = $state.raw<Improvement | null>(null);
  /** Ended before all were tried. */
  wasStopped = $state(false);

  constructor(build: Build) {
    this.#build = build;
  }

  start(): void {
    this.#end();
    const live = this.#build.file.tasks.filter(({ state }) => state !== 'finished').length;
    const still = Math.min(MOST, Math.max(LEAST, Math.round(TASKS_TIMES_ORDERS / Math.max(1, live))));
    const counts = { still, free: Math.round(still / 2) };
    this.stage = 'looking';
    this.done = 0;
    this.total = counts.still + counts.free;
    this.best = null;
    this.wasStopped = false;
    // Another look goes another way.
    this.#seed++;
    const worker = new Worker(new URL('../work/improve.worker.ts', import.meta.url), { type: 'module' });
    this.#worker = worker;
    worker.addEventListener('message', ({ data }: MessageEvent<Answer>) => this.#hear(data));
    worker.addEventListener('error', () => this.#break());
    const question: Question = {
      file: this.#build.planned,
      search: { now: this.#build.now, seed: this.#seed, counts },
    };
    worker.postMessage(question, []);
  }

  /** The best so far is the result. */
  stop(): void {
    if (this.stage !== 'looking') return;
    this.wasStopped = true;
    this.#settle();
  }

  /** Kept or dropped. */
  close(): void {
    this.#end();
    this.stage = 'idle';
    this.best = null;
  }

  #hear(answer: Answer): void {
    if (answer.kind === 'better') this.best = answer.found;
    else this.done = answer.done;
    if (answer.kind === 'done') this.#settle();
  }

  #settle(): void {
    this.#end();
    this.stage = this.best === null ? 'nothing' : 'found';
  }

  #break(): void {
    this.#end();
    this.stage = this.best === null ? 'broken' : 'found';
  }

  #end(): void {
    this.#worker?.terminate();
    this.#worker = null;
  }
}
