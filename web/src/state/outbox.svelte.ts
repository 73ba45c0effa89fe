/**
 * What is on its way to the server: changes, undos and redos, one after another in the order they were made. While the
 * server is not reached they wait and are tried again; what it refuses goes alone. A change whose answer was lost is
 * looked up in the history before a second try is believed to have failed.
 */
import type { Changed, ChangedNoun, Edit, HistoryEntry } from '#shared/contract/changes.ts';
import { ask, Refusal } from './api.ts';
import { storedAs, versionLeft } from './stored.ts';

export interface Outcome {
  /** Null: it is stored. */
  readonly refusal: Refusal | null;
  /** What the server answered; null when it was refused or found stored already. */
  readonly changed: Changed | null;
}

type Kind = 'change' | 'undo' | 'redo';

interface Waiting {
  readonly kind: Kind;
  readonly label: string;
  edits: readonly Edit[];
  /** What was on its way when this was asked for. */
  readonly follows: Waiting | null;
  /** The revision known when it was first sent; null before. */
  since: number | null;
  refused: boolean;
  readonly settle: (outcome: Outcome) => void;
}

/** The build these belong to. */
export interface Host {
  /** `/api/builds/wagtail` */
  readonly path: string;
  readonly revision: number;
  readonly version: (noun: ChangedNoun, id: string) => number | null;
  /** Lays what the server answered over what is known. */
  readonly take: (changed: Changed) => void;
  /** Reads the build anew. */
  readonly reload: () => Promise<void>;
  /** Is the server heard? */
  readonly reached: (isHeard: boolean) => void;
}

/** How long to wait before a server that was not reached is tried again. */
const AGAIN_MS = 3000;

const LOOKED_THROUGH = 200;

export class Outbox {
  /** The first is being sent. */
  waiting = $state.raw<readonly Waiting[]>([]);
  readonly #host: Host;
  #busy = false;
  #again: ReturnType<typeof setTimeout> | undefined;
  /** Own changes as the events tell them, while answers are still to come. */
  #heard: Changed[] = [];

  constructor(host: Host) {
    this.#host = host;
  }

  add(kind: Kind, label = '', edits: readonly Edit[] = []): Promise<Outcome> {
    return new Promise((settle) => {
      const follows = this.waiting.at(-1) ?? null;
      this.waiting = [...this.waiting, { kind, label, edits, follows, since: null, refused: false, settle }];
      void this.send();
    });
  }

  /** Takes the last change off again if it was never sent. @returns its label */
  withdraw(): string | null {
    const last = this.waiting.at(-1);
    if (last === undefined || last.kind !== 'change' || last.since !== null) return null;
    this.#finish(last, new Refusal('taken-back', 'It was taken back before it was sent.'));
    return last.label;
  }

  /** An own change, as the events tell it: its answer comes too, unless it was lost. */
  hear(changed: Changed): void {
    if (this.#busy) this.#heard.push(changed);
    else this.#host.take(changed);
  }

  /** There is nobody to send anything to any more. */
  refuseAll(refusal: Refusal): void {
    clearTimeout(this.#again);
    for (const one of this.waiting) this.#finish(one, refusal);
  }

  async send(): Promise<void> {
    if (this.#busy) return;
    this.#busy = true;
    clearTimeout(this.#again);
    while (this.waiting[0] !== undefined) {
      const isSettled = await this.#try(this.waiting[0]);
      for (const changed of this.#heard.splice(0)) this.#host.take(changed);
      if (isSettled) continue;
      this.#host.reached(false);
      this.#again = setTimeout(() => void this.send(), AGAIN_MS);
      break;
    }
    this.#busy = false;
  }

  /** @returns false when the server was not reached: it stays */
  async #try(first: Waiting): Promise<boolean> {
    const { kind, label, edits } = first;
    const isSecond = first.since !== null;
    first.since ??= this.#host.revision;
    // What was to be undone was refused, and so is gone already.
    if (kind !== 'change' && first.follows?.refused === true) {
      this.#finish(first, new Refusal('taken-back', 'What was to be undone was not stored.'));
      return true;
    }
    try {
      const { path } = this.#host;
      const body = kind === 'change' ? { label, edits } : undefined;
      const changed = await ask<Changed>('POST', `${path}/${kind === 'change' ? 'changes' : kind}`, body);
      this.#host.reached(true);
      this.#passOn(first, ({ noun, id }) => {
        const row = changed.rows.find((one) => one.noun === noun && one.id === id);
        return row === undefined ? undefined : row.version;
      });
      this.#finish(first, null, changed);
    } catch (error) {
      const refusal = error instanceof Refusal ? error : new Refusal('unknown', String(error));
      if (refusal.code === 'unreachable') {
        // Twice undone would be one too many: whether this one was heard is seen in the events.
        if (kind !== 'change') this.#finish(first, refusal);
        return kind !== 'change';
      }
      return this.#refused(first, refusal, isSecond);
    }
    return true;
  }

  async #refused(first: Waiting, refusal: Refusal, isSecond: boolean): Promise<boolean> {
    if (isSecond && first.kind === 'change') {
      try {
        const entries = await ask<HistoryEntry[]>(
          'GET',
          `${this.#host.path}/history?limit=${LOOKED_THROUGH}`,
        );
        const found = storedAs(first, first.since!, entries);
        if (found !== null) {
          await this.#host.reload();
          const { revision } = this.#host;
          this.#passOn(first, (edit) => {
            const now = this.#host.version(edit.noun, edit.id);
            return now === null ? undefined : versionLeft(found, edit, now, revision, entries);
          });
          this.#host.reached(true);
          this.#finish(first, null);
          return true;
        }
      } catch (error) {
        if (error instanceof Refusal && error.code === 'unreachable') return false;
      }
    }
    // Read anew first, so that what is stored shows in the moment what was refused goes.
    await this.#host.reload();
    this.#host.reached(true);
    this.#finish(first, refusal);
    return true;
  }

  /** Later edits of the same rows were made with these before their eyes: they go on from the version these got. */
  #passOn(first: Waiting, versionOf: (edit: Edit) => number | null | undefined): void {
    const own = new Map(first.edits.map((edit) => [`${edit.noun}/${edit.id}`, edit]));
    for (const one of this.waiting) {
      if (one === first) continue;
      one.edits = one.edits.map((edit) => {
        const before = own.get(`${edit.noun}/${edit.id}`);
        if (before === undefined || before.version !== edit.version) return edit;
        const version = versionOf(edit);
        return version === undefined ? edit : { ...edit, version };
      });
    }
  }

  #finish(one: Waiting, refusal: Refusal | null, changed: Changed | null = null): void {
    one.refused = refusal !== null;
    this.waiting = this.waiting.filter((other) => other !== one);
    if (changed !== null) this.#host.take(changed);
    one.settle({ refusal, changed });
  }
}
