/** The faults of edits before they are sent, from the same schemas and rules the server judges by. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { HeadRow, type Edit } from '#shared/contract/changes.ts';
import { faultsOf } from '#shared/contract/faults.ts';
import { idOf, NOUNS, type NounName } from '#shared/contract/nouns.ts';
import { pointer, pointerSteps } from '#shared/contract/pointer.ts';
import { referenceFaults } from '#shared/contract/references.ts';
import type { FieldFault } from '#shared/errors.ts';

export type Unversioned = Omit<Edit, 'version'>;

/**
 * @param after the build with the edits made
 * @returns pointers into the edited record (`/phase`), or into the build (`/tasks/3/places/0/zone`) where an edit
 *   spoils another record
 */
export function faultsOfEdits(edits: readonly Unversioned[], after: () => BuildFile): FieldFault[] {
  const own = edits.flatMap(({ noun, value }) =>
    value === null ? [] : faultsOf(noun === 'build' ? HeadRow : NOUNS[noun].schema, value),
  );
  if (own.length > 0) return own;
  const file = after();
  return referenceFaults(file).map((fault) => ({ ...fault, pointer: inRecord(file, edits, fault.pointer) }));
}

function inRecord(file: BuildFile, edits: readonly Unversioned[], at: string): string {
  const [list = '', number = '', ...rest] = pointerSteps(at);
  if (list === 'build') return pointer(number, ...rest);
  if (!(list in NOUNS)) return at;
  const record = file[list as NounName][Number(number)];
  const edited =
    record !== undefined &&
    edits.some(({ noun, id }) => noun === list && id === idOf(list as NounName, record));
  return edited ? pointer(...rest) : at;
}
