/** What just happened, in a sentence at the foot of the sheet; a refusal stays until it is read. */
export interface Message {
  readonly id: number;
  readonly words: string;
  readonly kind: 'done' | 'refused';
  /** Offer to take it back. */
  readonly undo: boolean;
  /** Something else that can be done about it, by its word. */
  readonly offer: Offer | null;
}

export interface Offer {
  readonly word: string;
  readonly take: () => void;
}

const SHOWN_MS = 8000;

class Messages {
  list = $state.raw<readonly Message[]>([]);
  #next = 1;

  done(words: string, { undo = false, offer = null }: { undo?: boolean; offer?: Offer | null } = {}): void {
    const id = this.#add(words, 'done', undo, offer);
    setTimeout(() => this.dismiss(id), SHOWN_MS);
  }

  refused(words: string): void {
    this.#add(words, 'refused', false);
  }

  dismiss(id: number): void {
    this.list = this.list.filter((one) => one.id !== id);
  }

  #add(words: string, kind: Message['kind'], undo: boolean, offer: Offer | null = null): number {
    const id = this.#next++;
    // One line of what was done is enough; refusals add up until each was read.
    this.list = [
      ...this.list.filter((one) => one.kind === 'refused' && one.words !== words),
      { id, words, kind, undo, offer },
    ];
    return id;
  }
}

export const messages = new Messages();
