/** Zones in a narrow column or beside a mark: all bays of a face by its letter alone, the rest by their codes. */
import type { Zone } from '#shared/contract/shell.ts';

/** "L1 L2 L3" of a van with three left bays → ["L"]; "R2 R3" of three → ["R2", "R3"]. */
export function codesOf(keys: readonly string[], zones: readonly Zone[]): string[] {
  const wanted = new Set(keys);
  const faces = new Map<string, string[]>();
  for (const { key } of zones) {
    const letters = /^\p{L}+(?=\d+$)/u.exec(key)?.[0];
    if (letters !== undefined) faces.set(letters, [...(faces.get(letters) ?? []), key]);
  }
  const out: string[] = [];
  const said = new Set<string>();
  for (const key of wanted) {
    if (said.has(key)) continue;
    const letters = /^\p{L}+(?=\d+$)/u.exec(key)?.[0] ?? '';
    const face = faces.get(letters) ?? [];
    if (face.length > 1 && face.every((one) => wanted.has(one))) {
      for (const one of face) said.add(one);
      out.push(letters);
    } else out.push(key);
  }
  return out;
}

/** As many codes as fit, then how many more. */
export function codesShort(codes: readonly string[], most = 8): string {
  const all = codes.join(' ');
  if (all.length <= most) return all;
  for (let n = codes.length - 1; n > 0; n--) {
    const text = `${codes.slice(0, n).join(' ')} +${codes.length - n}`;
    if (text.length <= most || n === 1) return text;
  }
  return all;
}
