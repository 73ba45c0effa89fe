/**
 * Whether a change whose answer was lost was stored all the same: the history tells. Without it a second try would be
 * refused as overtaken, though nobody but itself overtook it.
 */
import type { Edit, HistoryEntry } from '#shared/contract/changes.ts';

interface Sent {
  readonly label: string;
  readonly edits: readonly Edit[];
}

/**
 * The action that stored it, or null. @param entries newest first
 * @param since the revision that was known when it was first sent
 */
export function storedAs(
  { label, edits }: Sent,
  since: number,
  entries: readonly HistoryEntry[],
): HistoryEntry | null {
  const wanted = textOf(edits.map(({ noun, id, value }) => ({ noun, id, value })));
  const isIt = ({ kind, revision, label: said, rows }: HistoryEntry) =>
    kind === 'do' &&
    revision > since &&
    said === label &&
    textOf(rows.map(({ noun, id, after }) => ({ noun, id, value: after }))) === wanted;
  return entries.find(isIt) ?? null;
}

/**
 * The version an action left a row with. @param now the version of the row today
 * @param until the revision that today's version is of
 */
export function versionLeft(
  action: HistoryEntry,
  { noun, id }: Pick<Edit, 'noun' | 'id'>,
  now: number,
  until: number,
  entries: readonly HistoryEntry[],
): number {
  const later = entries.filter(
    ({ revision, rows }) =>
      revision > action.revision &&
      revision <= until &&
      rows.some((row) => row.noun === noun && row.id === id),
  );
  return now - later.length;
}

/** The same for equal values, whatever the order of their fields. */
function textOf(value: unknown): string {
  return JSON.stringify(value, (_name, one: unknown) =>
    typeof one === 'object' && one !== null && !Array.isArray(one)
      ? Object.fromEntries(Object.entries(one).toSorted(([a], [b]) => (a < b ? -1 : 1)))
      : one,
  );
}
