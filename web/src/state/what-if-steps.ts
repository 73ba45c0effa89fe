/** What a build does instead of storing while a what-if is open: changes and their undo go there and nowhere else. */
import { deedIn, type Deed } from '#shared/whatif/deeds.ts';
import { Refusal } from './api.ts';
import type { Build } from './build.svelte.ts';
import type { Unversioned } from './check.ts';
import { messages } from './messages.svelte.ts';
import type { WhatIfs } from './what-ifs.svelte.ts';

/** What happened, and so is entered into the plan or nowhere. */
const HAPPENED: Record<Deed, string> = {
  hours: 'Hours are worked or they are not',
  timer: 'A timer counts hours that are really worked',
  photo: 'A photo, a paper or a measure shows what is there',
  weighing: 'A weighing tells what the van weighs',
  'frozen-plan': 'Only the plan itself can be frozen',
  signing: 'A check is signed in the van, not in a what-if',
  progress: 'A task is begun or finished in the van, not in a what-if',
  'step-done': 'A step is done in the van, not in a what-if',
  arrival: 'What came or went back is known for the plan itself',
  payment: 'What was paid is paid, whatever is planned',
  receipt: 'A receipt belongs to what was really bought',
};

/** One step more of the open what-if. @returns why it was not taken; null once it was */
export function tryOut(build: Build, label: string, edits: readonly Unversioned[]): Refusal | null {
  const deed = deedIn(build.file, edits);
  if (deed !== null) return new Refusal('deed', deedWords(deed));
  try {
    build.whatIfs.add(label, edits, build.file);
    return null;
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
}

export function deedWords(deed: Deed): string {
  return `${HAPPENED[deed]}: leave the what-if first, then do it again.`;
}

/** Undo and redo within the open what-if. */
export function stepBack(whatIfs: WhatIfs, which: 'undo' | 'redo'): void {
  try {
    const label = whatIfs[which]();
    if (label === null) messages.done(`There is nothing to ${which} in this what-if.`);
    else messages.done(`${which === 'undo' ? 'Undone' : 'Done again'}: ${label}, in the what-if alone.`);
  } catch (error) {
    messages.refused(error instanceof Error ? error.message : String(error));
  }
}
