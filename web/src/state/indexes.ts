/** The records of a build by their ids. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { idOf, NOUN_NAMES, type AnyRecord, type NounName, type RecordOf } from '#shared/contract/nouns.ts';

/** Records by id, for every noun. */
export type Indexes = { readonly [N in NounName]: ReadonlyMap<string, RecordOf<N>> };

/** Lists that did not change keep their index. */
const indexed = new WeakMap<readonly AnyRecord[], ReadonlyMap<string, AnyRecord>>();

export function indexesOf(file: BuildFile): Indexes {
  const out: Partial<Record<NounName, ReadonlyMap<string, AnyRecord>>> = {};
  for (const noun of NOUN_NAMES) {
    const list: readonly AnyRecord[] = file[noun];
    let index = indexed.get(list);
    if (index === undefined)
      indexed.set(list, (index = new Map(list.map((record) => [idOf(noun, record) ?? '', record]))));
    out[noun] = index;
  }
  return out as Indexes;
}
