/** What became of a change that was not stored, and what the history can hold of a label. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { faultSentence } from '../controls/fault-words.ts';
import { Refusal } from './api.ts';
import type { Unversioned } from './check.ts';

const LONGEST = 200;

/** One line of at most 200 characters, as the history takes it; a long name is cut, not refused. */
export function cutLabel(label: string): string {
  const line = label.replace(/\s+/g, ' ').trim();
  if (line.length <= LONGEST) return line;
  const letters = Array.from(line);
  while (letters.join('').length >= LONGEST) letters.pop();
  return `${letters.join('').trimEnd()}…`;
}

/** Says which change it was: several may have waited. */
export function refusedWords(label: string, { code, message }: Pick<Refusal, 'code' | 'message'>): string {
  const why = code === 'stale-write' ? 'It was changed elsewhere meanwhile.' : message;
  return `Not saved: ${cutLabel(label)}. ${why}`;
}

/** A refusal in the words of the form, where the server names a field of the change. @param after the build with it */
export function plainRefusal(
  refusal: Refusal | null,
  edits: readonly Unversioned[],
  after: () => BuildFile,
): Refusal | null {
  const fault = refusal?.code === 'bad-change' ? refusal.errors[0] : undefined;
  if (refusal === null || fault === undefined) return refusal;
  return new Refusal(refusal.code, faultSentence(fault, edits, after()), refusal.errors);
}
