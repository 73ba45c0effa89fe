/**
 * Whether edits may be made, all of them before any is: each record by itself, each version against the row's, and the
 * build as it would become. The faults name the field within the edits.
 */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Edit } from '#shared/contract/changes.ts';
import { idOf, NOUNS, type NounName } from '#shared/contract/nouns.ts';
import { pointer, pointerSteps } from '#shared/contract/pointer.ts';
import { referenceFaults } from '#shared/contract/references.ts';
import { withRows } from '#shared/changes/apply.ts';
import { HEAD_ID } from '#shared/changes/diff.ts';
import { PlanError, type FieldFault } from '#shared/errors.ts';
import { versionIn, type Snapshot } from './builds.ts';
import { recordFaults } from './record-faults.ts';

/** @throws PlanError `bad-change`, `not-found`, `stale-write` */
export function checkEdits(snapshot: Snapshot, edits: readonly Edit[]): void {
  refuse('This change is not right', edits.flatMap(ownFaults).concat(twice(edits)));
  for (const edit of edits) checkVersion(snapshot, edit);
  const next = withRows(snapshot.file, edits);
  const errors = referenceFaults(next).map((fault) => ({
    ...fault,
    pointer: inEdits(next, edits, fault.pointer),
  }));
  refuse('This change does not fit the build', errors);
}

function refuse(what: string, errors: readonly FieldFault[]): void {
  const [first] = errors;
  if (first === undefined) return;
  const more = errors.length > 1 ? `, and ${errors.length - 1} more` : '';
  throw new PlanError(`${what}: ${first.pointer} ${first.detail}${more}.`, { code: 'bad-change', errors });
}

function ownFaults({ noun, id, value }: Edit, index: number): FieldFault[] {
  const at = pointer('edits', index, 'value');
  if (value !== null) return recordFaults(noun, id, value, at);
  return noun === 'build' ? [{ pointer: at, detail: 'is null: a build cannot be without its head' }] : [];
}

/** A row may stand once among the edits. */
function twice(edits: readonly Edit[]): FieldFault[] {
  const seen = new Set<string>();
  const faults: FieldFault[] = [];
  edits.forEach(({ noun, id }, i) => {
    const row = `${noun} ${id}`;
    if (seen.has(row))
      faults.push({
        pointer: pointer('edits', i),
        detail: `names the ${nameOf(noun)} "${id}" again: put both into one edit`,
      });
    seen.add(row);
  });
  return faults;
}

function checkVersion(snapshot: Snapshot, { noun, id, version, value }: Edit): void {
  const found = versionIn(snapshot, noun, noun === 'build' ? HEAD_ID : id);
  const what = nameOf(noun);
  if (found === null && (version !== null || value === null))
    throw new PlanError(`There is no ${what} "${id}".`, { code: 'not-found', what, id });
  if (found !== null && version !== found)
    throw new PlanError(`The ${what} "${id}" was changed meanwhile: read it again before changing it.`, {
      code: 'stale-write',
      noun,
      id,
      found,
    });
}

/** `/tasks/17/phase` → `/edits/0/value/phase` when that record is being changed; else its id instead of the number. */
function inEdits(file: BuildFile, edits: readonly Edit[], at: string): string {
  const [list = '', number = '', ...rest] = pointerSteps(at);
  if (list === 'build' || list === 'order') {
    const index = edits.findIndex(({ noun }) => noun === 'build');
    return index === -1 ? at : `${pointer('edits', index, 'value')}${at.replace(/^\/build/, '')}`;
  }
  if (!Object.hasOwn(NOUNS, list)) return at;
  const noun = list as NounName;
  const record = file[noun][Number(number)];
  const id = record === undefined ? number : (idOf(noun, record) ?? number);
  const index = edits.findIndex((edit) => edit.noun === noun && edit.id === id);
  return index === -1 ? pointer(list, id, ...rest) : pointer('edits', index, 'value', ...rest);
}

export function nameOf(noun: Edit['noun']): string {
  return noun === 'build' ? 'head' : NOUNS[noun].one;
}
