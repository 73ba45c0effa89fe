/**
 * A record being edited: typed values stand here until they are saved or left, also when the reader looks at another
 * sheet meanwhile. While it is dirty it says what is wrong with it and what saving it would do to the plan.
 */
import { effectOf, type Effect } from '#shared/changes/effect.ts';
import { merge, textOf } from '#shared/changes/merge.ts';
import type { ChangedNoun } from '#shared/contract/changes.ts';
import { pointer } from '#shared/contract/pointer.ts';
import type { FieldFault } from '#shared/errors.ts';
import { faultSentence } from '../controls/fault-words.ts';
import type { Refusal } from './api.ts';
import type { Build } from './build.svelte.ts';
import { faultsOfEdits, type Unversioned } from './check.ts';

export class Draft<T extends object> {
  readonly noun: ChangedNoun;
  readonly id: string;
  readonly #build: Build;
  /** The record as it is typed: bind to its fields. */
  value: T = $state()!;
  /** The record as it was read, as text, and its version. */
  #base = $state('');
  #version: number | null = null;
  /** Fields that were changed elsewhere too: what was typed still stands in them. */
  clash = $state.raw<readonly string[]>([]);
  saving = $state(false);
  readonly dirty = $derived(textOf(this.value) !== this.#base);
  readonly overtaken = $derived(this.clash.length > 0);
  readonly edits: readonly Unversioned[] = $derived.by(() => {
    if (!this.dirty) return [];
    return [{ noun: this.noun, id: this.id, value: $state.snapshot(this.value) as Record<string, unknown> }];
  });
  readonly faults: readonly FieldFault[] = $derived(
    this.edits.length === 0 ? [] : faultsOfEdits(this.edits, () => this.#build.tried(this.edits)),
  );
  /** The first fault as a sentence; '' when nothing is wrong. */
  readonly wrong = $derived.by(() => {
    const [first] = this.faults;
    return first === undefined ? '' : faultSentence(first, this.edits, this.#build.tried(this.edits));
  });
  /** What saving would do; null while there is nothing to save or something is wrong. */
  readonly effect: Effect | null = $derived.by(() => {
    if (this.edits.length === 0 || this.faults.length > 0) return null;
    const after = this.#build.foreseen(this.edits);
    return after === null ? null : effectOf(this.#build.plan, after);
  });

  /** @param typed a draft of the same record in the same build as it was open before: what was typed goes on */
  constructor(build: Build, noun: ChangedNoun, id: string, record: T, typed: Draft<T> | null = null) {
    this.#build = build;
    this.noun = noun;
    this.id = id;
    this.#read(record);
    if (typed === null) return;
    this.value = copyOf(typed.value);
    this.#base = typed.#base;
    this.#version = typed.#version;
    this.clash = typed.clash;
  }

  isOf(build: Build): boolean {
    return this.#build === build;
  }

  /** What is wrong with a field or below it, by its path in the record; '' when nothing is. */
  fault(...path: (string | number)[]): string {
    const at = pointer(...path);
    return this.faults.find((one) => one.pointer === at || one.pointer.startsWith(`${at}/`))?.detail ?? '';
  }

  /**
   * The record as it is stored now: an untouched draft follows it, a touched one takes over the fields nobody typed
   * into. Call it whenever the record may have changed.
   */
  follow(record: T): void {
    if (this.saving) return;
    // The same words under a newer version: a change that was shown at once has been stored meanwhile.
    if (textOf(record) === this.#base) this.#version = this.#build.version(this.noun, this.id);
    else if (!this.dirty) this.#read(record);
    else {
      const { value, clash } = merge(JSON.parse(this.#base) as T, $state.snapshot(this.value) as T, record);
      this.#base = textOf(record);
      this.#version = this.#build.version(this.noun, this.id);
      this.value = copyOf(value);
      this.clash = [...new Set([...this.clash, ...clash])].filter((name) => this.#differs(name, record));
    }
  }

  /** Leaves what was typed and shows the record as it is now. */
  leave(record: T): void {
    this.#read(record);
  }

  /** Stores what was typed; where it was overtaken, over what somebody else wrote: the reader was told. */
  async save(label: string): Promise<Refusal | null> {
    if (this.edits.length === 0) return null;
    let refusal = await this.#send(label);
    if (refusal?.code === 'stale-write') {
      const stored = this.#stored();
      if (stored !== null) this.follow(stored);
      // Nothing typed here was touched elsewhere: both go together.
      if (stored !== null && !this.overtaken && this.faults.length === 0) refusal = await this.#send(label);
    }
    this.#build.say(label, refusal);
    return refusal;
  }

  async #send(label: string): Promise<Refusal | null> {
    this.saving = true;
    const version = this.#version;
    const text = textOf(this.value);
    const refusal = await this.#build.change(label, this.edits, { versions: () => version, quiet: true });
    this.saving = false;
    if (refusal === null) {
      this.#base = text;
      this.#version = this.#build.version(this.noun, this.id);
      this.clash = [];
    }
    return refusal;
  }

  /** Null when it is not in the build. */
  #stored(): T | null {
    const { file, by } = this.#build;
    if (this.noun === 'build') return { ...file.build, order: file.order } as unknown as T;
    return (by[this.noun].get(this.id) ?? null) as T | null;
  }

  #differs(name: string, record: T): boolean {
    const of = (one: T) => textOf((one as Record<string, unknown>)[name]);
    return of(record) !== of(this.value);
  }

  #read(record: T): void {
    this.#base = textOf(record);
    this.#version = this.#build.version(this.noun, this.id);
    this.value = copyOf(record);
    this.clash = [];
  }
}

function copyOf<T>(value: T): T {
  return $state.snapshot(value) as T;
}

/** The drafts of this page, kept while it is open: looking at another sheet loses nothing. */
const kept = new Map<string, Draft<object>>();

/** The draft of a record, the same one whenever it is asked for; call `follow` when the record changes. */
export function draftOf<T extends object>(build: Build, noun: ChangedNoun, id: string, record: T): Draft<T> {
  const name = `${build.id}/${noun}/${id}`;
  const known = (kept.get(name) ?? null) as Draft<T> | null;
  if (known?.isOf(build) === true) return known;
  let draft: Draft<T>;
  // It outlives the component that first asks for it, so what it derives must not go down with that component.
  $effect.root(() => {
    draft = new Draft(build, noun, id, record, known);
  });
  kept.set(name, draft! as unknown as Draft<object>);
  return draft!;
}

/** Drafts with something typed and not saved. */
export function dirtyDrafts(build: string): Draft<object>[] {
  return [...kept].flatMap(([name, draft]) => (name.startsWith(`${build}/`) && draft.dirty ? [draft] : []));
}

/** Is anything typed and not saved? */
export function anyDirty(): boolean {
  return [...kept.values()].some((draft) => draft.dirty);
}

/** Lets go of the drafts of a build that is closed; of those with something typed only when the build is gone. */
export function releaseDrafts(build: string, { isGone = false } = {}): void {
  for (const [name, draft] of kept)
    if (name.startsWith(`${build}/`) && (isGone || !draft.dirty)) kept.delete(name);
}
