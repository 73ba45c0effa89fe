/** Ties go by key, compared by code unit, so the same everywhere. */
export function byKey(a: { readonly key: string }, b: { readonly key: string }): number {
  return a.key < b.key ? -1 : a.key > b.key ? 1 : 0;
}
