/**
 * A what-if: a name and what would be changed, step by step, each row as it was read and as it would become. That much
 * is enough to lay it over a plan that has moved on meanwhile, and to take its last step back.
 */
import { Type, type Static } from 'typebox';
import { withDefaults } from '../contract/defaults.ts';
import { ChangeSet, Edit, HeadRow } from '../contract/changes.ts';
import { Instant, Name, Strict } from '../contract/common.ts';
import { faultsOf, type SchemaNode } from '../contract/faults.ts';
import { NOUNS } from '../contract/nouns.ts';

/** One row: `before` null where it is new, `after` null where it would go. */
export const WhatIfEdit = Type.Object(
  {
    noun: Edit.properties.noun,
    id: Edit.properties.id,
    before: Edit.properties.value,
    after: Edit.properties.value,
    at: Edit.properties.at,
  },
  Strict,
);

export const WhatIfStep = Type.Object(
  { label: ChangeSet.properties.label, edits: Type.Array(WhatIfEdit, { minItems: 1, maxItems: 20_000 }) },
  Strict,
);

export const WhatIf = Type.Object(
  {
    /** The mark of the one that began it; a name may be given twice. */
    id: Type.String({ minLength: 1, maxLength: 80 }),
    name: Name,
    /** When it was begun, by the clock of the device. */
    madeAt: Instant,
    steps: Type.Array(WhatIfStep, { maxItems: 1000 }),
  },
  Strict,
);

export type WhatIfEdit = Static<typeof WhatIfEdit>;
export type WhatIfStep = Static<typeof WhatIfStep>;
export type WhatIf = Static<typeof WhatIf>;

/** A what-if as it was kept; fields that records have been given since are filled in. Null where it cannot be read. */
export function readWhatIf(text: string): WhatIf | null {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return null;
  }
  if (faultsOf(WhatIf, value).length > 0) return null;
  const whatIf = value as WhatIf;
  return {
    ...whatIf,
    steps: whatIf.steps.map((step) => ({ ...step, edits: step.edits.map(asOfToday) })),
  };
}

function asOfToday(edit: WhatIfEdit): WhatIfEdit {
  const schema = (edit.noun === 'build' ? HeadRow : NOUNS[edit.noun].schema) as unknown as SchemaNode;
  const filled = (value: WhatIfEdit['after']) => withDefaults(schema, value) as WhatIfEdit['after'];
  return { ...edit, before: filled(edit.before), after: filled(edit.after) };
}
