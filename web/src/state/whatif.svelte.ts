/** What a what-if is begun, kept and left by, from wherever on the sheets. */
import type { Purchase } from '#shared/contract/purchase.ts';
import { editsToKeep } from '#shared/whatif/keep.ts';
import { count } from '../drawing/words.ts';
import { Refusal } from './api.ts';
import type { Build } from './build.svelte.ts';
import { faultsOfEdits, type Unversioned } from './check.ts';
import { messages } from './messages.svelte.ts';
import { refusedWords } from './refusal-words.ts';
import { withRows } from '#shared/changes/apply.ts';

/**
 * Begins a what-if and opens it: from then on every sheet works on it. Another that is open is left as it is.
 *
 * @param edits its first step against the plan as it is stored; none: it begins as the plan
 * @returns is it open? Where not, a sentence has said why.
 */
export function startWhatIf(build: Build, name: string, edits: readonly Unversioned[]): boolean {
  try {
    const after = withRows(build.stored, edits);
    if (edits.length > 0 && faultsOfEdits(edits, () => after).length > 0)
      throw new Refusal('bad-change', 'It no longer fits the plan.');
    build.whatIfs.begin(name, build.now, name, edits, build.stored);
    return true;
  } catch (error) {
    messages.refused(`Not begun: ${name}. ${error instanceof Error ? error.message : String(error)}`);
    return false;
  }
}

/** Why the open what-if cannot be kept yet; '' when it can. */
export function lacksToKeep({ whatIfs: { open, laid } }: Build): string {
  if (open === null || laid === null) return 'No what-if is open.';
  if (laid.misfits.length > 0) return 'Something of it no longer fits the plan: see above.';
  if (laid.clashes.length > 0) return 'The plan changed in the same places: say first what is to stand.';
  return open.steps.length === 0 ? 'Nothing is changed in it yet.' : '';
}

/** Makes the open what-if the plan, as one change that can be undone. */
export async function keepWhatIf(build: Build): Promise<void> {
  const { whatIfs } = build;
  const { open, laid } = whatIfs;
  if (open === null || laid === null || lacksToKeep(build) !== '') return;
  const edits = editsToKeep(build.stored, laid.file, open.steps, {
    of: (noun, id) => build.version(noun, id),
  });
  const label = `Keep the what-if “${open.name}”`;
  if (edits.length === 0) {
    messages.done('The plan is as this what-if has it already: there is nothing to keep.');
    return;
  }
  const orders = newOrders(build, edits);
  // The plan first: the change is the plan's, and shows there at once.
  whatIfs.enter(null);
  const refusal = await build.change(label, edits, { quiet: true });
  if (refusal === null) {
    whatIfs.close(open.id);
    messages.done(
      `Kept: ${open.name}.${orders === 0 ? '' : ` ${count(orders, 'purchase')} now ${orders === 1 ? 'counts' : 'count'} as ordered: place ${orders === 1 ? 'that order' : 'those orders'}.`}`,
      { undo: whatIfs.open === null },
    );
    return;
  }
  if (whatIfs.open === null) whatIfs.enter(open.id);
  messages.refused(refusedWords(label, refusal));
}

/** Back to the plan; the what-if stays in the list. */
export function leaveWhatIf(build: Build): void {
  build.whatIfs.enter(null);
}

/** Purchases that the change marks ordered: somebody has to order them. */
function newOrders(build: Build, edits: readonly Unversioned[]): number {
  const stored = new Map(build.stored.purchases.map((one) => [one.key, one]));
  return edits.filter(({ noun, id, value }) => {
    if (noun !== 'purchases' || value === null) return false;
    const { state } = value as unknown as Purchase;
    return state === 'ordered' && stored.get(id)?.state !== 'ordered';
  }).length;
}
