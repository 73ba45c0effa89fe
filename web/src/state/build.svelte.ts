/**
 * The build at hand: the snapshot the server confirmed, the changes still on their way over it, and the plan computed
 * from both at once. An edit shows its effect before the network answers and is rolled back with a plain sentence if
 * it is refused. Changes go out one after another; those of other devices come in as events.
 */
import { withRows } from '#shared/changes/apply.ts';
import { editsBetween, HEAD_ID } from '#shared/changes/diff.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Changed, ChangedNoun, Edit, HeadRow } from '#shared/contract/changes.ts';
import type { NounName, RecordOf } from '#shared/contract/nouns.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { asOfOf, computePlan } from '#shared/plan.ts';
import { faultSentence } from '../controls/fault-words.ts';
import { ask, CLIENT, Refusal } from './api.ts';
import { faultsOfEdits, type Unversioned } from './check.ts';
import { indexesOf } from './indexes.ts';
import { Listening } from './listening.ts';
import { messages } from './messages.svelte.ts';
import { Outbox, type Host } from './outbox.svelte.ts';
import { cutLabel, refusedWords } from './refusal-words.ts';
import { pathOf, rowName, versionsOf, type Snapshot } from './snapshot.ts';

/** How often the clock is looked at; the plan is computed anew when the minute changes. */
const TICK_MS = 15_000;

/** Builds whose changes are still on their way: they live on while another build is looked at. */
const unsent = new Map<string, Build>();

/** Would closing the page lose a change that was made? */
export function anyUnsent(): boolean {
  return unsent.size > 0;
}

