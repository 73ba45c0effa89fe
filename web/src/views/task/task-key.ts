/** Keys for new records: readable where the name has Latin letters or digits, numbered where it has none. */
import { numbered } from '#shared/changes/free-key.ts';

const LONGEST = 48;

/** "Rib fill, left wall" → "rib-fill-left-wall"; '' for a name without Latin letters and digits. */
export function slug(name: string): string {
  const plain = name
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/ß/g, 'ss')
    .replace(/[æœ]/g, (letter) => (letter === 'æ' ? 'ae' : 'oe'))
    .replace(/ø/g, 'o')
    .replace(/ł/g, 'l')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return plain.length <= LONGEST ? plain : plain.slice(0, LONGEST).replace(/-[^-]*$/, '');
}

/** A key no other record of the list has. @param what stands in where the name gives none: "task", "check" */
export function freeKey(name: string, taken: { has: (key: string) => boolean }, what: string): string {
  return numbered(slug(name) || what, taken);
}
