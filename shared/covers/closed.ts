/**
 * What has been closed up already that should not have been: work still to come behind a cover that has begun, checks
 * unsigned behind it, parts outstanding behind it or behind a cover with a fixed date.
 */
import type { OrderError, Repair } from '../contract/plan.ts';
import type { Task } from '../contract/task.ts';
import type { Basis } from '../schedule/basis.ts';
import { usableFrom } from '../schedule/basis.ts';
import { DAY, instantOf } from '../time/clock.ts';
import { dayWords, durationWords, instantWords, listWords } from '../time/words.ts';
import { dueUnsigned, lackWords } from './checks.ts';
import type { Exceptions } from './exceptions.ts';
import type { Names } from './names.ts';
import { reopeningOf } from './reopening.ts';
import { hidesIn, type Stack, type StackEntry } from './stacks.ts';

/** One task behind one cover in one zone. */
interface Pair {
  readonly inner: StackEntry;
  readonly cover: StackEntry;
  readonly stack: Stack;
}

export function closedErrors(
  basis: Basis,
  stacks: readonly Stack[],
  exceptions: Exceptions,
  names: Names,
): OrderError[] {
  const begun = (entry: StackEntry) => entry.task.state !== 'not-started';
  const pairs = pairsOf(stacks, exceptions, (cover) => begun(cover) || cover.task.fixedStart !== null);
  const behindBegun = pairs.filter(({ cover }) => begun(cover));
  return [
    ...byInner(behindBegun.filter(({ inner }) => inner.task.state !== 'finished')).map((group) =>
      closedTooEarly(basis, group, names),
    ),
    ...byInner(behindBegun.filter(({ inner }) => dueUnsigned(inner.task).length > 0)).flatMap((group) =>
      coveredUnchecked(group, names),
    ),
    ...uncheckedCovers(basis, stacks, names),
    ...partErrors(basis, pairs, names),
  ];
}

function pairsOf(
  stacks: readonly Stack[],
  exceptions: Exceptions,
  matters: (cover: StackEntry) => boolean,
): Pair[] {
  const pairs: Pair[] = [];
  for (const stack of stacks)
    for (const cover of stack.entries) {
      if (cover.hides < 0 || !matters(cover)) continue;
      for (const inner of stack.entries)
        if (hidesIn(inner, cover) && !exceptions.has(inner.task.key, cover.task.key))
          pairs.push({ inner, cover, stack });
    }
  return pairs;
}

/** Pairs with the same inner task, together; by its key. */
function byInner(pairs: readonly Pair[]): Pair[][] {
  const groups = new Map<string, Pair[]>();
  for (const pair of pairs) {
    const key = pair.inner.task.key;
    groups.set(key, [...(groups.get(key) ?? []), pair]);
  }
  return [...groups.keys()].sort().map((key) => groups.get(key)!);
}

function reopen(pairs: readonly Pair[]): { tasks: string[]; personMinutes: number } {
  const tasks = new Set<string>();
  let personMinutes = 0;
  const zones = new Map(pairs.map(({ stack, inner }) => [stack.zone, { stack, inner }]));
  for (const { stack, inner } of zones.values()) {
    const cost = reopeningOf(stack, inner.reach);
    personMinutes += cost.personMinutes;
    for (const part of cost.parts) tasks.add(part.task);
  }
  tasks.delete(pairs[0]!.inner.task.key);
  return { tasks: [...tasks].sort(), personMinutes };
}

function coversOf(pairs: readonly Pair[]): Task[] {
  return [...new Map(pairs.map(({ cover }) => [cover.task.key, cover.task])).values()];
}

function placeOf({ inner, stack }: Pair): { zone: string; depth: string } {
  return { zone: stack.zone, depth: stack.depths[inner.reach]! };
}

function closedTooEarly(basis: Basis, pairs: readonly Pair[], names: Names): OrderError {
  const { inner } = pairs[0]!;
  const covers = coversOf(pairs);
  const { tasks, personMinutes } = reopen(pairs);
  const zones = [...new Set(pairs.map(({ stack }) => names.zone(stack.zone)))];
  const done = covers.map((cover) => {
    const at = instantWords(basis.clock, instantOf(basis.clock, cover.finishedAt ?? cover.startedAt!));
    return `${names.task(cover.key)} was ${cover.state === 'finished' ? 'finished' : 'begun'} ${at}`;
  });
  const repair: Repair = { kind: 'reopen', tasks, personMinutes };
  return {
    rule: 'closed-too-early',
    tasks: [inner.task.key, ...covers.map(({ key }) => key)],
    ...placeOf(pairs[0]!),
    sentence: `${names.task(inner.task.key)} is not finished, but ${listWords(done)} and ${covers.length === 1 ? 'hides' : 'hide'} it (${listWords(zones)}, ${names.depth(
      placeOf(pairs[0]!).depth,
    )}). Taking that off and putting it back costs ${durationWords(personMinutes)} of work now.`,
    chain: chainOf(pairs),
    repair,
    otherRepairs: covers.map((cover) => ({ kind: 'exception', inner: inner.task.key, cover: cover.key })),
  };
}

