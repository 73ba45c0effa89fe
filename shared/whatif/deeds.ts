/**
 * What a what-if does not take: deeds. Hours that were worked, checks that were signed, parts that came and money that
 * was paid happened, whatever is planned; entered into a what-if they would be lost with it.
 */
import { textOf } from '../changes/merge.ts';
import type { BuildFile } from '../contract/build-file.ts';
import type { Edit } from '../contract/changes.ts';
import type { Purchase } from '../contract/purchase.ts';
import type { Task } from '../contract/task.ts';
import { rowIn } from './lay.ts';

export const DEEDS = [
  'hours',
  'timer',
  'photo',
  'weighing',
  'frozen-plan',
  'signing',
  'progress',
  'step-done',
  'arrival',
  'payment',
  'receipt',
] as const;
export type Deed = (typeof DEEDS)[number];

const NOUN_DEEDS: Partial<Record<Edit['noun'], Deed>> = {
  timers: 'timer',
  hours: 'hours',
  records: 'photo',
  weighings: 'weighing',
  baselines: 'frozen-plan',
};

/** The first deed among the edits; null where they only plan. @param file the build they are made in */
export function deedIn(file: BuildFile, edits: readonly Pick<Edit, 'noun' | 'id' | 'value'>[]): Deed | null {
  // A timer that stops brings hours along: it is called by its own name.
  const nouns = edits.flatMap(({ noun }) => NOUN_DEEDS[noun] ?? []);
  if (nouns.length > 0) return nouns.includes('timer') ? 'timer' : nouns[0]!;
  for (const { noun, id, value } of edits) {
    if (value === null) continue;
    const was = rowIn(file, noun, id);
    const deed =
      noun === 'tasks'
        ? taskDeed(was as unknown as Task | null, value as unknown as Task)
        : noun === 'purchases'
          ? purchaseDeed(was as unknown as Purchase | null, value as unknown as Purchase)
          : null;
    if (deed !== null) return deed;
  }
  return null;
}

function taskDeed(was: Task | null, now: Task): Deed | null {
  const attempts = (task: Task | null) =>
    task?.holdPoints.flatMap(({ key, attempts: made }) => (made.length === 0 ? [] : [[key, made]])) ?? [];
  if (textOf(attempts(was)) !== textOf(attempts(now))) return 'signing';
  const progress = (task: Task | null) =>
    task === null ? ['not-started', null, null] : [task.state, task.startedAt, task.finishedAt];
  if (textOf(progress(was)) !== textOf(progress(now))) return 'progress';
  const done = (task: Task | null) => task?.steps.flatMap(({ text, done: is }) => (is ? [text] : [])) ?? [];
  return done(now).some((text) => !done(was).includes(text)) ? 'step-done' : null;
}

function purchaseDeed(was: Purchase | null, now: Purchase): Deed | null {
  const differs = <K extends keyof Purchase>(name: K, blank: Purchase[K]) =>
    textOf(was === null ? blank : was[name]) !== textOf(now[name]);
  if (differs('payments', [])) return 'payment';
  if (differs('receipts', [])) return 'receipt';
  if (differs('deliveries', []) || differs('returns', [])) return 'arrival';
  const came = (purchase: Purchase | null) =>
    purchase !== null && CAME.has(purchase.state) ? purchase.state : null;
  return came(was) === came(now) ? null : 'arrival';
}

/** To order on some day is a plan; that something came or went back is not. */
const CAME: ReadonlySet<Purchase['state']> = new Set(['part-received', 'received', 'returned']);
