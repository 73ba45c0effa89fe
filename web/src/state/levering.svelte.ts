/**
 * "What would bring it forward most?" from start to finish: asked for, watched, ended early or not. What was found stays
 * while the build is looked at, and says when the build has changed since.
 */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { byDaysWon, USUAL_LEVER_TRIALS, type Finish, type Lever } from '#shared/levers/levers.ts';
import type { Answer, Question } from '../work/levers-messages.ts';
import type { Build } from './build.svelte.ts';

/** The same build gives the same answer. */
const SEED = 1;

export type LeverStage = 'idle' | 'trying' | 'done' | 'stopped' | 'broken';

const kept = new WeakMap<Build, Levering>();

/** The levers of a build: found once, kept while it is open. */
export function leveringOf(build: Build): Levering {
  const known = kept.get(build) ?? new Levering(build);
  kept.set(build, known);
  return known;
}

export class Levering {
  readonly #build: Build;
  #worker: Worker | null = null;
  /** What they were computed from. */
  #planned = $state.raw<BuildFile | null>(null);
  stage = $state<LeverStage>('idle');
  /** Changes tried, and how many there are to try. */
  done = $state(0);
  of = $state(0);
  before = $state.raw<Finish | null>(null);
  /** The most won first. */
  rows = $state.raw<readonly Lever[]>([]);
  readonly trials = USUAL_LEVER_TRIALS;
  /** The build was changed since: what is shown is of another plan. */
  readonly isStale = $derived.by(() => this.#planned !== null && this.#planned !== this.#build.planned);

  constructor(build: Build) {
    this.#build = build;
  }

  start(): void {
    this.#end();
    this.#planned = this.#build.planned;
    this.stage = 'trying';
    this.done = 0;
    this.of = 0;
    this.before = null;
    this.rows = [];
    const worker = new Worker(new URL('../work/levers.worker.ts', import.meta.url), { type: 'module' });
    this.#worker = worker;
    worker.addEventListener('message', ({ data }: MessageEvent<Answer>) => this.#hear(data));
    worker.addEventListener('error', () => this.#settle('broken'));
    const question: Question = {
      file: this.#build.file,
      options: {
        now: this.#build.now,
        trials: this.trials,
        seed: SEED,
        elsewhere: this.#build.others.busy,
      },
    };
    worker.postMessage(question, []);
  }

  /** What has been tried so far stands. */
  stop(): void {
    if (this.stage === 'trying') this.#settle('stopped');
  }

  #hear(answer: Answer): void {
    if (answer.kind === 'progress') {
      this.done = answer.done;
      this.of = answer.of;
    } else {
      this.before = answer.before;
      if (answer.kind === 'row') this.rows = [...this.rows, answer.row].toSorted(byDaysWon);
      else this.#settle('done');
    }
  }

  #settle(stage: LeverStage): void {
    this.#end();
    this.stage = stage;
  }

  #end(): void {
    this.#worker?.terminate();
    this.#worker = null;
  }
}
