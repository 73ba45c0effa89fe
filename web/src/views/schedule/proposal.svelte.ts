/**
 * A date about to be fixed or freed: what it would do is worked out on the way, at most once a frame, and nothing is
 * stored before the builder says so. A day on which the task cannot start gives the first moment after it that it can.
 */
import { effectOf, type Effect } from '#shared/changes/effect.ts';
import type { Plan } from '#shared/contract/plan.ts';
import type { Task } from '#shared/contract/task.ts';
import { dayNumber, dayText } from '#shared/time/days.ts';
import { dayAt } from './bars.ts';
import { dayWords, instantWords } from '../../drawing/words.ts';
import type { Build } from '../../state/build.svelte.ts';
import { messages } from '../../state/messages.svelte.ts';

const SLOW_MS = 12;
const PAUSE_MS = 90;

export interface Ghost {
  readonly key: string;
  readonly start: number;
  readonly end: number;
}

export class Proposal {
  readonly #build: Build;
  /** The task concerned; null while nothing is proposed. */
  key = $state<string | null>(null);
  frees = $state(false);
  /** The day asked for. */
  day = $state(0);
  why = $state('');
  saving = $state(false);
  /** Set down, not under the pointer any more: the reason can be typed. */
  settled = $state(false);
  #foreseen = $state.raw<Plan | null>(null);
  #waiting = false;
  #took = 0;

  readonly task: Task | null = $derived.by(() =>
    this.key === null ? null : (this.#build.by.tasks.get(this.key) ?? null),
  );
  readonly #dates = $derived.by(() =>
    this.key === null ? null : (this.#foreseen?.tasks[this.key]?.dates ?? null),
  );
  /** The moment it would start. */
  readonly start: string | null = $derived.by(() => this.#dates?.start ?? null);
  readonly effect: Effect | null = $derived.by(() => {
    if (this.#foreseen === null) return null;
    const effect = effectOf(this.#build.plan, this.#foreseen);
    // Asked for a day, not for a minute: that its hour comes later is no error.
    return {
      ...effect,
      newErrors: effect.newErrors.filter(
        ({ rule, tasks }) => rule !== 'fixed-start-missed' || tasks[0] !== this.key,
      ),
    };
  });
  readonly ghost: Ghost | null = $derived.by(() => {
    if (this.key === null || this.frees || this.#dates === null) return null;
    const start = dayNumber(this.#dates.start.slice(0, 10));
    return { key: this.key, start, end: Math.max(start + 1, Math.ceil(dayAt(this.#dates.finish))) };
  });
  /** Why not on the day asked for; '' where it is. */
  readonly says: string = $derived.by(() => {
    const { task, start } = this;
    if (task === null || this.frees || start === null || dayNumber(start.slice(0, 10)) <= this.day) return '';
    const because = this.#foreseen?.tasks[task.key]?.because;
    const asked = dayWords(dayText(this.day), this.#build.plan.asOf);
    const reason =
      because === undefined || because === null || because.kind === 'fixed-start'
        ? 'Its people have no window before.'
        : because.words;
    return `Not on ${asked}: it can start ${instantWords(start, this.#build.plan.asOf)}. ${reason}`;
  });

  constructor(build: Build) {
    this.#build = build;
  }

  /** Why the date of this task cannot be fixed, in words; null where it can. */
  refusal(key: string): string | null {
    const task = this.#build.by.tasks.get(key);
    const planned = this.#build.plan.tasks[key];
    if (task === undefined || planned === undefined) return 'This task is no longer in the build.';
    if (planned.state === 'finished') return `“${task.name}” is finished: its dates are what happened.`;
    if (planned.state === 'started') return `“${task.name}” has begun: its start stands.`;
    if (planned.dates === null) return planned.unplaced ?? 'It has no dates yet.';
    return null;
  }

  /** @param day the day it should start on */
  fix(key: string, day: number): void {
    if (this.key !== key || this.frees) {
      this.#begin(key);
      this.why = this.task?.fixedWhy ?? '';
    }
    this.day = Math.max(day, dayNumber(this.#build.plan.asOf.slice(0, 10)));
    this.#later();
  }

  free(key: string): void {
    this.#begin(key);
    this.frees = true;
    this.settled = true;
    this.#foresee();
  }

  leave(): void {
    this.key = null;
    this.frees = false;
    this.settled = false;
    this.why = '';
    this.#foreseen = null;
  }

  async save(): Promise<void> {
    const { task } = this;
    if (task === null || this.saving) return;
    this.#foresee();
    const { start, frees } = this;
    if (!frees && start === null) return;
    const why = this.why.trim();
    const after: Task = frees
      ? { ...task, fixedStart: null, fixedWhy: null }
      : { ...task, fixedStart: start, fixedWhy: why === '' ? null : why };
    this.saving = true;
    const refusal = await this.#build.set(
      `${frees ? 'Free' : 'Fix'} the date of ${task.name}`,
      'tasks',
      task.key,
      after,
    );
    this.saving = false;
    if (refusal === null) this.leave();
  }

  #begin(key: string): void {
    this.leave();
    this.key = key;
    // What was said of the last change would lie over this one.
    for (const { id, kind } of messages.list) if (kind === 'done') messages.dismiss(id);
  }

  #later(): void {
    if (this.#waiting) return;
    this.#waiting = true;
    const run = () => {
      this.#waiting = false;
      this.#foresee();
    };
    if (this.#took > SLOW_MS) setTimeout(run, PAUSE_MS);
    else requestAnimationFrame(run);
  }

  #foresee(): void {
    const { task } = this;
    if (task === null) return;
    const from = performance.now();
    const value = this.frees
      ? { ...task, fixedStart: null, fixedWhy: null }
      : { ...task, fixedStart: `${dayText(this.day)}T00:00` };
    this.#foreseen = this.#build.foreseen([{ noun: 'tasks', id: task.key, value }]);
    this.#took = performance.now() - from;
  }
}
