/** The rows that make a what-if the plan: one change, as small as it can be. */
import { editsBetween, type Versions } from '../changes/diff.ts';
import type { BuildFile } from '../contract/build-file.ts';
import type { Edit } from '../contract/changes.ts';
import { idOf, type NounName } from '../contract/nouns.ts';
import type { WhatIfStep } from './what-if.ts';

/** @param tried the plan with the what-if laid over it, by those steps */
export function editsToKeep(
  plan: BuildFile,
  tried: BuildFile,
  steps: readonly WhatIfStep[],
  versions: Versions,
): Edit[] {
  const edits = editsBetween(plan, tried, versions);
  const moved = movedNouns(steps).filter((noun) => !sameOrder(noun, plan, tried, edits));
  if (moved.length === 0) return edits;
  // Somebody sorted the list: each record that is left goes to its place, from the front.
  const rest = edits.filter(({ noun, value }) => value === null || !moved.includes(noun as NounName));
  const placed = moved.flatMap((noun) =>
    tried[noun].map((record, at): Edit => {
      const id = idOf(noun, record)!;
      return { noun, id, version: versions.of(noun, id), value: record as unknown as Edit['value'], at };
    }),
  );
  return [...rest, ...placed];
}

function movedNouns(steps: readonly WhatIfStep[]): NounName[] {
  const nouns = steps.flatMap(({ edits }) =>
    edits.flatMap(({ noun, at }) => (at === undefined ? [] : [noun])),
  );
  return [...new Set(nouns)].filter((noun): noun is NounName => noun !== 'build');
}

/** Do records that stay stand in the same order, so that what the edits say of places is enough? */
function sameOrder(noun: NounName, plan: BuildFile, tried: BuildFile, edits: readonly Edit[]): boolean {
  const fresh = new Set(
    edits.flatMap((edit) => (edit.noun === noun && edit.version === null ? [edit.id] : [])),
  );
  const left = new Set(tried[noun].map((record) => idOf(noun, record)));
  const before = plan[noun].map((record) => idOf(noun, record)).filter((id) => left.has(id));
  const after = tried[noun].map((record) => idOf(noun, record)).filter((id) => !fresh.has(id ?? ''));
  return before.join('\n') === after.join('\n');
}
