/**
 * Timers as a device handles them: start, stop, and the question about a forgotten one. A timer is a row of the build
 * under its person's key, so a second one cannot be started elsewhere, and stopping is one change (the timer goes, its
 * hours come), so that two devices never log it twice. How long it ran is asked of this device's zone each time: a
 * reload, a night asleep and a clock change make no difference.
 */
import type { Hours } from '#shared/contract/log.ts';
import type { Timer } from '#shared/contract/timer.ts';
import { forgottenTimer, type Forgotten } from '#shared/progress/forgotten.ts';
import { ranFor, stopTimer, type Stopped } from '#shared/progress/timer.ts';
import { workedOn, type HowFar } from '#shared/progress/worked-on.ts';
import { duration } from '../drawing/words.ts';
import type { Refusal } from './api.ts';
import type { Build } from './build.svelte.ts';
import type { Unversioned } from './check.ts';
import { nowText } from './clock.svelte.ts';

/** A task, a phase alone, or neither: sorted later. */
export interface OnWhat {
  readonly task: string | null;
  readonly phase: string | null;
}

export interface Stopping {
  /** When, as the clock on the wall says; now where left out. */
  readonly at?: string;
  /** To be logged instead of what it rounds to. */
  readonly minutes?: number;
  readonly howFar?: HowFar;
}

export interface StopPlan {
  readonly stopped: Stopped;
  readonly edits: readonly Unversioned[];
  /** What the history will say. */
  readonly label: string;
}

export function timerOf(build: Build, person: string): Timer | null {
  return build.file.timers.find((timer) => timer.person === person) ?? null;
}

/** Whole minutes by this device's clock and zone, whatever was done to the clock on the wall between. */
export function elapsedBetween(from: string, to: string): number | null {
  const ms = new Date(to).getTime() - new Date(from).getTime();
  return Number.isFinite(ms) ? Math.round(ms / 60_000) : null;
}

/** Minutes it has run; anew every minute. */
export function ranOf(build: Build, { startedAt }: Timer): number {
  return ranFor({ startedAt }, { at: build.now, elapsed: elapsedBetween(startedAt, build.now) });
}

/** Null while it may well still run. */
export function askOf(build: Build, timer: Timer): Forgotten | null {
  const person = build.by.people.get(timer.person);
  return person === undefined ? null : forgottenTimer(timer, person, build.now);
}

export function nameOfWhat(build: Build, { task, phase }: OnWhat): string {
  if (task !== null) return build.by.tasks.get(task)?.name ?? task;
  return phase === null ? 'something to be sorted later' : (build.by.phases.get(phase)?.name ?? phase);
}

/** What stopping it would change: the timer goes, its hours come, its task is begun, further, or done. */
export function stopPlan(
  build: Build,
  timer: Timer,
  { at = build.now, minutes, howFar = null }: Stopping = {},
): StopPlan {
  const elapsed = elapsedBetween(timer.startedAt, at);
  const stopped = stopTimer(timer, { at, elapsed }, minutes);
  const task = timer.task === null ? undefined : build.by.tasks.get(timer.task);
  const entries = stopped.days.map(({ on, minutes: worked }): Hours & { key: string } => ({
    key: newHoursKey(),
    task: timer.task,
    phase: task?.phase ?? timer.phase,
    person: timer.person,
    on,
    minutes: worked,
    note: timer.note,
  }));
  const edits: Unversioned[] = [
    { noun: 'timers', id: idOfTimer(timer), value: null },
    ...entries.map((value) => ({ noun: 'hours' as const, id: value.key, value })),
  ];
  if (task !== undefined && (entries.length > 0 || howFar !== null)) {
    const before = build.file.hours.reduce((sum, one) => sum + (one.task === task.key ? one.minutes : 0), 0);
    const after = workedOn(task, {
      began: timer.startedAt,
      ended: at,
      asOf: build.file.build.asOf,
      howFar,
      logged: before + stopped.minutes,
    });
    if (after !== task) edits.push({ noun: 'tasks', id: task.key, value: after });
  }
  const what = nameOfWhat(build, timer);
  return {
    stopped,
    edits,
    label:
      stopped.minutes === 0
        ? `Stop the timer on ${what}`
        : `Stop and log ${duration(stopped.minutes)} on ${what}`,
  };
}

export function stop(build: Build, timer: Timer, how: Stopping = {}): Promise<Refusal | null> {
  const { edits, label } = stopPlan(build, timer, how);
  return build.change(label, edits);
}

/** It goes, and nothing is logged. */
export function drop(build: Build, timer: Timer): Promise<Refusal | null> {
  return build.set(
    `Stop the timer on ${nameOfWhat(build, timer)} without logging`,
    'timers',
    idOfTimer(timer),
    null,
  );
}

/** Starts a person's timer; what they were at until now is stopped and logged with it. */
export function start(build: Build, person: string, what: OnWhat): Promise<Refusal | null> {
  const running = timerOf(build, person);
  const value: Timer = { key: person, person, ...what, startedAt: nowText(), note: '' };
  const before = running === null ? [] : stopPlan(build, running).edits;
  // Under the same key the new one takes the place of the old: the hours come with it.
  const edits = [
    ...before.filter(({ noun, id }) => noun !== 'timers' || id !== person),
    { noun: 'timers' as const, id: person, value },
  ];
  return build.change(`Start the timer on ${nameOfWhat(build, what)}`, edits);
}

export function newHoursKey(): string {
  return `h-${crypto.randomUUID().slice(0, 8)}`;
}

function idOfTimer({ key, person }: Timer): string {
  return key ?? person;
}
