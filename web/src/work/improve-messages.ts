/** What a page asks of the search for better dates, and what it is told. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Improvement, Improving } from '#shared/search/dates/improve.ts';

export interface Question {
  readonly file: BuildFile;
  readonly search: Pick<Improving, 'now' | 'seed' | 'counts'>;
}

export type Answer =
  | { readonly kind: 'progress'; readonly done: number }
  | { readonly kind: 'better'; readonly found: Improvement }
  | { readonly kind: 'done'; readonly done: number };
