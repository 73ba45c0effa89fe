/**
 * A lever: one real single change of a build that could bring its finish forward, as the build it leads to and the
 * edits that lead there. Nothing here is applied; what it wins is computed elsewhere.
 */
import { editsBetween } from '../changes/diff.ts';
import type { BuildFile } from '../contract/build-file.ts';
import type { Edit } from '../contract/changes.ts';

export const CHANGE_KINDS = [
  'evening',
  'helper',
  'person',
  'leave-out',
  'order',
  'sooner',
  'swap',
  'free-date',
] as const;
export type ChangeKind = (typeof CHANGE_KINDS)[number];

/** What it asks of people, in person-minutes; below zero: it spares them. Money is read from the plans, not from here. */
export interface Asks {
  readonly weekly: number;
  readonly once: number;
}

export const ASKS_NOTHING: Asks = { weekly: 0, once: 0 };

export interface Change {
  /** The same change of the same build has the same key. */
  readonly key: string;
  readonly kind: ChangeKind;
  /** What is done, in words that can stand in the history. */
  readonly label: string;
  /** Rows to lay over the build; versions are filled in by whoever sends them. */
  readonly edits: Edit[];
  /** The build with the change. */
  readonly file: BuildFile;
  readonly asks: Asks;
}

const UNVERSIONED = { of: () => null };

/** The change that leads from one build to another. */
export function changeBetween(
  before: BuildFile,
  after: BuildFile,
  { key, kind, label, asks = ASKS_NOTHING }: Pick<Change, 'key' | 'kind' | 'label'> & { asks?: Asks },
): Change {
  return {
    key,
    kind,
    label: label.slice(0, 200),
    edits: editsBetween(before, after, UNVERSIONED),
    file: after,
    asks,
  };
}
