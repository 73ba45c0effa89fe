/** The edits that lead from one build to another: how a pure change (a repair, a what-if) becomes rows to store. */
import type { BuildFile } from '../contract/build-file.ts';
import type { Edit } from '../contract/changes.ts';
import { idOf, NOUN_NAMES, type AnyRecord, type NounName } from '../contract/nouns.ts';

/** Row versions by noun and id; the head's under `build`. */
export interface Versions {
  readonly of: (noun: Edit['noun'], id: string) => number | null;
}

/** The id of the head among the rows. */
export const HEAD_ID = 'build';

/**
 * Rows removed or changed in `before`, rows added in `after`; equal records give no edit. New records keep their place
 * in the list; that others merely changed places is not seen.
 */
export function editsBetween(before: BuildFile, after: BuildFile, versions: Versions): Edit[] {
  const edits: Edit[] = [];
  const head = { ...after.build, order: after.order };
  if (!same({ ...before.build, order: before.order }, head))
    edits.push({ noun: 'build', id: HEAD_ID, version: versions.of('build', HEAD_ID), value: head });
  for (const noun of NOUN_NAMES) edits.push(...editsOf(noun, before[noun], after[noun], versions));
  return edits;
}

function editsOf(
  noun: NounName,
  before: readonly AnyRecord[],
  after: readonly AnyRecord[],
  versions: Versions,
): Edit[] {
  if (before === after) return [];
  const old = new Map(before.map((record) => [idOf(noun, record), record]));
  const now = new Set(after.map((record) => idOf(noun, record)));
  const edits: Edit[] = [];
  for (const id of old.keys())
    if (id !== null && !now.has(id)) edits.push({ noun, id, version: versions.of(noun, id), value: null });
  // Behind the last record that was there before, new ones come last by themselves.
  const end = after.findLastIndex((record) => old.has(idOf(noun, record)));
  after.forEach((value, at) => {
    const id = idOf(noun, value);
    const was = old.get(id);
    if (id === null || was === value || (was !== undefined && same(was, value))) return;
    if (was !== undefined) edits.push({ noun, id, version: versions.of(noun, id), value });
    else edits.push({ noun, id, version: null, value, ...(at < end ? { at } : {}) });
  });
  return edits;
}

function same(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
