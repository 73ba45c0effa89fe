/** The drafted dates of each task as a record of the plan. */
import type { PlannedDates, PlannedTask } from '../contract/plan.ts';
import type { Task } from '../contract/task.ts';
import { dayIndex, instantOf, instantText } from '../time/clock.ts';
import { NEVER_AGAIN } from '../time/working-set.ts';
import { UNKNOWN } from './backward.ts';
import { readyOfFinished } from './build-network.ts';
import type { Draft } from './draft.ts';
import { drivingChain } from './driving-chain.ts';
import { UNPLACED } from './forward.ts';
import { Reasons } from './levelling/because.ts';
import { NOT_BEGUN } from './network.ts';

/** By task key. @param unplaced why a task has no dates, by key */
export function plannedTasks(
  draft: Draft,
  unplaced: ReadonlyMap<string, string>,
): Record<string, PlannedTask> {
  const { basis, drawn, graph, net, levelled, names } = draft;
  const reasons = new Reasons(basis, drawn, graph, net, levelled, names);
  const chain = drivingChain(draft);
  const records: Record<string, PlannedTask> = {};
  for (const task of basis.tasks) {
    const v = graph.indexOf.get(task.key);
    records[task.key] =
      v === undefined
        ? finishedTask(draft, task, chain === null ? null : false)
        : liveTask(draft, task, v, chain, reasons, unplaced.get(task.key) ?? null);
  }
  return records;
}

function finishedTask(draft: Draft, task: Task, chain: false | null): PlannedTask {
  const { clock } = draft.basis;
  const stretch = { start: instantOf(clock, task.startedAt!), finish: instantOf(clock, task.finishedAt!) };
  return {
    state: 'finished',
    minutes: 0,
    complete: 1,
    early: stretch,
    late: stretch,
    totalFloat: null,
    freeFloat: null,
    slackDays: null,
    critical: false,
    dates: finishedDates(draft, task),
    chain,
    because: null,
    unplaced: null,
  };
}

function finishedDates({ basis }: Draft, task: Task): PlannedDates {
  const ready = readyOfFinished(basis, task);
  return {
    start: task.startedAt!,
    finish: task.finishedAt!,
    waitUntil: ready === NEVER_AGAIN ? task.finishedAt! : instantText(basis.clock, ready),
    people: peopleWho(basis.file.hours, task.key),
    sittings: [],
  };
}

function peopleWho(hours: Draft['basis']['file']['hours'], key: string): string[] {
  return [...new Set(hours.filter((entry) => entry.task === key).map((entry) => entry.person))].sort();
}

function liveTask(
  draft: Draft,
  task: Task,
  v: number,
  chain: readonly boolean[] | null,
  reasons: Reasons,
  unplaced: string | null,
): PlannedTask {
  const { basis, net, path } = draft;
  const { early, late } = path;
  const begun = net.begun[v] !== NOT_BEGUN;
  const startOf = (start: number) => (begun ? net.begun[v]! : start);
  const hasEarly = early.start[v] !== UNPLACED;
  const hasLate = late !== null && late.start[v] !== UNKNOWN;
  const total = path.totalFloat[v]!;
  const slackDays =
    !hasEarly || !hasLate
      ? null
      : begun
        ? dayIndex(late.finish[v]!) - dayIndex(early.finish[v]!)
        : dayIndex(late.start[v]!) - dayIndex(early.start[v]!);
  return {
    state: task.state,
    minutes: basis.minutes.get(task.key)!,
    complete: basis.complete.get(task.key)!,
    early: hasEarly ? { start: startOf(early.start[v]!), finish: early.finish[v]! } : null,
    late: hasLate ? { start: startOf(late.start[v]!), finish: late.finish[v]! } : null,
    totalFloat: total,
    freeFloat: path.freeFloat[v]!,
    slackDays,
    critical: total !== null && total === path.least,
    dates: task.state === 'finished' ? finishedDates(draft, task) : datesOf(draft, task, v),
    chain: chain === null ? null : chain[v]!,
    because: task.state === 'finished' ? null : reasons.of(v),
    unplaced,
  };
}

function datesOf({ basis, levelled }: Draft, task: Task, v: number): PlannedDates | null {
  const spot = levelled.spots[v] ?? null;
  if (spot === null) return null;
  const ready = spot.ready === NEVER_AGAIN ? spot.finish : spot.ready;
  return {
    start: task.startedAt ?? instantText(basis.clock, spot.start),
    finish: instantText(basis.clock, spot.finish),
    waitUntil: instantText(basis.clock, ready),
    people: [...spot.team.people],
    sittings: spot.pieces.map(([from, to]) => [from, to]),
  };
}
