/** What became of a change that was not stored, and what the history can hold of a label. */
import type { Refusal } from './api.ts';

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
