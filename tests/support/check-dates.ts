/**
 * The independent checker of dates: walks every minute of a plan and lists what is wrong with it, in words. It knows
 * the rules only from their definitions and shares no code with the schedule.
 */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import type { Task } from '#shared/contract/task.ts';
import { coverPairs } from './cover-rule.ts';
import { isAdmissible, minuteOf, runEnd, workable } from './minute-by-minute.ts';

const DAY = 1440;

interface Dated {
  readonly task: Task;
  readonly start: number;
  /** Where what is left begins: the start, or for a task under way its resumption. */
  readonly resume: number;
  readonly finish: number;
  readonly ready: number;
  readonly people: readonly string[];
  readonly sittings: readonly (readonly [number, number])[];
}

/** @returns every breach found; empty when the dates can be kept. Null when they lie past `length` minutes */
export function breaches(file: BuildFile, plan: Plan, length: number): string[] | null {
  const open = openMinutes(file, length);
  const at = (instant: string) => minuteOf(file.build.startOn, instant);
  const dated: Dated[] = [];
  for (const task of file.tasks) {
    const dates = plan.tasks[task.key]!.dates;
    if (dates === null) continue;
    const { people, sittings } = dates;
    const start = at(dates.start);
    dated.push({
      task,
      start,
      resume: sittings[0]?.[0] ?? (task.state === 'started' ? at(dates.finish) : start),
      finish: at(dates.finish),
      ready: at(dates.waitUntil),
      people,
      sittings: sittings as [number, number][],
    });
  }
  if (dated.some(({ ready }) => ready > length)) return null;
  const planned = dated.filter(({ task }) => task.state !== 'finished');
  return [
    ...planned.flatMap((one) => ownBreaches(file, plan, one, open)),
    ...overlapBreaches(planned),
    ...roomBreaches(file, dated),
    ...orderBreaches(file, plan, new Map(dated.map((one) => [one.task.key, one])), open),
  ];
}

function ownBreaches(file: BuildFile, plan: Plan, one: Dated, openFor: Open): string[] {
  const { task, resume, finish, people, sittings } = one;
  const minutes = plan.tasks[task.key]!.minutes;
  const wrong: string[] = [];
  const asOf = minuteOf(file.build.startOn, plan.asOf);
  if (resume < asOf) wrong.push(`${task.key} goes on before the as-of instant`);
  const worked = sittings.reduce((sum, [from, to]) => sum + to - from, 0);
  if (worked !== minutes) wrong.push(`${task.key} works ${worked} of ${minutes} minutes`);
  if (minutes === 0) return wrong;
  if (people.length !== task.people) wrong.push(`${task.key} has ${people.length} of ${task.people} people`);
  const eligible =
    task.who.length > 0 ? task.who : file.people.filter((p) => !p.byNameOnly).map((p) => p.key);
  if (!people.every((key) => eligible.includes(key)))
    wrong.push(`${task.key} is done by someone who may not`);
  const open = openFor(task, people, people.length);
  if (!isAdmissible(open, resume, Math.min(task.shortestSitting, minutes)))
    wrong.push(`${task.key} starts at a minute that will not do`);
  if (runEnd(open, resume, minutes) !== finish) wrong.push(`${task.key} does not end where its run ends`);
  for (const [from, to] of sittings)
    for (let m = from; m < to; m++)
      if (open[m] !== 1) return [...wrong, `${task.key} works outside a window at ${m}`];
  return wrong;
}

function overlapBreaches(dated: readonly Dated[]): string[] {
  const wrong: string[] = [];
  const taken = new Map<string, string>();
  for (const { task, people, sittings } of dated)
    for (const who of [...people.map((key) => `person ${key}`), ...task.tools.map((key) => `tool ${key}`)])
      for (const [from, to] of sittings)
        for (let m = from; m < to; m++) {
          const other = taken.get(`${who} ${m}`);
          if (other !== undefined) wrong.push(`${who} is at ${task.key} and ${other} at ${m}`);
          taken.set(`${who} ${m}`, task.key);
        }
  return wrong.slice(0, 3);
}