export class Build {
  readonly id: string;
  #confirmed: BuildFile = $state.raw()!;
  readonly #outbox: Outbox;
  /** The build as it shows: confirmed rows with the changes on their way laid over. */
  readonly file = $derived.by(() =>
    this.#outbox.waiting.reduce((file, { edits }) => withRows(file, edits), this.#confirmed),
  );
  /** Now, to the minute, local and without a zone. */
  now = $state(nowText());
  /** The moment the plan is of: a build that names its own does not age with the clock. */
  readonly #asOf = $derived(asOfOf(this.file, this.now));
  readonly plan: Plan = $derived(computePlan(this.file, { now: this.#asOf }));
  readonly by = $derived(indexesOf(this.file));
  canUndo = $state.raw<string | null>(null);
  canRedo = $state.raw<string | null>(null);
  /** False while the server is not heard: changes wait. */
  connected = $state(true);
  /** It was removed meanwhile: there is nothing to change any more. */
  gone = $state(false);
  /** How many changes are on their way. */
  readonly waiting = $derived.by(() => this.#outbox.waiting.length);
  readonly saving = $derived(this.waiting > 0);
  #versions: Map<string, number>;
  #revision: number;
  /** Null once it is closed. */
  #listening: Listening | null = null;
  #clock: ReturnType<typeof setInterval> | undefined;
  readonly #online = () => void this.#outbox.send();

  /** @throws Refusal */
  static async open(id: string): Promise<Build> {
    const known = unsent.get(id);
    if (known === undefined) return new Build(await ask<Snapshot>('GET', `${pathOf(id)}/snapshot`));
    if (known.#listening === null) known.#begin();
    return known;
  }

  private constructor(snapshot: Snapshot) {
    this.id = snapshot.id;
    this.#versions = versionsOf(snapshot);
    this.#revision = snapshot.revision;
    this.#confirmed = snapshot.file;
    this.canUndo = snapshot.canUndo;
    this.canRedo = snapshot.canRedo;
    this.#outbox = new Outbox(this.#host());
    this.#begin();
  }

  /** Nothing is heard any more; what is on its way still goes. */
  close(): void {
    this.#listening?.close();
    this.#listening = null;
    clearInterval(this.#clock);
    removeEventListener('online', this.#online);
  }

  get revision(): number {
    return this.#revision;
  }

  version(noun: ChangedNoun, id: string): number | null {
    return this.#versions.get(rowName(noun, id)) ?? null;
  }

  /** The build as it would be with those edits. */
  tried(edits: readonly Unversioned[]): BuildFile {
    return withRows(this.file, edits);
  }

  /** The plan as it would be with those edits; null where they are not right. */
  foreseen(edits: readonly Unversioned[]): Plan | null {
    const after = this.tried(edits);
    return faultsOfEdits(edits, () => after).length > 0 ? null : computePlan(after, { now: this.now });
  }

  /**
   * One action: shown at once, sent, rolled back if refused (a sentence says so). Resolves to what was refused, or
   * null once it is stored. @param versions those that were read, where they are not the newest
   */
  async change(
    label: string,
    edits: readonly Unversioned[],
    {
      versions,
      quiet = false,
    }: { versions?: (noun: ChangedNoun, id: string) => number | null; quiet?: boolean } = {},
  ): Promise<Refusal | null> {
    if (edits.length === 0) return null;
    const refusal = await this.#send(label, edits, versions ?? ((noun, id) => this.version(noun, id)));
    if (!quiet) this.say(label, refusal);
    return refusal;
  }

  /** Says what became of a change. */
  say(label: string, refusal: Refusal | null): void {
    if (refusal === null) messages.done(`${label}.`, { undo: this.#listening !== null });
    else if (refusal.code !== 'taken-back') messages.refused(refusedWords(label, refusal));
  }

  /** A change of the whole build by a pure function (a repair, a split) as one action. */
  changeTo(label: string, after: BuildFile): Promise<Refusal | null> {
    return this.change(label, editsBetween(this.file, after, { of: (noun, id) => this.version(noun, id) }));
  }

  /** One record set, or removed with null. */
  set<N extends NounName>(
    label: string,
    noun: N,
    id: string,
    value: RecordOf<N> | null,
  ): Promise<Refusal | null> {
    return this.change(label, [{ noun, id, value: value as Edit['value'] }]);
  }

  setHead(label: string, head: Partial<HeadRow>): Promise<Refusal | null> {
    const value = { ...this.file.build, order: this.file.order, ...head };
    return this.change(label, [{ noun: 'build', id: HEAD_ID, value }]);
  }

  undo(): Promise<void> {
    return this.#replay('undo');
  }

  redo(): Promise<void> {
    return this.#replay('redo');
  }

  async #send(
    label: string,
    edits: readonly Unversioned[],
    versions: (noun: ChangedNoun, id: string) => number | null,
  ): Promise<Refusal | null> {
    const after = this.tried(edits);
    const faults = faultsOfEdits(edits, () => after);
    const [first] = faults;
    if (first !== undefined) return new Refusal('bad-change', faultSentence(first, edits, after), faults);
    const sent = edits.map((edit): Edit => ({ ...edit, version: versions(edit.noun, edit.id) }));
    unsent.set(this.id, this);
    const { refusal } = await this.#outbox.add('change', cutLabel(label), sent);
    this.#rest();
    const said = refusal?.code === 'bad-change' ? refusal.errors[0] : undefined;
    return said === undefined
      ? refusal
      : new Refusal(refusal!.code, faultSentence(said, edits, this.tried(edits)), refusal!.errors);
  }

  /** Undo and redo wait their turn behind the changes that were made before them. */
  async #replay(which: 'undo' | 'redo'): Promise<void> {
    if (which === 'undo' && !this.connected) {
      const label = this.#outbox.withdraw();
      if (label !== null) return messages.done(`Undone: ${label}.`);
    }
    if (this.waiting > 0 && !this.connected)
      messages.done(`The ${which} waits with what was changed before it.`);
    unsent.set(this.id, this);
    const { refusal, changed } = await this.#outbox.add(which);
    this.#rest();
    if (changed !== null)
      messages.done(which === 'undo' ? `Undone: ${changed.label}.` : `Done again: ${changed.label}.`);
    else if (refusal !== null && refusal.code !== 'taken-back') messages.refused(refusal.message);
  }

  #rest(): void {
    if (this.waiting === 0 && unsent.get(this.id) === this) unsent.delete(this.id);
  }

  #host(): Host {
    const version = (noun: ChangedNoun, id: string) => this.version(noun, id);
    const revision = () => this.#revision;
    return {
      path: pathOf(this.id),
      get revision() {
        return revision();
      },
      version,
      take: (changed) => this.#take(changed),
      reload: () => this.#reload(),
      reached: (isHeard) => (this.connected = isHeard),
    };
  }

  /** What the server says was changed. */
  #take(changed: Changed): void {
    if (changed.revision <= this.#revision) return;
    // What came between was missed: these rows show at once, the whole is read anew.
    if (changed.revision > this.#revision + 1) void this.#reload();
    else this.#revision = changed.revision;
    for (const { noun, id, version } of changed.rows) {
      if (version === null) this.#versions.delete(rowName(noun, id));
      else this.#versions.set(rowName(noun, id), version);
    }
    this.#confirmed = withRows(this.#confirmed, changed.rows);
    this.canUndo = changed.canUndo;
    this.canRedo = changed.canRedo;
  }

  async #reload(): Promise<void> {
    const known = this.#revision;
    try {
      const snapshot = await ask<Snapshot>('GET', `${pathOf(this.id)}/snapshot`);
      // Overtaken by a change that came meanwhile; a store that knows less than was known before is another store.
      if (snapshot.revision < this.#revision && snapshot.revision >= known) return;
      this.#revision = snapshot.revision;
      this.#versions = versionsOf(snapshot);
      this.#confirmed = snapshot.file;
      this.canUndo = snapshot.canUndo;
      this.canRedo = snapshot.canRedo;
    } catch (error) {
      if (error instanceof Refusal && error.code === 'not-found') this.#end();
      else if (!(error instanceof Refusal && error.code === 'unreachable')) messages.refused(wordsOf(error));
    }
  }

  /** It was removed. */
  #end(): void {
    this.close();
    unsent.delete(this.id);
    this.gone = true;
    this.#outbox.refuseAll(
      new Refusal('not-found', `The build “${this.#confirmed.build.name}” was removed meanwhile.`),
    );
  }

  #begin(): void {
    this.now = nowText();
    this.#clock = setInterval(() => {
      if (!document.hidden) this.now = nowText();
    }, TICK_MS);
    addEventListener('online', this.#online);
    this.#listening = new Listening(`${pathOf(this.id)}/events`, {
      hello: (revision) => {
        this.connected = true;
        this.now = nowText();
        if (revision !== this.#revision) void this.#reload();
        void this.#outbox.send();
      },
      changed: (changed) => {
        if (changed.source === CLIENT) return this.#outbox.hear(changed);
        this.#take(changed);
        messages.done(`${changed.who}: ${changed.label}.`);
      },
      removed: () => this.#end(),
      lost: (isTurnedAway) => {
        this.connected = false;
        // The build may be gone.
        if (isTurnedAway) void this.#reload();
      },
    });
  }
}

/** This moment, local: the client's only look at the clock. */
export function nowText(): string {
  const now = new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}T${two(now.getHours())}:${two(now.getMinutes())}`;
}

export function wordsOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
