/**
 * Searches for better dates that run or have run: one thread each, few at once, the last of each build remembered. They
 * only find; keeping an order is a change like any other.
 */
import { Worker } from 'node:worker_threads';
import type { Improvement } from '#shared/search/dates/improve.ts';
import { PlanError } from '#shared/errors.ts';
import type { Task, Told } from './improve.worker.ts';

/** Threads at once on this server: it has to answer as well. */
const MOST_RUNNING = 2;

export type SearchState = 'idle' | 'running' | 'done' | 'stopped' | 'failed';

export interface SearchStanding {
  readonly state: SearchState;
  readonly seed: number;
  /** Orders tried, and how many there are to be. */
  readonly done: number;
  readonly total: number;
  readonly best: Improvement | null;
}

interface Search extends SearchStanding {
  state: SearchState;
  done: number;
  best: Improvement | null;
  readonly worker: Worker;
}

export class Searches {
  readonly #searches = new Map<string, Search>();

  /** @throws PlanError `busy` while one of the build runs, or too many of others do */
  start(build: string, task: Task): SearchStanding {
    const running = [...this.#searches].filter(([, { state }]) => state === 'running');
    if (running.some(([id]) => id === build))
      throw new PlanError('A search for better dates of this build runs already: stop it first.', {
        code: 'busy',
      });
    if (running.length >= MOST_RUNNING)
      throw new PlanError(`${running.length} searches run already: try again when one has ended.`, {
        code: 'busy',
      });
    const { counts, seed } = task.search;
    const worker = new Worker(new URL('./improve.worker.mjs', import.meta.url), { workerData: task });
    const search: Search = {
      state: 'running',
      seed,
      done: 0,
      total: counts.still + counts.free,
      best: null,
      worker,
    };
    this.#searches.set(build, search);
    worker.on('message', (told: Told) => hear(search, told));
    worker.on('error', () => end(search, 'failed'));
    worker.on('exit', () => end(search, 'failed'));
    return standingOf(search);
  }

  /** The last search of a build; idle where none was asked for. */
  of(build: string): SearchStanding {
    const search = this.#searches.get(build);
    return search === undefined ? IDLE : standingOf(search);
  }

  /** Ends it; the best so far stands. */
  async stop(build: string): Promise<SearchStanding> {
    const search = this.#searches.get(build);
    if (search === undefined) return IDLE;
    end(search, 'stopped');
    await search.worker.terminate();
    return standingOf(search);
  }

  async close(): Promise<void> {
    await Promise.all([...this.#searches.keys()].map((build) => this.stop(build)));
  }
}

const IDLE: SearchStanding = { state: 'idle', seed: 0, done: 0, total: 0, best: null };

function hear(search: Search, told: Told): void {
  if (told.kind === 'better') search.best = told.found;
  else search.done = told.done;
  if (told.kind === 'done') end(search, 'done');
}

/** The first word on how it ended stands. */
function end(search: Search, state: SearchState): void {
  if (search.state === 'running') search.state = state;
}

function standingOf({ state, seed, done, total, best }: Search): SearchStanding {
  return { state, seed, done, total, best };
}