function roomBreaches(file: BuildFile, dated: readonly Dated[]): string[] {
  const rooms = [
    ...file.zones.map(({ key, capacity }) => ({ key, zones: [key], capacity })),
    ...file.zoneGroups.map(({ key, zones, capacity }) => ({ key, zones, capacity })),
  ];
  return rooms.flatMap(({ key, zones, capacity }) => {
    const inside = dated
      .filter(({ task }) => task.places.some(({ zone }) => zones.includes(zone)))
      .filter(({ task }) => task.state !== 'finished')
      .map((one) => ({ from: one.resume, to: one.task.waitHoldsZones ? one.ready : one.finish }));
    const moments = inside.map(({ from }) => from);
    return moments
      .filter((m) => inside.filter(({ from, to }) => from <= m && m < to).length > capacity)
      .map((m) => `${key} holds more than ${capacity} at ${m}`);
  });
}

function orderBreaches(file: BuildFile, plan: Plan, dated: ReadonlyMap<string, Dated>, open: Open): string[] {
  const wrong: string[] = [];
  const dropped = new Set(plan.leftOut.map(({ from, to, kind }) => `${from} ${to} ${kind}`));
  const live = (key: string) => file.tasks.find((task) => task.key === key)!.state !== 'finished';
  for (const { from, to, kind, lagMinutes, lagOn } of file.links) {
    const [a, b] = [dated.get(from), dated.get(to)];
    if (dropped.has(`${from} ${to} ${kind}`) || a === undefined || b === undefined || !live(to)) continue;
    const origin = kind === 'FS' ? waitOver(a, open) : kind === 'FF' ? a.finish : a.start;
    const bound =
      lagOn === 'clock' ? origin + lagMinutes : workingLag(file, b.task, origin, lagMinutes, open);
    if (bound === -1) continue;
    const meets = kind === 'FS' || kind === 'SS' ? b.resume >= bound : b.finish >= bound;
    if (!meets) wrong.push(`${kind} from ${from} to ${to} is broken`);
  }
  for (const { inner, cover } of coverPairs(file)) {
    const [a, b] = [dated.get(inner), dated.get(cover)];
    if (a === undefined || b === undefined || !live(cover)) continue;
    if (b.resume < waitOver(a, open)) wrong.push(`${cover} closes before ${inner} is in`);
  }
  for (const purchase of file.purchases)
    for (const line of purchase.lines)
      for (const key of line.neededBy) {
        const one = dated.get(key);
        if (one === undefined || one.task.state !== 'not-started' || purchase.state !== 'wanted') continue;
        const asOfDay = Math.floor(minuteOf(file.build.startOn, plan.asOf) / DAY);
        if (one.start < (asOfDay + purchase.leadDays + 1) * DAY)
          wrong.push(`${key} starts before its part is there`);
      }
  return wrong;
}

function waitOver({ task, finish }: Dated, open: Open): number {
  if (task.waitConditions.length === 0) return finish + task.waitMinutes;
  const holds = open({ conditions: task.waitConditions, tools: [] }, [], 0);
  return task.waitMinutes === 0 ? finish : runEnd(holds, finish, task.waitMinutes);
}

/** Lags in working time count the minutes at which enough of the second task's people could work on it. */
function workingLag(file: BuildFile, task: Task, from: number, lag: number, open: Open): number {
  const eligible =
    task.who.length > 0 ? task.who : file.people.filter((p) => !p.byNameOnly).map((p) => p.key);
  return lag === 0 ? from : runEnd(open(task, eligible, task.people), from, lag);
}

type Open = (needs: Pick<Task, 'conditions' | 'tools'>, team: readonly string[], count: number) => Uint8Array;

/** The minutes at which a team can work, walked once per question. */
function openMinutes(file: BuildFile, length: number): Open {
  const known = new Map<string, Uint8Array>();
  return (needs, team, count) => {
    const question = JSON.stringify([needs.conditions, needs.tools, team, count]);
    const open = known.get(question) ?? workable(file, needs, team, count, length);
    known.set(question, open);
    return open;
  };
}
