/** What a page asks of the levers, and what it is told. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Finish, Lever, LeversOptions } from '#shared/levers/levers.ts';

export interface Question {
  readonly file: BuildFile;
  readonly options: Pick<LeversOptions, 'now' | 'trials' | 'seed' | 'elsewhere'>;
}

export type Answer =
  | { readonly kind: 'progress'; readonly done: number; readonly of: number }
  | { readonly kind: 'row'; readonly row: Lever; readonly before: Finish }
  | { readonly kind: 'done'; readonly before: Finish };
