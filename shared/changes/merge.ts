/**
 * A record typed here and stored anew elsewhere: fields that only one of the two changed go together; those both
 * changed are the clash, and what was typed stands in them.
 */
export interface Merged<T> {
  readonly value: T;
  /** The names of the fields both changed, each to something else. */
  readonly clash: readonly string[];
}

/** @param base as both had it before */
export function merge<T extends object>(base: T, mine: T, theirs: T): Merged<T> {
  const clash: string[] = [];
  const value: Record<string, unknown> = {};
  const [was, typed, stored] = [base, mine, theirs] as Record<string, unknown>[] as [
    Record<string, unknown>,
    Record<string, unknown>,
    Record<string, unknown>,
  ];
  for (const name of new Set([...Object.keys(stored), ...Object.keys(typed)])) {
    const isUntouched = textOf(typed[name]) === textOf(was[name]);
    value[name] = isUntouched ? stored[name] : typed[name];
    const isStill = textOf(stored[name]) === textOf(was[name]);
    if (!isUntouched && !isStill && textOf(stored[name]) !== textOf(typed[name])) clash.push(name);
  }
  return { value: value as T, clash };
}

/** A value as text, for telling whether it changed; a number that could not be read is unlike any other. */
export function textOf(value: unknown): string {
  return JSON.stringify(value, (_name, one: unknown) => (Number.isNaN(one) ? 'cannot be read' : one)) ?? '';
}
