/** The slip of each build, found in a thread and kept by the revision it is of: who asks twice waits once. */
import { Worker } from 'node:worker_threads';
import type { SlipPoint } from '#shared/baselines/slip.ts';
import { PlanError } from '#shared/errors.ts';
import type { SlipTask } from './slip.worker.ts';

/** Threads at once on this server: it has to answer as well. */
const MOST_RUNNING = 2;
/** Answers kept. */
const KEPT = 8;

export class Slips {
  readonly #kept = new Map<string, Promise<readonly SlipPoint[]>>();
  readonly #running = new Set<Worker>();
  #closing = false;

  /** @param stamp tells the build, its revision and the day apart. @throws PlanError `busy` */
  get(stamp: string, task: () => SlipTask): Promise<readonly SlipPoint[]> {
    const known = this.#kept.get(stamp);
    if (known !== undefined) return known;
    if (this.#running.size >= MOST_RUNNING)
      throw new PlanError('The slip of other builds is being worked out: try again in a moment.', {
        code: 'busy',
      });
    const points = this.#run(task());
    this.#kept.set(stamp, points);
    // What failed is tried anew by whoever asks next.
    points.catch(() => this.#kept.delete(stamp));
    if (this.#kept.size > KEPT) this.#kept.delete(this.#kept.keys().next().value!);
    return points;
  }

  async close(): Promise<void> {
    this.#closing = true;
    await Promise.all([...this.#running].map((worker) => worker.terminate()));
  }

  #run(task: SlipTask): Promise<readonly SlipPoint[]> {
    const worker = new Worker(new URL('./slip.worker.mjs', import.meta.url), { workerData: task });
    this.#running.add(worker);
    return new Promise((resolve, reject) => {
      worker.once('message', (points: readonly SlipPoint[]) => resolve(points));
      worker.once('error', reject);
      worker.once('exit', () => {
        this.#running.delete(worker);
        reject(
          this.#closing
            ? new PlanError('This server is stopping: ask again when it is back.', { code: 'busy' })
            : new Error('The thread that works out the slip ended before it was done.'),
        );
      });
    });
  }
}
