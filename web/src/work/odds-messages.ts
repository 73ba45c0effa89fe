/** What a page asks of the odds, and what it is told. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Odds } from '#shared/contract/plan-odds.ts';
import type { OddsOptions } from '#shared/odds/odds.ts';

export interface OddsQuestion {
  readonly file: BuildFile;
  readonly asked: Pick<OddsOptions, 'now' | 'seed' | 'trials'>;
}

export type OddsAnswer =
  { readonly kind: 'progress'; readonly done: number } | { readonly kind: 'done'; readonly odds: Odds };
