/**
 * What is being typed into a field whose value is another thing than its text. The text stands as long as the value is
 * the one it gave; when the value is changed by other hands (undo, leaving a draft) the text goes.
 */
export class Typed<V> {
  #text = $state<string | null>(null);
  #gave = $state.raw<V | null>(null);

  /** What the field shows. */
  shown(value: V, write: (value: V) => string): string {
    return this.stands(value) ? this.#text! : write(value);
  }

  stands(value: V): boolean {
    return this.#text !== null && Object.is(this.#gave, value);
  }

  take(text: string, gives: V): void {
    this.#text = text;
    this.#gave = gives;
  }

  /** The value is shown in its own words again. */
  rest(): void {
    this.#text = null;
  }
}
