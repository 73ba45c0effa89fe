/** The pairs freed from the cover rule. */
import type { Exception } from '../contract/task.ts';

export class Exceptions {
  readonly #coversOf = new Map<string, Set<string>>();
  readonly #withException = new Set<string>();

  constructor(list: readonly Exception[]) {
    for (const { inner, cover } of list) {
      const covers = this.#coversOf.get(inner) ?? new Set();
      this.#coversOf.set(inner, covers.add(cover));
      this.#withException.add(cover);
    }
  }

  has(inner: string, cover: string): boolean {
    return this.#coversOf.get(inner)?.has(cover) ?? false;
  }

  /** Is anything excepted from this cover? */
  anyFor(cover: string): boolean {
    return this.#withException.has(cover);
  }
}
