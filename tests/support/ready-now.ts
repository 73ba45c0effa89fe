/**
 * What can be worked on now, as the rule reads, task by task and pair by pair: the oracle of the evening's set. It shares
 * no code with it; the waits it counts minute by minute.
 */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import type { HoldPoint, Task } from '#shared/contract/task.ts';
import { coverPairs } from './cover-rule.ts';
import { minuteOf, runEnd, toolIsThere, workable } from './minute-by-minute.ts';

interface Evening {
  readonly people: readonly string[];
  readonly minutes: number;
  readonly holding: readonly string[];
}

/** Far enough for every wait of a random build. */
const LENGTH = 40 * 1440;

/** The keys of the tasks that may be begun, or gone on with, at the plan's now. */
export function readyNow(file: BuildFile, plan: Plan, { people, minutes, holding }: Evening): Set<string> {
  const now = minuteOf(file.build.startOn, plan.asOf);
  const orderly = new Set(file.tasks.filter((one) => isOrderly(file, plan, one, now)).map(({ key }) => key));
  const ready = file.tasks.filter((one) => {
    if (one.state === 'finished' || !orderly.has(one.key)) return false;
    const left = plan.tasks[one.key]!.minutes;
    if (!one.conditions.every((key) => holding.includes(key))) return false;
    const day = plan.asOf.slice(0, 10);
    if (!file.tools.every((tool) => !one.tools.includes(tool.key) || toolIsThere(tool, day))) return false;
    const able = people.filter((key) =>
      one.who.length > 0
        ? one.who.includes(key)
        : file.people.some((person) => person.key === key && !person.byNameOnly),
    );
    const shortest = Math.min(left, one.shortestSitting === 0 ? 30 : one.shortestSitting);
    if (left > 0 && (able.length < one.people || shortest > minutes)) return false;
    return one.state === 'started' || (isFree(file, one, plan) && hasRoom(file, one, orderly, now));
  });
  return new Set(ready.map(({ key }) => key));
}

/** Nothing that comes before it, by a link or because it hides it, still holds its start. */
function isOrderly(file: BuildFile, plan: Plan, one: Task, now: number): boolean {
  const of = (key: string) => file.tasks.find((task) => task.key === key)!;
  const dropped = (from: string, kind: string) =>
    plan.leftOut.some((out) => out.from === from && out.to === one.key && out.kind === kind);
  const hidden = coverPairs(file).filter(({ cover }) => cover === one.key);
  if (!hidden.every(({ inner }) => isOver(file, of(inner), 0, now))) return false;
  return file.links.every(({ from, to, kind, lagMinutes, lagOn }) => {
    if (to !== one.key || dropped(from, kind)) return true;
    const first = of(from);
    const lag = (at: number) => (lagOn === 'clock' ? at + lagMinutes : workedLag(file, one, at, lagMinutes));
    if (kind === 'FS') return isOver(file, first, 0, now) && lag(hardAt(file, first)) <= now;
    if (kind === 'SS')
      return first.state !== 'not-started' && lag(minuteOf(file.build.startOn, first.startedAt!)) <= now;
    // It may be begun; what is too short to be left unfinished may not.
    const done = kind === 'FF' ? first.state === 'finished' : first.state !== 'not-started';
    const at = kind === 'FF' ? first.finishedAt : first.startedAt;
    const left = plan.tasks[one.key]!.minutes;
    const shortest = one.shortestSitting === 0 ? 30 : one.shortestSitting;
    return left >= shortest + 30 || (done && lag(minuteOf(file.build.startOn, at!)) <= now + left);
  });
}

function isOver(file: BuildFile, first: Task, lag: number, now: number): boolean {
  return (
    first.state === 'finished' &&
    hardAt(file, first) + lag <= now &&
    first.holdPoints.every((check) => check.when === 'entry' || passed(check))
  );
}

function hardAt(file: BuildFile, first: Task): number {
  const finished = minuteOf(file.build.startOn, first.finishedAt!);
  if (first.waitConditions.length === 0) return finished + first.waitMinutes;
  if (first.waitMinutes === 0) return finished;
  const open = workable(file, { conditions: first.waitConditions, tools: [] }, [], 0, LENGTH);
  const end = runEnd(open, finished, first.waitMinutes);
  return end === -1 ? Infinity : end;
}

function workedLag(file: BuildFile, one: Task, from: number, lag: number): number {
  if (lag === 0) return from;
  const able = one.who.length > 0 ? one.who : file.people.filter((p) => !p.byNameOnly).map((p) => p.key);
  const end = runEnd(workable(file, one, able, one.people, LENGTH), from, lag);
  return end === -1 ? Infinity : end;
}

function passed({ attempts }: HoldPoint): boolean {
  const last = attempts.toSorted((a, b) => (a.at < b.at ? -1 : 1)).at(-1)?.at;
  return last !== undefined && attempts.filter(({ at }) => at === last).every(({ pass }) => pass);
}

/** Its parts are here, its first checks signed, no question locks it and its date has come. */
function isFree(file: BuildFile, one: Task, plan: Plan): boolean {
  const parts = file.purchases.filter(({ lines }) =>
    lines.some(({ neededBy }) => neededBy.includes(one.key)),
  );
  return (
    parts.every(({ state }) => state === 'received') &&
    one.holdPoints.every((check) => check.when === 'exit' || passed(check)) &&
    !file.decisions.some(({ chosen, locksTasks }) => chosen === null && locksTasks.includes(one.key)) &&
    (one.fixedStart === null || one.fixedStart <= plan.asOf)
  );
}

/** Room in every zone of its own, with what is under way in it and can go on, and what hardens behind a shut door. */
function hasRoom(file: BuildFile, one: Task, orderly: ReadonlySet<string>, now: number): boolean {
  const works = (task: Task, zones: readonly string[]) =>
    task.places.some(({ zone }) => zones.includes(zone));
  const hardening = file.tasks.filter(
    (task) => task.state === 'finished' && task.waitHoldsZones && hardAt(file, task) > now,
  );
  const begun = file.tasks.filter((task) => task.state === 'started' && orderly.has(task.key));
  return (
    file.zones.every(
      ({ key, capacity }) =>
        !works(one, [key]) || [...begun, ...hardening].filter((task) => works(task, [key])).length < capacity,
    ) &&
    file.zoneGroups.every(
      ({ zones, capacity }) =>
        !works(one, zones) || hardening.filter((task) => works(task, zones)).length < capacity,
    )
  );
}
