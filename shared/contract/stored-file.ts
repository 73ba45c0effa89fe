/** Stored files (photos, receipts) as both sides know them: how large one may be, and its digits within its name. */

/** A photo of a phone at its best; more is refused in words. */
export const MOST_FILE_BYTES = 24 * 1024 * 1024;

/** `sha256:…` → the 64 hex digits that stand in its address; null for any other word (an old name of a photo). */
export function digitsOfFile(file: string): string | null {
  return /^sha256:([0-9a-f]{64})$/.exec(file)?.[1] ?? null;
}
