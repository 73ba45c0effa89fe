/** The levers beside the first finish date, beside the page so that it stays at hand. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Elsewhere } from '#shared/contract/elsewhere.ts';
import { firstLevers, type FirstLever } from '#shared/levers/first-levers.ts';

export interface LeverQuestion {
  readonly file: BuildFile;
  readonly now: string;
  readonly elsewhere: Elsewhere;
}

export type LeverAnswer = readonly FirstLever[];

addEventListener('message', ({ data: { file, now, elsewhere } }: MessageEvent<LeverQuestion>) => {
  const answer: LeverAnswer = firstLevers(file, now, elsewhere);
  postMessage(answer);
});
