/**
 * The task at hand for every part of its sheet: as it is typed, and how a quick change of it is made. A quick change is
 * stored at once; while something else of the task is typed and not saved, it joins that instead, so that neither
 * writes over the other.
 */
import type { Task } from '#shared/contract/task.ts';
import { shortName } from '#shared/covers/names.ts';
import type { Refusal } from './api.ts';
import type { Unversioned } from './check.ts';
import type { Build } from './build.svelte.ts';
import { draftOf, type Draft } from './draft.svelte.ts';
import { messages } from './messages.svelte.ts';

export class TaskEdit {
  readonly build: Build;
  readonly key: string;
  readonly draft: Draft<Task>;

  constructor(build: Build, task: Task) {
    this.build = build;
    this.key = task.key;
    this.draft = draftOf(build, 'tasks', task.key, task);
  }

  /** As it is typed. */
  get task(): Task {
    return this.draft.value;
  }

  /** As it is stored. */
  get record(): Task {
    return this.build.by.tasks.get(this.key) ?? this.draft.value;
  }

  /** Short enough for a label. */
  get name(): string {
    return shortName(this.record.name);
  }

  /** The edits a change of the task makes, to be shown before they are saved. */
  edits(change: (task: Task) => Task): Unversioned[] {
    return [{ noun: 'tasks', id: this.key, value: change(this.record) }];
  }

  /** @returns why it was not stored; null where it was */
  async quick(label: string, change: (task: Task) => Task): Promise<Refusal | null> {
    if (this.draft.dirty) {
      this.draft.value = change($state.snapshot(this.draft.value) as Task);
      messages.done('Put with what you changed and have not saved yet.');
      return null;
    }
    return this.build.set(label, 'tasks', this.key, change(this.record));
  }
}
