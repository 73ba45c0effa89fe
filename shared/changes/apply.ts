/** Rows laid over a build: how a client keeps its snapshot, and how an edit is tried before it is sent. */
import type { BuildFile } from '../contract/build-file.ts';
import type { HeadRow, Row } from '../contract/changes.ts';
import { idOf, type AnyRecord, type NounName } from '../contract/nouns.ts';

/** What is laid over: an edit still to be sent, or a row that came back from the server. */
export type Laid = Pick<Row, 'noun' | 'id' | 'value' | 'at'>;

/** The build with those rows set or removed; lists without a row among them stay the same objects. */
export function withRows(file: BuildFile, rows: readonly Laid[]): BuildFile {
  const next: Record<string, unknown> = { ...file };
  const byNoun = new Map<NounName, Map<string, Laid>>();
  for (const row of rows) {
    const { noun, id, value } = row;
    if (noun === 'build') {
      const { order, ...build } = value as unknown as HeadRow;
      Object.assign(next, { build, order });
      continue;
    }
    const changed = byNoun.get(noun) ?? new Map<string, Laid>();
    byNoun.set(noun, changed.set(id, row));
  }
  for (const [noun, changed] of byNoun) next[noun] = withChanged(noun, file[noun], changed);
  return next as BuildFile;
}

/** Changed records keep their place in the list, those with an `at` go there, new ones come last. */
function withChanged(
  noun: NounName,
  list: readonly AnyRecord[],
  changed: ReadonlyMap<string, Laid>,
): unknown[] {
  const left = new Map(changed);
  const out: unknown[] = [];
  for (const record of list) {
    const id = idOf(noun, record);
    const row = id === null ? undefined : left.get(id);
    if (row === undefined) out.push(record);
    else if (row.at === undefined) {
      if (row.value !== null) out.push(row.value);
      left.delete(row.id);
    }
  }
  const placed = [...left.values()].filter(({ value }) => value !== null);
  // From the front, so that each finds all those before it in place.
  for (const { value, at = Infinity } of placed.toSorted((a, b) => (a.at ?? Infinity) - (b.at ?? Infinity)))
    out.splice(Math.min(at, out.length), 0, value);
  return out;
}
