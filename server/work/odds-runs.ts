/**
 * Odds that are worked out or have been: one thread each, few at once, the last of each build remembered with the
 * revision they are of. Nothing of them is stored.
 */
import { Worker } from 'node:worker_threads';
import type { Odds } from '#shared/contract/plan-odds.ts';
import { PlanError } from '#shared/errors.ts';
import type { OddsTask, OddsTold } from './odds.worker.ts';
import type { SearchState } from './searches.ts';

/** Threads at once on this server: it has to answer as well. */
const MOST_RUNNING = 2;

export interface OddsStanding {
  readonly state: SearchState;
  readonly seed: number;
  /** Trials made, and how many there are to be. */
  readonly done: number;
  readonly total: number;
  /** Revision of the build they are of; 0 where none were asked for. */
  readonly revision: number;
  /** The day they were asked for. */
  readonly day: string;
  readonly odds: Odds | null;
}

interface Run extends OddsStanding {
  state: SearchState;
  done: number;
  odds: Odds | null;
  readonly worker: Worker;
}

export class OddsRuns {
  readonly #runs = new Map<string, Run>();

  /** @throws PlanError `busy` while those of the build are worked out, or too many of others are */
  start(build: string, revision: number, task: OddsTask): OddsStanding {
    const running = [...this.#runs].filter(([, { state }]) => state === 'running');
    if (running.some(([id]) => id === build))
      throw new PlanError('The odds of this build are being worked out: stop that first.', { code: 'busy' });
    if (running.length >= MOST_RUNNING)
      throw new PlanError(`The odds of ${running.length} builds are being worked out: try again later.`, {
        code: 'busy',
      });
    const { seed, trials } = task.asked;
    const worker = new Worker(new URL('./odds.worker.mjs', import.meta.url), { workerData: task });
    const day = task.asked.now.slice(0, 10);
    const run: Run = { state: 'running', seed, done: 0, total: trials, revision, day, odds: null, worker };
    this.#runs.set(build, run);
    worker.on('message', (told: OddsTold) => hear(run, told));
    worker.on('error', () => end(run, 'failed'));
    worker.on('exit', () => end(run, 'failed'));
    return standingOf(run);
  }

  /** The last ones of a build; idle where none were asked for. */
  of(build: string): OddsStanding {
    const run = this.#runs.get(build);
    return run === undefined ? IDLE : standingOf(run);
  }

  async stop(build: string): Promise<OddsStanding> {
    const run = this.#runs.get(build);
    if (run === undefined) return IDLE;
    end(run, 'stopped');
    await run.worker.terminate();
    return standingOf(run);
  }

  async close(): Promise<void> {
    await Promise.all([...this.#runs.keys()].map((build) => this.stop(build)));
  }
}

const IDLE: OddsStanding = { state: 'idle', seed: 0, done: 0, total: 0, revision: 0, day: '', odds: null };

function hear(run: Run, told: OddsTold): void {
  if (told.kind === 'progress') {
    run.done = told.done;
    return;
  }
  run.odds = told.odds;
  run.done = told.odds.trials;
  end(run, 'done');
}

/** The first word on how it ended stands. */
function end(run: Run, state: SearchState): void {
  if (run.state === 'running') run.state = state;
}

function standingOf({ state, seed, done, total, revision, day, odds }: Run): OddsStanding {
  return { state, seed, done, total, revision, day, odds };
}
