/** A build as the server gives it: the file, and the version of every row. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Changed, ChangedNoun } from '#shared/contract/changes.ts';
import type { Elsewhere } from '#shared/contract/elsewhere.ts';

export interface Snapshot {
  readonly id: string;
  readonly revision: number;
  readonly file: BuildFile;
  /** By noun and id. */
  readonly versions: Record<string, Record<string, number>>;
  readonly canUndo: string | null;
  readonly canRedo: string | null;
  /** Where people who work on builds that come first are planned. */
  readonly elsewhere: Elsewhere;
}

export function pathOf(build: string): string {
  return `/api/builds/${encodeURIComponent(build)}`;
}

/** The version of every row, as far as the server has told. */
export class Versions {
  readonly #of: Map<string, number>;

  constructor({ versions }: Pick<Snapshot, 'versions'>) {
    this.#of = new Map(
      Object.entries(versions).flatMap(([noun, rows]) =>
        Object.entries(rows).map(([id, version]): [string, number] => [`${noun}/${id}`, version]),
      ),
    );
  }

  of(noun: ChangedNoun, id: string): number | null {
    return this.#of.get(`${noun}/${id}`) ?? null;
  }

  take(rows: Changed['rows']): void {
    for (const { noun, id, version } of rows) {
      if (version === null) this.#of.delete(`${noun}/${id}`);
      else this.#of.set(`${noun}/${id}`, version);
    }
  }
}
