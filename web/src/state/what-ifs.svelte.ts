/**
 * The what-ifs of a build and the one that is open. Here they are begun, changed, taken back, laid over the
 * plan and dropped; none of it touches the plan.
 */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { layOver, rowIn, settle, withoutMisfits, type Clash, type LaidOver } from '#shared/whatif/lay.ts';
import type { WhatIf, WhatIfEdit, WhatIfStep } from '#shared/whatif/what-if.ts';
import { Refusal } from './api.ts';
import type { Unversioned } from './check.ts';
import { messages } from './messages.svelte.ts';
import { cutLabel } from './refusal-words.ts';
import { forgetIt, isKeptFor, keepIt, keptOf, MOST, openIn, setOpenIn } from './what-if-store.ts';

export class WhatIfs {
  readonly #build: string;
  /** Oldest first. */
  list = $state.raw<readonly WhatIf[]>([]);
  #open = $state.raw<string | null>(null);
  readonly open: WhatIf | null = $derived(this.list.find(({ id }) => id === this.#open) ?? null);
  readonly #plan: () => BuildFile;
  /** The open one laid over the plan as it is by now; null where none is open. */
  readonly laid: LaidOver | null = $derived.by(() =>
    this.open === null ? null : layOver(this.#plan(), this.open.steps),
  );
  /** Steps of the open one that were taken back, the last first; a new step forgets them. */
  #undone = $state.raw<readonly WhatIfStep[]>([]);
  readonly canUndo = $derived(this.open?.steps.at(-1)?.label ?? null);
  readonly canRedo = $derived(this.#undone[0]?.label ?? null);
  readonly #elsewhere = ({ key }: StorageEvent) => {
    if (isKeptFor(this.#build, key)) this.#read();
  };

  /** @param plan the build as it is stored */
  constructor(build: string, plan: () => BuildFile) {
    this.#build = build;
    this.#plan = plan;
    this.#read();
    this.#open = openIn(build);
  }

  /** Hears of what other windows do to them. */
  listen(): void {
    this.#read();
    addEventListener('storage', this.#elsewhere);
  }

  deafen(): void {
    removeEventListener('storage', this.#elsewhere);
  }

  /** Begins one and opens it. @param edits its first step. @throws Refusal where it cannot be kept */
  begin(name: string, madeAt: string, label: string, edits: readonly Unversioned[], file: BuildFile): void {
    if (this.list.length >= MOST)
      throw new Refusal('too-many', `There are ${MOST} what-ifs of this build already: drop one first.`);
    const steps = edits.length === 0 ? [] : [stepOf(label, edits, file)];
    const id = crypto.randomUUID();
    this.#keep({ id, name: cutLabel(name), madeAt, steps });
    this.enter(id);
  }

  enter(id: string | null): void {
    if (id === this.#open) return;
    withdrawUndo();
    this.#open = id;
    this.#undone = [];
    setOpenIn(this.#build, id);
  }

  /** One more step of the open one. @param file the build it was made in. @throws Refusal */
  add(label: string, edits: readonly Unversioned[], file: BuildFile): void {
    this.#setSteps([...this.open!.steps, stepOf(label, edits, file)]);
    this.#undone = [];
  }

  /** Takes the last step of the open one back. @returns its label; null where there is none */
  undo(): string | null {
    const last = this.open?.steps.at(-1);
    if (last === undefined) return null;
    this.#setSteps(this.open!.steps.slice(0, -1));
    this.#undone = [last, ...this.#undone];
    return last.label;
  }

  redo(): string | null {
    const [next, ...rest] = this.#undone;
    if (next === undefined || this.open === null) return null;
    this.#setSteps([...this.open.steps, next]);
    this.#undone = rest;
    return next.label;
  }

  /** A clash of the open one answered. @throws Refusal */
  answer(clash: Clash, by: 'what-if' | 'plan'): void {
    this.#setSteps(settle(this.open!.steps, clash, by));
    this.#undone = [];
  }

  /** Lets go of the steps of the open one that can no longer be made. @throws Refusal */
  letGo(misfits: LaidOver['misfits']): void {
    this.#setSteps(withoutMisfits(this.open!.steps, misfits));
    this.#undone = [];
  }

  /** @throws Refusal */
  rename(id: string, name: string): void {
    const found = this.list.find((one) => one.id === id);
    if (found !== undefined) this.#keep({ ...found, name: cutLabel(name) });
  }

  /** It became the plan. */
  close(id: string): void {
    if (this.#open === id) this.enter(null);
    this.list = this.list.filter((one) => one.id !== id);
    forgetIt(this.#build, id);
  }

  /** It goes; for a moment it can be had back. */
  drop(id: string): void {
    const found = this.list.find((one) => one.id === id);
    if (found === undefined) return;
    this.close(id);
    messages.done(`Dropped the what-if “${found.name}”.`, {
      offer: { word: 'Put it back', take: () => this.#keepAgain(found) },
    });
  }

  #keepAgain(whatIf: WhatIf): void {
    try {
      this.#keep(whatIf);
    } catch (error) {
      messages.refused(error instanceof Error ? error.message : String(error));
    }
  }

  #setSteps(steps: readonly WhatIfStep[]): void {
    this.#keep({ ...this.open!, steps: [...steps] });
  }

  /** Written down first: what is shown is what would be there after a reload. @throws Refusal */
  #keep(whatIf: WhatIf): void {
    keepIt(this.#build, whatIf);
    const isKnown = this.list.some(({ id }) => id === whatIf.id);
    this.list = isKnown
      ? this.list.map((one) => (one.id === whatIf.id ? whatIf : one))
      : [...this.list, whatIf];
  }

  /** Another window wrote: who is in a what-if that is gone is told, or would edit the plan unawares. */
  #read(): void {
    const was = this.open;
    this.list = keptOf(this.#build);
    this.#undone = [];
    if (was === null || this.open !== null) return;
    this.enter(null);
    messages.refused(
      `The what-if “${was.name}” was closed in another window: what is shown is the plan again.`,
    );
  }
}

/** @param file the build the edits are made in: how their rows stand there */
function stepOf(label: string, edits: readonly Unversioned[], file: BuildFile): WhatIfStep {
  return {
    label: cutLabel(label),
    edits: edits.map(({ noun, id, value, at }): WhatIfEdit => ({
      noun,
      id,
      before: rowIn(file, noun, id),
      after: value,
      ...(at === undefined ? {} : { at }),
    })),
  };
}

/** What was said before offers to undo another thing than what would be undone now. */
function withdrawUndo(): void {
  for (const { id, undo } of messages.list) if (undo) messages.dismiss(id);
}
