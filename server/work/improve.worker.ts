/** The search for better dates in a thread of its own, so that the server answers meanwhile. */
import { parentPort, workerData } from 'node:worker_threads';
import { improve, type Improvement, type Improving } from '#shared/search/dates/improve.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';

export interface Task {
  readonly file: BuildFile;
  readonly search: Pick<Improving, 'now' | 'seed' | 'counts'>;
}

export type Told =
  | { readonly kind: 'progress'; readonly done: number }
  | { readonly kind: 'better'; readonly found: Improvement }
  | { readonly kind: 'done'; readonly done: number };

const EVERY_MS = 100;

const { file, search } = workerData as Task;
const tell = (told: Told) => parentPort!.postMessage(told, []);
let last = performance.now();
const { counts } = improve(file, {
  ...search,
  stop: (done) => {
    if (performance.now() - last >= EVERY_MS) {
      last = performance.now();
      tell({ kind: 'progress', done });
    }
    return false;
  },
  onBetter: (found) => tell({ kind: 'better', found }),
});
tell({ kind: 'done', done: counts.still + counts.free });
