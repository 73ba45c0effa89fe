/**
 * A what-if laid over the plan as it is by now. Fields the what-if did not touch follow the plan; a field that both
 * changed is a clash: what was tried stands until somebody is asked. A step that cannot be made any more is left out
 * and named. So whatever the plan has become, what comes out is a build.
 */
import { withRows, type Laid } from '../changes/apply.ts';
import { merge, textOf } from '../changes/merge.ts';
import type { BuildFile } from '../contract/build-file.ts';
import { HeadRow } from '../contract/changes.ts';
import { faultsOf } from '../contract/faults.ts';
import { idOf, NOUNS } from '../contract/nouns.ts';
import { referenceFaults } from '../contract/references.ts';
import type { FieldFault } from '../errors.ts';
import type { WhatIfEdit, WhatIfStep } from './what-if.ts';

type Value = WhatIfEdit['after'];

/** A row that the plan and the what-if both changed since the what-if was made. */
export interface Clash {
  /** Its place among the steps, and among the edits of its step. */
  readonly step: number;
  readonly edit: number;
  readonly noun: WhatIfEdit['noun'];
  readonly id: string;
  /** The fields both changed; empty where the what-if takes the row out. */
  readonly fields: readonly string[];
  /** The row with what the what-if would have; null where it takes it out. */
  readonly tried: Value;
  /** The row as the plan has it. */
  readonly planned: Exclude<Value, null>;
}

/** A step that cannot be made: it changes what is not there any more, or the build would not hold together. */
export interface Misfit {
  readonly step: number;
  readonly label: string;
  readonly is: 'gone' | 'faulty';
  /** What the build would have wrong; pointers lead into the build. Empty where the row is gone. */
  readonly faults: readonly FieldFault[];
  /** Of a row that is gone. */
  readonly noun: WhatIfEdit['noun'] | null;
  readonly id: string | null;
}

export interface LaidOver {
  readonly file: BuildFile;
  readonly clashes: readonly Clash[];
  readonly misfits: readonly Misfit[];
}

export function layOver(file: BuildFile, steps: readonly WhatIfStep[]): LaidOver {
  // The whole is judged once; only where something is wrong, step by step to find what.
  const quick = lay(file, steps, false);
  return quick.misfits.length === 0 && referenceFaults(quick.file).length === 0
    ? quick
    : lay(file, steps, true);
}

function lay(file: BuildFile, steps: readonly WhatIfStep[], judged: boolean): LaidOver {
  const clashes: Clash[] = [];
  const misfits: Misfit[] = [];
  let now = file;
  steps.forEach((step, at) => {
    const made = rowsOf(now, step, at);
    if ('gone' in made) {
      const { noun, id } = made.gone;
      misfits.push({ step: at, label: step.label, is: 'gone', faults: [], noun, id });
      return;
    }
    const next = withRows(now, made.rows);
    const faults = made.faults.length > 0 ? made.faults : judged ? referenceFaults(next) : [];
    if (faults.length > 0) {
      misfits.push({ step: at, label: step.label, is: 'faulty', faults, noun: null, id: null });
      return;
    }
    clashes.push(...made.clashes);
    now = next;
  });
  return { file: now, clashes, misfits };
}

interface Made {
  readonly rows: readonly Laid[];
  readonly clashes: readonly Clash[];
  readonly faults: readonly FieldFault[];
}

/** The rows a step sets in this build. */
function rowsOf(file: BuildFile, { edits }: WhatIfStep, step: number): Made | { readonly gone: WhatIfEdit } {
  const rows: Laid[] = [];
  const clashes: Clash[] = [];
  const faults: FieldFault[] = [];
  for (const [at, edit] of edits.entries()) {
    const { noun, id, before, after } = edit;
    const planned = rowIn(file, noun, id);
    if (planned === null) {
      if (after === null) continue;
      if (before !== null) return { gone: edit };
    }
    const { value, fields } = merged(before, after, planned);
    if (fields !== null) clashes.push({ step, edit: at, noun, id, fields, tried: value, planned: planned! });
    if (value !== null) faults.push(...faultsOf(noun === 'build' ? HeadRow : NOUNS[noun].schema, value));
    if (textOf(value) !== textOf(planned) || edit.at !== undefined)
      rows.push({ noun, id, value, ...(edit.at === undefined ? {} : { at: edit.at }) });
  }
  return { rows, clashes, faults };
}

/** @returns the fields both changed; null where there is no clash */
function merged(before: Value, after: Value, planned: Value): { value: Value; fields: string[] | null } {
  if (planned === null) return { value: after, fields: null };
  if (after === null)
    return { value: null, fields: before !== null && textOf(before) !== textOf(planned) ? [] : null };
  const { value, clash } = merge<object>(before ?? {}, after, planned);
  return { value: value as Value, fields: clash.length > 0 ? [...clash] : null };
}

/** A row of a build as an edit holds it; null where there is none. */
export function rowIn(file: BuildFile, noun: WhatIfEdit['noun'], id: string): Value {
  if (noun === 'build') return { ...file.build, order: file.order } satisfies HeadRow as Value;
  return (file[noun].find((record) => idOf(noun, record) === id) ?? null) as Value;
}

/**
 * The steps with a clash answered. @param by whose word stands; what is answered is asked again only when the plan
 * changes the field once more
 */
export function settle(steps: readonly WhatIfStep[], clash: Clash, by: 'what-if' | 'plan'): WhatIfStep[] {
  return steps.flatMap((step, i): WhatIfStep[] => {
    if (i !== clash.step) return [step];
    const edits = step.edits.flatMap((edit, j): WhatIfEdit[] => {
      if (j !== clash.edit) return [edit];
      if (edit.after === null) return by === 'plan' ? [] : [{ ...edit, before: clash.planned }];
      const planned = Object.fromEntries(clash.fields.map((name) => [name, clash.planned[name as never]]));
      // What stands in both `before` and `after` is a field the what-if does not touch.
      const before = { ...(edit.before ?? clash.planned), ...planned };
      return [{ ...edit, before, after: by === 'plan' ? { ...edit.after, ...planned } : edit.after }];
    });
    return edits.length === 0 ? [] : [{ ...step, edits }];
  });
}

/** The steps without those that cannot be made any more. */
export function withoutMisfits(
  steps: readonly WhatIfStep[],
  misfits: readonly Pick<Misfit, 'step'>[],
): WhatIfStep[] {
  const out = new Set(misfits.map(({ step }) => step));
  return steps.filter((_, i) => !out.has(i));
}
