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
import { withElsewhere } from '#shared/time/elsewhere.ts';
import { faultSentence } from '../controls/fault-words.ts';
import { ask, CLIENT, Refusal } from './api.ts';
import { faultsOfEdits, type Unversioned } from './check.ts';
import { Clock } from './clock.svelte.ts';
import { OtherBuilds } from './elsewhere.svelte.ts';
import { indexesOf } from './indexes.ts';
import { Listening } from './listening.ts';
import { messages } from './messages.svelte.ts';
import { Outbox, type Host } from './outbox.svelte.ts';
import { cutLabel, plainRefusal, refusedWords } from './refusal-words.ts';
import { pathOf, Versions, type Snapshot } from './snapshot.ts';
import { stepBack, tryOut } from './what-if-steps.ts';
import { WhatIfs } from './what-ifs.svelte.ts';

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
  readonly whatIfs: WhatIfs;
  /** What is stored or on its way there: confirmed rows with the changes that wait laid over, no what-if. */
  readonly stored = $derived.by(() =>
    this.#outbox.waiting.reduce((file, { edits }) => withRows(file, edits), this.#confirmed),
  );
  /** The build as it shows, with the what-if that is open: every sheet works on this. */
  readonly file = $derived.by(() => this.whatIfs.laid?.file ?? this.stored);
  readonly #clock = new Clock();
  /** The moment the plan is of: a build that names its own does not age with the clock. */
  readonly #asOf = $derived(asOfOf(this.file, this.now));
  readonly others: OtherBuilds;
  /** The build to compute dates from: its people are not here while they are planned at builds that come first. */
  readonly planned = $derived.by(() => this.plannedOf(this.file));
  readonly plan: Plan = $derived(computePlan(this.planned, { now: this.#asOf }));
  /** The plan without the what-if that is open. */
  readonly storedPlan: Plan = $derived.by(() =>
    this.whatIfs.open === null ? this.plan : this.planOf(this.stored),
  );
  readonly by = $derived(indexesOf(this.file));
  #undoable = $state.raw<Pick<Snapshot, 'canUndo' | 'canRedo'>>({ canUndo: null, canRedo: null });
  /** What an undo would take back: of an open what-if, its own last step and nothing of the plan. */
  readonly canUndo = $derived.by(() => (this.whatIfs.open === null ? this.#undoable : this.whatIfs).canUndo);
  readonly canRedo = $derived.by(() => (this.whatIfs.open === null ? this.#undoable : this.whatIfs).canRedo);
  /** False while the server is not heard: changes wait. */
  connected = $state(true);
  /** It was removed meanwhile: there is nothing to change any more. */
  gone = $state(false);
  /** How many changes are on their way. */
  readonly waiting = $derived.by(() => this.#outbox.waiting.length);
  readonly saving = $derived(this.waiting > 0);
  #versions: Versions;
  #revision: number;
  /** Null once it is closed. */
  #listening: Listening | null = null;
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
    this.#versions = new Versions(snapshot);
    this.#revision = snapshot.revision;
    this.#confirmed = snapshot.file;
    this.#undoable = snapshot;
    this.#outbox = new Outbox(this.#host());
    this.others = new OtherBuilds(pathOf(snapshot.id), snapshot.elsewhere);
    this.whatIfs = new WhatIfs(snapshot.id, () => this.stored);
    this.#begin();
  }

  /** Nothing is heard any more; what is on its way still goes. */
  close(): void {
    this.#listening?.close();
    this.#listening = null;
    this.#clock.stop();
    this.others.stop();
    this.whatIfs.deafen();
    removeEventListener('online', this.#online);
  }

  /** To the minute. */
  get now(): string {
    return this.#clock.now;
  }

  get revision(): number {
    return this.#revision;
  }

  version(noun: ChangedNoun, id: string): number | null {
    return this.#versions.of(noun, id);
  }

  /** The build as it would be with those edits. */
  tried(edits: readonly Unversioned[]): BuildFile {
    return withRows(this.file, edits);
  }

  /** The plan as it would be with those edits; null where they are not right. */
  foreseen(edits: readonly Unversioned[]): Plan | null {
    const after = this.tried(edits);
    return faultsOfEdits(edits, () => after).length > 0 ? null : this.planOf(after);
  }

  /** The plan of another state of this build, seen from the same moment. */
  planOf(file: BuildFile): Plan {
    return computePlan(this.plannedOf(file), { now: this.now });
  }

  /** That state as its dates are computed from it. */
  plannedOf(file: BuildFile): BuildFile {
    return withElsewhere(file, this.others.busy);
  }

  /**
   * One action: shown at once, sent (an open what-if takes it instead), rolled back if refused (a sentence says so).
   * Resolves to what was refused, or null once it is stored. @param versions those read, where they are not the newest
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
    const where = this.whatIfs.open === null ? '' : ', in the what-if alone';
    if (refusal === null) messages.done(`${label}${where}.`, { undo: this.#listening !== null });
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
    if (this.whatIfs.open !== null) return tryOut(this, label, edits);
    const sent = edits.map((edit): Edit => ({ ...edit, version: versions(edit.noun, edit.id) }));
    unsent.set(this.id, this);
    const { refusal } = await this.#outbox.add('change', cutLabel(label), sent);
    this.#rest();
    return plainRefusal(refusal, edits, () => this.tried(edits));
  }

  /** Undo and redo wait their turn behind the changes that were made before them. */
  async #replay(which: 'undo' | 'redo'): Promise<void> {
    if (this.whatIfs.open !== null) return stepBack(this.whatIfs, which);
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
    this.#versions.take(changed.rows);
    this.#confirmed = withRows(this.#confirmed, changed.rows);
    this.#undoable = changed;
  }

  async #reload(): Promise<void> {
    const known = this.#revision;
    try {
      const snapshot = await ask<Snapshot>('GET', `${pathOf(this.id)}/snapshot`);
      // Overtaken by a change that came meanwhile; a store that knows less than was known before is another store.
      if (snapshot.revision < this.#revision && snapshot.revision >= known) return;
      this.#revision = snapshot.revision;
      this.#versions = new Versions(snapshot);
      this.#confirmed = snapshot.file;
      this.#undoable = snapshot;
      this.others.take(snapshot.elsewhere);
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
    this.#clock.start();
    this.others.start();
    this.whatIfs.listen();
    addEventListener('online', this.#online);
    this.#listening = new Listening(`${pathOf(this.id)}/events`, {
      hello: (revision) => {
        this.connected = true;
        this.#clock.look();
        if (revision !== this.#revision) void this.#reload();
        else void this.others.read();
        void this.#outbox.send();
      },
      changed: (changed) => {
        if (changed.source === CLIENT) return this.#outbox.hear(changed);
        this.#take(changed);
        messages.done(`${changed.who}: ${changed.label}.`);
      },
      removed: () => this.#end(),
      elsewhere: () => void this.others.read(),
      lost: (isTurnedAway) => {
        this.connected = false;
        // The build may be gone.
        if (isTurnedAway) void this.#reload();
      },
    });
  }
}

export function wordsOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
