/** The finish as of each day a build was changed, in a thread of its own: a plan a point takes its time. */
import { parentPort, workerData } from 'node:worker_threads';
import { slipOf, type PastDay, type SlipAsked } from '#shared/baselines/slip.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { asOfToday } from '../store/as-of-today.ts';
import type { TextDay } from '../store/past.ts';

export interface SlipTask {
  readonly file: BuildFile;
  readonly days: readonly TextDay[];
  readonly asked: SlipAsked;
}

const { file, days, asked } = workerData as SlipTask;
const past = days.map(({ day, changes, rows }): PastDay => ({
  day,
  changes,
  before: rows.map(({ noun, id, before }) => ({
    noun: noun as PastDay['before'][number]['noun'],
    id,
    value: before === null ? null : asOfToday(noun as never, JSON.parse(before) as object as never),
  })),
}));
parentPort!.postMessage(slipOf(file, past, asked), []);
