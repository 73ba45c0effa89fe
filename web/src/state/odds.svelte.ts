/**
 * The odds of the build at hand: worked out beside the page, kept with the state of the build they are of, and old once it
 * is another. One for each build, so that the sheet of the odds and the Schedule speak of the same figures.
 */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Odds } from '#shared/contract/plan-odds.ts';
import { USUAL_TRIALS } from '#shared/odds/odds.ts';
import type { OddsAnswer, OddsQuestion } from '../work/odds-messages.ts';
import type { Build } from './build.svelte.ts';

/** The same for everybody, so that two devices see the same figures. */
export const SEED = 1;
/** After the last edit, before old odds are renewed by themselves. */
const IDLE_MS = 3000;

export type OddsStage = 'idle' | 'running' | 'broken';

export class BuildOdds {
  readonly #build: Build;
  #worker: Worker | null = null;
  #of = $state.raw<{ readonly file: BuildFile; readonly day: string } | null>(null);
  stage = $state<OddsStage>('idle');
  /** Trials made, and how many there are to be. */
  done = $state(0);
  total = $state(USUAL_TRIALS);
  known = $state.raw<Odds | null>(null);
  /** Ended by the builder: nothing starts by itself any more until asked for. */
  wasStopped = $state(false);
  /** The build has changed since, or another day has come. */
  readonly isOld = $derived.by(
    () => this.#of !== null && (this.#of.file !== this.#build.planned || this.#of.day !== this.#day),
  );

  constructor(build: Build) {
    this.#build = build;
  }

  get #day(): string {
    return this.#build.plan.asOf.slice(0, 10);
  }

  start(trials: number): void {
    this.#end();
    this.stage = 'running';
    this.wasStopped = false;
    this.done = 0;
    this.total = trials;
    const of = { file: this.#build.planned, day: this.#day };
    const worker = new Worker(new URL('../work/odds.worker.ts', import.meta.url), { type: 'module' });
    this.#worker = worker;
    worker.addEventListener('message', ({ data }: MessageEvent<OddsAnswer>) => {
      if (data.kind === 'progress') {
        this.done = data.done;
        return;
      }
      this.known = data.odds;
      this.#of = of;
      this.#end();
    });
    worker.addEventListener('error', () => {
      this.#end();
      this.stage = 'broken';
    });
    const question: OddsQuestion = {
      file: of.file,
      asked: { now: this.#build.now, seed: SEED, trials },
    };
    worker.postMessage(question, []);
  }

  /** What was known before stands. */
  stop(): void {
    this.#end();
    this.wasStopped = true;
  }

  /** To be an effect of whoever shows them: old odds are renewed once nothing was changed for a while. */
  renew(): (() => void) | undefined {
    if (this.known === null || !this.isOld || this.stage !== 'idle' || this.wasStopped) return undefined;
    const { trials } = this.known;
    const waiting = setTimeout(() => this.start(Math.max(1, trials)), IDLE_MS);
    return () => clearTimeout(waiting);
  }

  #end(): void {
    this.#worker?.terminate();
    this.#worker = null;
    this.stage = 'idle';
  }
}

const known = new WeakMap<Build, BuildOdds>();

export function oddsOfBuild(build: Build): BuildOdds {
  let odds = known.get(build);
  if (odds === undefined) {
    odds = new BuildOdds(build);
    known.set(build, odds);
  }
  return odds;
}
