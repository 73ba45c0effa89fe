/** A new zone from what was typed: "L4 left wall, tail" has its code in it; without one a free code is made. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Zone } from '#shared/contract/shell.ts';

const CODED = /^([A-Z]{1,2}\d{0,2})\s+(.+)$/;

export function newZone({ zones, depths }: Pick<BuildFile, 'zones' | 'depths'>, text: string): Zone {
  const taken = new Set(zones.map(({ key }) => key));
  const coded = CODED.exec(text);
  const known = coded !== null && !taken.has(coded[1]!);
  const key = known ? coded[1]! : freeCode(text, taken);
  // Its neighbours on the same face tell what it is made of.
  // What it is made of is not guessed from a code that was made up.
  const like = !known
    ? undefined
    : zones.find((zone) => zone.key !== key && zone.key.replace(/\d+$/, '') === key.replace(/\d+$/, ''));
  const bay = Number(/\d+$/.exec(key)?.[0] ?? 0);
  return {
    key,
    name: known ? coded[2]! : text,
    face: like?.face ?? 'elsewhere',
    bay: like !== undefined && like.bay !== null && bay >= 1 && bay <= 50 ? bay : null,
    capacity: 1,
    depths: like?.depths.slice() ?? depths.slice(0, 1).map((depth) => depth.key),
  };
}

function freeCode(text: string, taken: ReadonlySet<string>): string {
  const first = /[A-Za-z]/.exec(text)?.[0]?.toUpperCase() ?? 'Z';
  const letter = [...taken].some((code) => new RegExp(`^${first}\\d*$`).test(code)) ? 'Z' : first;
  let n = 1;
  while (taken.has(`${letter}${n}`)) n++;
  return `${letter}${n}`;
}
