/** A table with one record a row: how its rows become records, new ones from the defaults of their schema. */
import type { BuildFile } from '../../contract/build-file.ts';
import { withDefaults } from '../../contract/defaults.ts';
import type { SchemaNode } from '../../contract/faults.ts';
import { idOf, NOUNS, type AnyRecord, type NounName } from '../../contract/nouns.ts';
import { minorDigits } from '../../money/currency.ts';
import type { Context } from '../cells.ts';
import { withValue, type Assembled, type Draft, type ReadRow, type RowFault } from '../table.ts';

/** @param finish what a record still lacks once its cells are in: its key, what follows from another field */
export function assembleRecords<R extends AnyRecord>(
  noun: NounName,
  rows: readonly ReadRow[],
  finish: (record: R) => R,
): Assembled {
  const drafts: Draft[] = [];
  const faults: { row: ReadRow; fault: RowFault }[] = [];
  const seen = new Map<string, number>();
  for (const row of rows) {
    const base = (row.found ?? withDefaults(NOUNS[noun].schema as unknown as SchemaNode, {})) as R;
    const value = finish([...row.values].reduce((record, [at, one]) => withValue(record, at, one), base));
    const id = idOf(noun, value) ?? '';
    const first = seen.get(id);
    if (first === undefined) {
      seen.set(id, row.row);
      drafts.push({ noun, id, value, from: (pointer) => ({ row, at: pointer }) });
    } else
      faults.push({
        row,
        fault: {
          column: null,
          detail: `is about the same ${NOUNS[noun].one} as row ${first}: leave one out`,
        },
      });
  }
  return { drafts, faults };
}

export function buildContext(_cells: unknown, file: BuildFile): Context {
  return { file, digits: minorDigits(file.build.currency) };
}

const byKeys = new WeakMap<readonly object[], ReadonlyMap<string | null, object>>();

/** The record of a list with that key. */
export function withKey<R extends { readonly key: string | null }>(
  list: readonly R[],
  key: string | undefined,
): R | null {
  if (key === undefined) return null;
  let index = byKeys.get(list);
  if (index === undefined) byKeys.set(list, (index = new Map(list.map((one) => [one.key, one]))));
  return (index.get(key.trim()) as R | undefined) ?? null;
}
