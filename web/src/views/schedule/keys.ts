/** The keys of the sheet: arrows walk rows and move the paper, + − 0 its scale; with Shift they move a bar by days. */
import { messages } from '../../state/messages.svelte.ts';
import type { Paper } from './paper.svelte.ts';
import type { Proposal } from './proposal.svelte.ts';

export interface KeyPlaces {
  readonly paper: Paper;
  readonly proposal: Proposal;
  /** The row under the keys, and its task. */
  readonly at: () => { readonly index: number; readonly key: string | null };
  readonly walk: (to: number) => void;
  /** Rows in sight. */
  readonly page: () => number;
  readonly last: () => number;
  readonly chosen: () => string | null;
  readonly close: () => void;
  /** The day a task starts. */
  readonly startOf: (key: string) => number | null;
  /** Is there no chart to have keys? */
  readonly asleep: () => boolean;
}

/** @returns a listener for `keydown` on the window; fields, dialogs and other tools keep their own keys */
export function scheduleKeys(places: KeyPlaces): (event: KeyboardEvent) => void {
  return (event) => {
    if (event.defaultPrevented || places.asleep() || document.querySelector('dialog[open]') !== null) return;
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const target = event.target as HTMLElement;
    if (/^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName)) return;
    const inRow = target.closest('[data-row]') !== null;
    const free = target === document.body || target.id === 'view';
    const taken =
      proposed(event, inRow, free, places) ||
      scaled(event, places) ||
      ((inRow || free) && moved(event, free, places));
    if (taken) event.preventDefault();
  };
}

/** What concerns a date about to be fixed, and the chosen task. */
function proposed(
  event: KeyboardEvent,
  inRow: boolean,
  free: boolean,
  { proposal, at, chosen, close, walk, startOf }: KeyPlaces,
): boolean {
  if (event.shiftKey && (event.key === 'ArrowLeft' || event.key === 'ArrowRight')) {
    const key = inRow ? at().key : chosen();
    if (key === null) return false;
    const refusal = proposal.refusal(key);
    const start = proposal.key === key && !proposal.frees ? proposal.day : startOf(key);
    if (refusal !== null) messages.refused(refusal);
    else if (start !== null) proposal.fix(key, start + (event.key === 'ArrowRight' ? 1 : -1));
    return true;
  }
  if (event.key === 'Enter' && proposal.key !== null && (inRow || free)) void proposal.save();
  else if (event.key === 'Escape' && proposal.key !== null) proposal.leave();
  else if (event.key === 'Escape' && chosen() !== null) {
    close();
    walk(at().index);
  } else return false;
  return true;
}

function scaled({ key }: KeyboardEvent, { paper }: KeyPlaces): boolean {
  if (key === '+' || key === '=') paper.closer();
  else if (key === '-' || key === '−') paper.further();
  else if (key === '0') paper.whole();
  else return false;
  return true;
}

/** From nowhere the first step goes to the row that Tab would reach. */
function moved({ key }: KeyboardEvent, free: boolean, { paper, at, walk, page, last }: KeyPlaces): boolean {
  const { index } = at();
  if (key === 'ArrowDown') walk(free ? index : index + 1);
  else if (key === 'ArrowUp') walk(free ? index : index - 1);
  else if (key === 'PageDown') walk(index + page());
  else if (key === 'PageUp') walk(index - page());
  else if (key === 'Home') walk(0);
  else if (key === 'End') walk(last());
  else if (key === 'ArrowLeft') paper.panBy(-paper.view / 8);
  else if (key === 'ArrowRight') paper.panBy(paper.view / 8);
  else return false;
  return true;
}
