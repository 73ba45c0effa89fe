/** Small things a device remembers, as JSON in its storage. Where nothing can be kept, they last as long as the page. */
export function kept(name: string): unknown {
  try {
    return JSON.parse(localStorage.getItem(name) ?? 'null') as unknown;
  } catch {
    return null;
  }
}

/** @param value null forgets it */
export function keep(name: string, value: unknown): void {
  try {
    if (value === null) localStorage.removeItem(name);
    else localStorage.setItem(name, JSON.stringify(value));
  } catch {
    // No room, or none allowed.
  }
}
