/** The odds in a thread of its own, so that the server answers meanwhile. */
import { parentPort, workerData } from 'node:worker_threads';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Odds } from '#shared/contract/plan-odds.ts';
import { oddsOf, type OddsOptions } from '#shared/odds/odds.ts';

export interface OddsTask {
  readonly file: BuildFile;
  readonly asked: Omit<OddsOptions, 'stop' | 'onProgress'>;
}

export type OddsTold =
  { readonly kind: 'progress'; readonly done: number } | { readonly kind: 'done'; readonly odds: Odds };

const EVERY_MS = 100;

const { file, asked } = workerData as OddsTask;
const tell = (told: OddsTold) => parentPort!.postMessage(told, []);
let last = performance.now();
const odds = oddsOf(file, {
  ...asked,
  onProgress: (done) => {
    if (performance.now() - last < EVERY_MS) return;
    last = performance.now();
    tell({ kind: 'progress', done });
  },
});
tell({ kind: 'done', odds });
