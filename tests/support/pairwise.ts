/**
 * Few combinations in which every two choices of different fields meet at least once: a covering array of strength two,
 * filled row by row with whatever meets the most pairs still missing (Cohen, Dalal, Fredman, Patton, The AETG System,
 * IEEE TSE 23:7, 1997, without its random candidates, so that the same fields always give the same rows).
 */
export type Fields = Readonly<Record<string, readonly string[]>>;
export type Row<F extends Fields> = { [K in keyof F]: F[K][number] };

export function pairwise<F extends Fields>(fields: F): Row<F>[] {
  const names = Object.keys(fields);
  const missing = new Set(
    names.flatMap((a, i) =>
      names.slice(i + 1).flatMap((b) => fields[a]!.flatMap((x) => fields[b]!.map((y) => pair(a, x, b, y)))),
    ),
  );
  const rows: Row<F>[] = [];
  while (missing.size > 0) {
    const [first] = missing as unknown as [string];
    const row = new Map(first.split('|').map((side) => side.split('=') as [string, string]));
    for (const name of names) {
      if (row.has(name)) continue;
      const gain = (value: string) =>
        [...row].filter(([other, chosen]) => missing.has(pair(name, value, other, chosen))).length;
      // The first of the best, beginning at another choice in every row, so that ties spread.
      const choices = fields[name]!.map((_, i, all) => all[(i + rows.length) % all.length]!);
      row.set(
        name,
        choices.reduce((best, value) => (gain(value) > gain(best) ? value : best)),
      );
    }
    for (const [a, x] of row) for (const [b, y] of row) missing.delete(pair(a, x, b, y));
    rows.push(Object.fromEntries(names.map((name) => [name, row.get(name)!])) as Row<F>);
  }
  return rows;

  /** In the order of the fields, whichever is named first. */
  function pair(a: string, x: string, b: string, y: string): string {
    return names.indexOf(a) < names.indexOf(b) ? `${a}=${x}|${b}=${y}` : `${b}=${y}|${a}=${x}`;
  }
}

/** Every combination of some fields, one after another. */
export function* everyCombination<F extends Fields>(fields: F): Generator<Row<F>> {
  const names = Object.keys(fields);
  const total = names.reduce((product, name) => product * fields[name]!.length, 1);
  for (let n = 0; n < total; n++) {
    let rest = n;
    const row: Record<string, string> = {};
    for (const name of names) {
      const choices = fields[name]!;
      row[name] = choices[rest % choices.length]!;
      rest = Math.floor(rest / choices.length);
    }
    yield row as Row<F>;
  }
}
