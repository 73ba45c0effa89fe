/**
 * Where what-ifs are kept: in this browser, one entry each, so that a reload loses nothing and the plan's store never
 * hears of them. Which one is open is a matter of the window, so that another may look at the plan itself.
 */
import { readWhatIf, type WhatIf } from '#shared/whatif/what-if.ts';
import { Refusal } from './api.ts';

/** What-ifs of one build, and characters of one: a browser keeps some five million for all pages of a server. */
export const MOST = 12;
const MOST_CHARACTERS = 400_000;

const KEPT = 'coverlast.what-if';
const OPEN = 'coverlast.what-if-open';

function stemOf(build: string): string {
  return `${KEPT}/${encodeURIComponent(build)}/`;
}

/** Those of a build, oldest first; what cannot be read is left where it is. */
export function keptOf(build: string): WhatIf[] {
  try {
    const stem = stemOf(build);
    return Object.keys(localStorage)
      .filter((name) => name.startsWith(stem))
      .flatMap((name) => readWhatIf(localStorage.getItem(name) ?? '') ?? [])
      .toSorted((a, b) => (a.madeAt < b.madeAt ? -1 : a.madeAt > b.madeAt ? 1 : a.id < b.id ? -1 : 1));
  } catch {
    return [];
  }
}

/** @throws Refusal `too-large`, `not-kept`: a sentence that says what can be done */
export function keepIt(build: string, whatIf: WhatIf): void {
  const text = JSON.stringify(whatIf);
  if (text.length > MOST_CHARACTERS)
    throw new Refusal(
      'too-large',
      `The what-if “${whatIf.name}” has grown too large to be kept in this browser. Keep it or drop it, and begin another.`,
    );
  try {
    localStorage.setItem(stemOf(build) + whatIf.id, text);
  } catch {
    throw new Refusal(
      'not-kept',
      'This browser has no room left for what-ifs, or keeps nothing. Drop one you no longer need, or allow this page to store data.',
    );
  }
}

export function forgetIt(build: string, id: string): void {
  try {
    localStorage.removeItem(stemOf(build) + id);
  } catch {
    // A browser that keeps nothing has nothing to forget.
  }
}

/** Is that an entry of this build's what-ifs? For the events that tell of other windows; null: all was cleared. */
export function isKeptFor(build: string, entry: string | null): boolean {
  return entry === null || entry.startsWith(stemOf(build));
}

/** The one that is open in this window. */
export function openIn(build: string): string | null {
  try {
    return sessionStorage.getItem(`${OPEN}/${encodeURIComponent(build)}`);
  } catch {
    return null;
  }
}

/** Is one open in this window? For what goes to the server past the build, such as a file. */
export function isTrying(build: string): boolean {
  const open = openIn(build);
  return open !== null && keptOf(build).some(({ id }) => id === open);
}

export function setOpenIn(build: string, id: string | null): void {
  const name = `${OPEN}/${encodeURIComponent(build)}`;
  try {
    if (id === null) sessionStorage.removeItem(name);
    else sessionStorage.setItem(name, id);
  } catch {
    // It is open all the same, until the page is left.
  }
}
