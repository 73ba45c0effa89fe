/** The keys that work on every sheet; a field being typed in keeps its own. */
import { here } from '../state/address.svelte.ts';
import { redoLast, undoLast } from '../state/undo.svelte.ts';

export interface KeyHelp {
  readonly keys: string;
  readonly does: string;
}

/** `g` and then one of these goes to a sheet. */
const GO: Readonly<Record<string, string>> = {
  t: 'today',
  s: 'shell',
  q: 'sequence',
  c: 'schedule',
  p: 'purchases',
  m: 'money',
  h: 'hours',
  e: 'settings',
};

export const KEYS: readonly KeyHelp[] = [
  { keys: '/', does: 'Find' },
  { keys: 'N', does: 'New task' },
  { keys: 'Ctrl Z', does: 'Undo' },
  { keys: 'Ctrl Shift Z, Ctrl Y', does: 'Redo' },
  {
    keys: 'G then T S Q C P M H E',
    does: 'Go to Today, Shell, Sequence, Schedule, Purchases, Money, Hours, Settings',
  },
  { keys: 'Arrows, Enter', does: 'Walk and open rows, zones and bars' },
  { keys: '+ − 0', does: 'Schedule: closer, further, all of it' },
  { keys: 'Shift ← →', does: 'Schedule: move a bar by a day; Enter fixes it there, Escape leaves it' },
  { keys: '?', does: 'These keys' },
];

export interface KeyActions {
  readonly find: () => void;
  readonly keys: () => void;
  readonly newTask: () => void;
}

/** @returns a listener for `keydown` on the window */
export function keyListener({ find, keys, newTask }: KeyActions): (event: KeyboardEvent) => void {
  let going = false;
  return (event) => {
    if (event.defaultPrevented || event.isComposing || document.querySelector('dialog[open]') !== null)
      return;
    const command = event.ctrlKey || event.metaKey;
    if (command && !event.altKey) {
      const letter = event.key.toLowerCase();
      if (isWriting(event.target) || (letter !== 'z' && letter !== 'y')) return;
      event.preventDefault();
      void (letter === 'y' || event.shiftKey ? redoLast() : undoLast());
      return;
    }
    if (command || event.altKey || isWriting(event.target) || event.target instanceof HTMLSelectElement)
      return;
    const was = going;
    going = false;
    if (was && GO[event.key] !== undefined && here.now.build !== null) here.go(here.to(GO[event.key]!));
    else if (event.key === 'g') going = true;
    else if (event.key === '/') find();
    else if (event.key === '?') keys();
    else if (event.key === 'n') newTask();
    else return;
    event.preventDefault();
  };
}

/** Boxes to tick and buttons take no letters, so the keys work beside them. */
const NO_LETTERS = /^(checkbox|radio|button|submit|reset|range|file|image|color)$/;

/** Is that a field in which letters are written, with an undo of its own? */
function isWriting(target: EventTarget | null): boolean {
  if (target instanceof HTMLInputElement) return !NO_LETTERS.test(target.type);
  return target instanceof HTMLTextAreaElement || (target instanceof HTMLElement && target.isContentEditable);
}
