/** Tasks, links, exceptions and the kept order: references, estimates in order, states that agree with their dates. */
import type { BuildFile } from './build-file.ts';
import type { Checker, Keys } from './checker.ts';
import type { Zone } from './shell.ts';
import type { Task } from './task.ts';

export function taskFaults(file: BuildFile, keys: Keys, check: Checker): void {
  const zones = new Map(file.zones.map((zone) => [zone.key, zone]));
  file.tasks.forEach((task, i) => {
    const at = ['tasks', i];
    check.one(task.phase, keys.phases, 'phase', ...at, 'phase');
    check.all(task.who, keys.people, 'person', ...at, 'who');
    check.once(task.who, 'person', ...at, 'who');
    check.all(task.tools, keys.tools, 'tool', ...at, 'tools');
    check.once(task.tools, 'tool', ...at, 'tools');
    check.all(task.conditions, keys.conditions, 'condition', ...at, 'conditions');
    check.once(task.conditions, 'condition', ...at, 'conditions');
    check.once(task.kinds, 'kind', ...at, 'kinds');
    check.once(task.cautions, 'caution', ...at, 'cautions');
    check.once(task.waitConditions, 'condition', ...at, 'waitConditions');
    check.all(task.waitConditions, keys.conditions, 'condition', ...at, 'waitConditions');
    check.unique('holdPoints', task.holdPoints, ...at);
    estimateFaults(task, at, check);
    placeFaults(task, at, zones, keys, check);
    holdPointFaults(task, at, keys, check);
    stateFaults(task, at, file.build.asOf, check);
  });
  linkFaults(file, keys, check);
  file.exceptions.forEach(({ inner, cover }, i) => {
    check.one(inner, keys.tasks, 'task', 'exceptions', i, 'inner');
    check.one(cover, keys.tasks, 'task', 'exceptions', i, 'cover');
    if (inner === cover)
      check.fault(['exceptions', i, 'cover'], 'is the task itself: name the task that covers it');
  });
  check.once(
    file.exceptions.map(({ inner, cover }) => `${inner} behind ${cover}`),
    'pair',
    'exceptions',
  );
  check.all(file.order, keys.tasks, 'task', 'order');
  check.once(file.order, 'task', 'order');
}

function estimateFaults(
  { minutes: { low, likely, high } }: Task,
  at: readonly (string | number)[],
  check: Checker,
): void {
  if (low > likely)
    check.fault(
      [...at, 'minutes', 'low'],
      `${low} is more than likely (${likely}): it must be ${likely} or less`,
    );
  if (high < likely)
    check.fault(
      [...at, 'minutes', 'high'],
      `${high} is less than likely (${likely}): it must be ${likely} or more`,
    );
}

function placeFaults(
  task: Task,
  at: readonly (string | number)[],
  zones: Map<string, Zone>,
  keys: Keys,
  check: Checker,
): void {
  task.places.forEach(({ zone: key, depth, hides }, p) => {
    check.one(key, keys.zones, 'zone', ...at, 'places', p, 'zone');
    const zone = zones.get(key);
    if (zone === undefined) return;
    const depths = new Set(zone.depths);
    check.one(depth, depths, `depth in ${zone.key} called`, ...at, 'places', p, 'depth');
    check.one(hides, depths, `depth in ${zone.key} called`, ...at, 'places', p, 'hides');
  });
  check.once(
    task.places.map(({ zone, depth }) => `${zone} ${depth}`),
    'place',
    ...at,
    'places',
  );
}

function holdPointFaults(task: Task, at: readonly (string | number)[], keys: Keys, check: Checker): void {
  task.holdPoints.forEach(({ attempts }, h) =>
    attempts.forEach(({ by }, a) =>
      check.one(by, keys.people, 'person', ...at, 'holdPoints', h, 'attempts', a, 'by'),
    ),
  );
}

function stateFaults(
  task: Task,
  at: readonly (string | number)[],
  asOf: string | null,
  check: Checker,
): void {
  const { state, startedAt, finishedAt, remainingMinutes } = task;
  const needs = (field: string, why: string) => check.fault([...at, field], why);
  if (state === 'not-started') {
    if (startedAt !== null)
      needs('startedAt', `is set, but the task is not started: leave it null or set state to started`);
    if (finishedAt !== null)
      needs('finishedAt', `is set, but the task is not started: leave it null or set state to finished`);
  } else if (startedAt === null)
    needs('startedAt', `is null, but the task is ${state}: it must say when it began`);
  if (state === 'started' && finishedAt !== null)
    needs('finishedAt', 'is set, but the task is only started: leave it null or set state to finished');
  if (state === 'finished' && finishedAt === null)
    needs('finishedAt', 'is null, but the task is finished: it must say when');
  if (state !== 'started' && remainingMinutes !== null)
    needs('remainingMinutes', `is for started tasks only: leave it null while the task is ${state}`);
  check.order([...at, 'finishedAt'], startedAt, finishedAt, 'the task started');
  if (asOf === null) return;
  if (startedAt !== null && startedAt > asOf)
    needs('startedAt', `${startedAt} lies after the as-of date ${asOf}: it must be ${asOf} or before`);
  if (finishedAt !== null && finishedAt > asOf)
    needs('finishedAt', `${finishedAt} lies after the as-of date ${asOf}: it must be ${asOf} or before`);
}

function linkFaults(file: BuildFile, keys: Keys, check: Checker): void {
  const seen = new Map<string, number>();
  file.links.forEach(({ from, to, kind }, i) => {
    check.one(from, keys.tasks, 'task', 'links', i, 'from');
    check.one(to, keys.tasks, 'task', 'links', i, 'to');
    if (from === to)
      check.fault(
        ['links', i, 'to'],
        `"${to}" is linked to itself: a task cannot wait for itself, name another`,
      );
    const id = `${from} ${to} ${kind}`;
    const first = seen.get(id);
    if (first === undefined) seen.set(id, i);
    else
      check.fault(['links', i], `repeats /links/${first} (${from} to ${to}, ${kind}): state each link once`);
  });
}
