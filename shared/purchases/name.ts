/** A purchase has no name of its own: its first part, and how many more. */
interface Named {
  readonly supplier: string;
  readonly key: string;
  readonly lines: readonly { readonly name: string }[];
}

export function purchaseName({ supplier, key, lines }: Named): string {
  const [first] = lines;
  if (first === undefined) return supplier === '' ? key : supplier;
  return lines.length === 1 ? first.name : `${first.name} and ${lines.length - 1} more`;
}
