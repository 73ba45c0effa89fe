/** Repairs as changes of a build: a new build in which one error's repair has been made. The old one stays as it was. */
import type { BuildFile } from '../contract/build-file.ts';
import type { Repair } from '../contract/plan.ts';
import type { Task } from '../contract/task.ts';
import { PlanError } from '../errors.ts';
import { reopenMinutes } from './reopening.ts';

/** What the builder adds to a repair. */
export interface RepairContext {
  /** The moment of signing, `2027-03-13T18:30`, and who signs. */
  readonly at: string;
  readonly by: string;
  /** Why an excepted task can still be reached. */
  readonly reason: string;
}

/** @throws PlanError `repair-gone` when what it would change is no longer there */
export function applyRepair(file: BuildFile, repair: Repair, context: RepairContext): BuildFile {
  switch (repair.kind) {
    case 'drop-links':
      return dropLinks(file, repair.links);
    case 'split':
      return split(file, repair.task, repair.zone);
    case 'exception': {
      const { inner, cover } = repair;
      requireTask(file, inner, repair.kind);
      requireTask(file, cover, repair.kind);
      return { ...file, exceptions: [...file.exceptions, { inner, cover, reason: context.reason }] };
    }
    case 'drop-place':
      return changeTask(file, repair.task, repair.kind, (task) => ({
        ...task,
        places: task.places.filter(({ zone, depth }) => zone !== repair.zone || depth !== repair.depth),
      }));
    case 'sign':
      return changeTask(file, repair.task, repair.kind, (task) => sign(task, repair.holdPoint, context));
    case 'reopen':
      return repair.tasks.reduce((changed, key) => changeTask(changed, key, repair.kind, reopened), file);
    case 'drop-fixed-start':
      return changeTask(file, repair.task, repair.kind, (task) => ({
        ...task,
        fixedStart: null,
        fixedWhy: null,
      }));
  }
}

function gone(repair: string, what: string): PlanError {
  return new PlanError(`This repair no longer fits: ${what}.`, { code: 'repair-gone', repair });
}

function requireTask(file: BuildFile, key: string, repair: string): Task {
  const task = file.tasks.find((one) => one.key === key);
  if (task === undefined) throw gone(repair, `there is no task "${key}" any more`);
  return task;
}

function changeTask(file: BuildFile, key: string, repair: string, change: (task: Task) => Task): BuildFile {
  requireTask(file, key, repair);
  return { ...file, tasks: file.tasks.map((task) => (task.key === key ? change(task) : task)) };
}

function dropLinks(file: BuildFile, links: Extract<Repair, { kind: 'drop-links' }>['links']): BuildFile {
  const dropped = new Set(links.map(({ from, to, kind }) => `${from} ${to} ${kind}`));
  const kept = file.links.filter(({ from, to, kind }) => !dropped.has(`${from} ${to} ${kind}`));
  if (kept.length + dropped.size !== file.links.length)
    throw gone('drop-links', 'a link it drops is not there any more');
  return { ...file, links: kept };
}

function sign(task: Task, holdPoint: string, { at, by }: RepairContext): Task {
  if (!task.holdPoints.some(({ key }) => key === holdPoint))
    throw gone('sign', `there is no check "${holdPoint}" any more`);
  const attempt = { at, by, pass: true, reading: null, photo: null };
  return {
    ...task,
    holdPoints: task.holdPoints.map((hold) =>
      hold.key === holdPoint ? { ...hold, attempts: [...hold.attempts, attempt] } : hold,
    ),
  };
}

/** Taken off, it is work again: as many hours as taking off and putting back need, and its checks once more. */
function reopened(task: Task): Task {
  const likely = Math.ceil(reopenMinutes(task) / task.people);
  const scale = task.minutes.likely === 0 ? 1 : likely / task.minutes.likely;
  return {
    ...task,
    minutes: {
      low: Math.round(task.minutes.low * scale),
      likely,
      high: Math.round(task.minutes.high * scale),
    },
    state: 'not-started',
    startedAt: null,
    finishedAt: null,
    remainingMinutes: null,
    holdPoints: task.holdPoints.map((hold) => ({ ...hold, attempts: [] })),
    note: `${task.note}${task.note === '' ? '' : '\n'}Taken off again: off and back ${likely} minutes; before, ${task.minutes.likely} minutes estimated.`,
  };
}

/** The places in one zone become a task of their own, with its share of the hours and the same links. */
function split(file: BuildFile, key: string, zone: string): BuildFile {
  const task = requireTask(file, key, 'split');
  const here = task.places.filter((place) => place.zone === zone);
  const elsewhere = task.places.filter((place) => place.zone !== zone);
  if (here.length === 0 || elsewhere.length === 0)
    throw gone('split', `"${task.name}" works in one zone only`);
  const own = freeKey(file, `${key}-${zone}`);
  const zones = new Set(task.places.map((place) => place.zone)).size;
  const part = shareOf(task, zones);
  const name = `${task.name}, ${file.zones.find((one) => one.key === zone)?.name ?? zone}`.slice(0, 200);
  const share = (whole: number | null) => (whole === null ? null : Math.round(whole / zones));
  const [reopen, remaining] = [share(task.reopenMinutes), share(task.remainingMinutes)];
  const rest: Task = {
    ...task,
    minutes: minus(task.minutes, part),
    places: elsewhere,
    reopenMinutes: reopen === null ? null : task.reopenMinutes! - reopen,
    remainingMinutes: remaining === null ? null : task.remainingMinutes! - remaining,
  };
  const fresh: Task = {
    ...task,
    key: own,
    name,
    minutes: part,
    places: here,
    reopenMinutes: reopen,
    remainingMinutes: remaining,
  };
  const both = (keys: readonly string[]) => keys.flatMap((one) => (one === key ? [key, own] : [one]));
  return {
    ...file,
    tasks: file.tasks.flatMap((one) => (one.key === key ? [rest, fresh] : [one])),
    links: file.links.flatMap((link) =>
      link.from === key
        ? [link, { ...link, from: own }]
        : link.to === key
          ? [link, { ...link, to: own }]
          : [link],
    ),
    exceptions: file.exceptions.flatMap((pair) =>
      pair.inner === key
        ? [pair, { ...pair, inner: own }]
        : pair.cover === key
          ? [pair, { ...pair, cover: own }]
          : [pair],
    ),
    order: both(file.order),
    decisions: file.decisions.map((decision) => ({ ...decision, locksTasks: both(decision.locksTasks) })),
    purchases: file.purchases.map((purchase) => ({
      ...purchase,
      lines: purchase.lines.map((line) => ({ ...line, neededBy: both(line.neededBy) })),
    })),
  };
}

function shareOf({ minutes }: Task, zones: number): Task['minutes'] {
  const part = (value: number) => Math.round(value / zones);
  return { low: part(minutes.low), likely: part(minutes.likely), high: part(minutes.high) };
}

function minus(whole: Task['minutes'], part: Task['minutes']): Task['minutes'] {
  return { low: whole.low - part.low, likely: whole.likely - part.likely, high: whole.high - part.high };
}

function freeKey(file: BuildFile, wanted: string): string {
  const taken = new Set(file.tasks.map((task) => task.key));
  let key = wanted;
  for (let n = 2; taken.has(key); n++) key = `${wanted}-${n}`;
  return key;
}
