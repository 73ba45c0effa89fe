/** What points at a record: found by trying the build without it, so that no second list of references is kept. */
import { idOf, NOUNS, NOUN_NAMES, type AnyRecord, type NounName } from '#shared/contract/nouns.ts';
import { pointerSteps } from '#shared/contract/pointer.ts';
import { count, list } from '../drawing/words.ts';
import type { Build } from './build.svelte.ts';
import { faultsOfEdits } from './check.ts';

export interface Use {
  readonly noun: NounName;
  readonly id: string;
  readonly record: AnyRecord;
}

/** The records that would point at nothing were it removed, each once. */
export function usesOf(build: Build, noun: NounName, id: string): Use[] {
  const edits = [{ noun, id, value: null }];
  const after = build.tried(edits);
  const found = new Map<string, Use>();
  for (const { pointer } of faultsOfEdits(edits, () => after)) {
    const [listName = '', index = ''] = pointerSteps(pointer);
    if (!(listName in NOUNS)) continue;
    const of = listName as NounName;
    const record = after[of][Number(index)];
    const key = record === undefined ? null : idOf(of, record);
    if (record !== undefined && key !== null) found.set(`${of}/${key}`, { noun: of, id: key, record });
  }
  return [...found.values()];
}

const MANY: Partial<Record<NounName, string>> = { people: 'people', hours: 'entries of hours' };

/** "12 tasks and 3 purchases". */
export function usesWords(uses: readonly Use[]): string {
  return list(
    NOUN_NAMES.flatMap((noun) => {
      const number = uses.filter((use) => use.noun === noun).length;
      return number === 0 ? [] : [count(number, NOUNS[noun].one, MANY[noun] ?? `${NOUNS[noun].one}s`)];
    }),
  );
}
