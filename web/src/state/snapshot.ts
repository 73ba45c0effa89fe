/** A build as the server gives it: the file, and the version of every row. */
import type { BuildFile } from '#shared/contract/build-file.ts';

export interface Snapshot {
  readonly id: string;
  readonly revision: number;
  readonly file: BuildFile;
  /** By noun and id. */
  readonly versions: Record<string, Record<string, number>>;
  readonly canUndo: string | null;
  readonly canRedo: string | null;
}

export function pathOf(build: string): string {
  return `/api/builds/${encodeURIComponent(build)}`;
}

/** The name of a row among all. */
export function rowName(noun: string, id: string): string {
  return `${noun}/${id}`;
}

export function versionsOf({ versions }: Snapshot): Map<string, number> {
  return new Map(
    Object.entries(versions).flatMap(([noun, rows]) =>
      Object.entries(rows).map(([id, version]): [string, number] => [rowName(noun, id), version]),
    ),
  );
}
