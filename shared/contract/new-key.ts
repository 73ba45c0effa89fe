/** Keys for new records, made of their names: readable where the name has Latin letters or digits. */

/** "Rib fill, left wall" → "rib-fill-left-wall"; "new" for a name without Latin letters and digits. */
function stemOf(name: string): string {
  return (
    name
      .toLowerCase()
      .normalize('NFKD')
      .replace(/\p{M}/gu, '')
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 40)
      .replace(/-+$/, '') || 'new'
  );
}

/** Gives one key after another, each free among those taken and those given before. */
export function keyGiver(taken: Iterable<string>): (name: string) => string {
  const known = new Set(taken);
  const next = new Map<string, number>();
  return (name) => {
    const stem = stemOf(name);
    let n = next.get(stem) ?? 1;
    let key: string;
    do key = n === 1 ? stem : `${stem}-${n}`;
    while (known.has(key) && ++n > 0);
    next.set(stem, n + 1);
    known.add(key);
    return key;
  };
}

/** A key made of a name, free among those taken. */
export function keyFor(name: string, taken: Iterable<string>): string {
  return keyGiver(taken)(name);
}