function chainOf(pairs: readonly Pair[]): OrderError['chain'] {
  const seen = new Set<string>();
  return pairs
    .filter(({ cover }) => !seen.has(cover.task.key) && seen.add(cover.task.key))
    .map((pair) => ({
      from: pair.inner.task.key,
      to: pair.cover.task.key,
      by: 'cover',
      kind: null,
      ...placeOf(pair),
      reason: '',
    }));
}

function coveredUnchecked(pairs: readonly Pair[], names: Names): OrderError[] {
  const { inner } = pairs[0]!;
  const covers = coversOf(pairs);
  const { tasks, personMinutes } = reopen(pairs);
  return dueUnsigned(inner.task).map((hold) => ({
    rule: 'covered-unchecked',
    tasks: [inner.task.key, ...covers.map(({ key }) => key)],
    ...placeOf(pairs[0]!),
    sentence: `The check “${hold.name}” of ${names.task(inner.task.key)} ${lackWords(hold)}, and ${listWords(
      covers.map(({ key }) => names.task(key)),
    )} ${covers.length === 1 ? 'covers' : 'cover'} it already. Sign it if it was made; else reaching it again costs ${durationWords(
      personMinutes,
    )} of work.`,
    chain: chainOf(pairs),
    repair: { kind: 'sign', task: inner.task.key, holdPoint: hold.key },
    otherRepairs: [{ kind: 'reopen', tasks, personMinutes }],
  }));
}

/** A cover that was begun before its own entry check was signed. */
function uncheckedCovers(basis: Basis, stacks: readonly Stack[], names: Names): OrderError[] {
  const where = new Map<string, { zone: string; depth: string }>();
  for (const { zone, depths, entries } of stacks)
    for (const { task, hides } of entries)
      if (hides >= 0 && !where.has(task.key)) where.set(task.key, { zone, depth: depths[hides]! });
  return basis.tasks.flatMap((task) => {
    const place = where.get(task.key);
    if (place === undefined) return [];
    return dueUnsigned(task)
      .filter((hold) => hold.when === 'entry')
      .map((hold): OrderError => ({
        rule: 'covered-unchecked',
        tasks: [task.key],
        ...place,
        sentence: `${names.task(task.key)} has begun, but the check “${hold.name}” that comes before it ${lackWords(hold)}.`,
        chain: [],
        repair: { kind: 'sign', task: task.key, holdPoint: hold.key },
        otherRepairs: [],
      }));
  });
}

/** Parts that come only after the cover's fixed day, or are outstanding behind a cover that has begun. */
function partErrors(basis: Basis, pairs: readonly Pair[], names: Names): OrderError[] {
  const errors = new Map<string, OrderError>();
  const report = (task: Task, cover: Task, pair: Pair | null) => {
    for (const part of basis.partsOf.get(task.key) ?? []) {
      const from = usableFrom(basis, part);
      if (task.state === 'finished' || from === null) continue;
      const fixed = cover.fixedStart === null ? null : instantOf(basis.clock, cover.fixedStart);
      const begun = cover.state !== 'not-started';
      if (!begun && (fixed === null || from <= fixed)) continue;
      if (begun && pair === null) continue;
      const id = `${task.key} ${cover.key} ${part.purchase.key} ${part.line.key}`;
      const arrives = dayWords(part.day!);
      const cost = pair === null ? null : reopen([pair]);
      errors.set(id, {
        rule: 'part-too-late',
        tasks: task === cover ? [task.key] : [task.key, cover.key],
        zone: pair === null ? null : placeOf(pair).zone,
        depth: pair === null ? null : placeOf(pair).depth,
        sentence: `${part.line.name} for ${names.task(task.key)} comes ${arrives}, but ${
          task === cover ? 'its start' : `${names.task(cover.key)}, which hides it,`
        } ${begun ? 'has begun' : `is fixed to ${dayWords(basis.clock.firstDay + Math.floor(fixed! / DAY))}`}.`,
        chain: pair === null ? [] : chainOf([pair]),
        repair: begun ? { kind: 'reopen', ...cost! } : { kind: 'drop-fixed-start', task: cover.key },
        otherRepairs: [],
      });
    }
  };
  for (const pair of pairs) report(pair.inner.task, pair.cover.task, pair);
  for (const task of basis.tasks)
    if (task.fixedStart !== null && task.state === 'not-started') report(task, task, null);
  return [...errors.keys()].sort().map((id) => errors.get(id)!);
}
