/** What every starter build must be, checked fast enough for thousands of them; and builds to check. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { readAnswers, readStarterHead, type Answers, type StarterHead } from '#shared/starter/answers.ts';
import { RHYTHMS } from '#shared/starter/questions.ts';
import { starterFile } from '#shared/starter/starter-build.ts';
import { kindOf } from '#shared/trade/kinds.ts';

/** Two evenings and a Saturday. */
export const RHYTHM = RHYTHMS.find(({ key }) => key === 'evenings-and-saturday')!.week;
export const STARTS = '2026-03-07';

/** Two people, no money told. */
export function head(changed: Partial<StarterHead> = {}): StarterHead {
  return readStarterHead({
    name: 'Heron',
    startOn: STARTS,
    people: ['Ann', 'Ben'].map((name) => ({ name, week: RHYTHM })),
    ...changed,
  });
}

const HEAD = head();

/** A file as the starter writes it, not vouched for: the checks below are what it is to pass. */
export function fileOf(answers: Partial<Answers>) {
  return starterFile(readAnswers(answers), HEAD);
}

type File = ReturnType<typeof starterFile>;

/** Sentences on what is wrong; empty when all is well. Linear in tasks, links and places. */
export function starterFaults(file: File): string[] {
  const faults: string[] = [];
  const keysOf = (records: readonly { readonly key: string }[]) => new Set(records.map(({ key }) => key));
  const tasks = keysOf(file.tasks);
  const known = (key: string | null, keys: ReadonlySet<string>, at: string) => {
    if (key !== null && !keys.has(key)) faults.push(`${at} names ${key}, which is not there`);
  };
  const [people, tools, conditions] = [keysOf(file.people), keysOf(file.tools), keysOf(file.conditions)];
  const [phases, depths] = [keysOf(file.phases), keysOf(file.depths)];
  if (tasks.size < file.tasks.length) faults.push('two tasks have one key');
  const used = new Map<string, Set<string>>();
  const zones = new Map(file.zones.map((zone) => [zone.key, zone]));
  for (const task of file.tasks) {
    known(task.phase, phases, task.key);
    for (const key of task.who) known(key, people, task.key);
    for (const key of task.tools) known(key, tools, task.key);
    for (const key of [...task.conditions, ...task.waitConditions]) known(key, conditions, task.key);
    for (const kind of task.kinds)
      if (kindOf(kind) === null) faults.push(`${task.key} is of no known kind: ${kind}`);
    const { low, likely, high } = task.minutes;
    if (!(low > 0 && low <= likely && likely <= high)) faults.push(`${task.key} has no estimate`);
    for (const { zone, depth, hides } of task.places) {
      const stack = zones.get(zone)?.depths ?? [];
      for (const named of [depth, hides])
        if (named !== null && !stack.includes(named))
          faults.push(`${task.key} names ${named} in ${zone}, which has none`);
      used.set(zone, (used.get(zone) ?? new Set()).add(depth));
    }
  }
  for (const zone of file.zones)
    for (const depth of zone.depths) {
      known(depth, depths, zone.key);
      if (!used.get(zone.key)?.has(depth)) faults.push(`nobody works at ${depth} in ${zone.key}`);
    }
  const seen = new Set<string>();
  for (const { from, to } of file.links) {
    known(from, tasks, 'a link');
    known(to, tasks, 'a link');
    if (seen.has(`${from} ${to}`)) faults.push(`${from} and ${to} are linked twice`);
    seen.add(`${from} ${to}`);
  }
  const lines = file.purchases.flatMap((purchase) => purchase.lines);
  if (keysOf(file.purchases).size < file.purchases.length) faults.push('two purchases have one key');
  if (keysOf(lines).size < lines.length) faults.push('two lines have one key');
  for (const { key, neededBy, phase } of lines) {
    if (neededBy.length === 0) faults.push(`${key} is needed by nobody`);
    for (const task of neededBy) known(task, tasks, key);
    known(phase, phases, key);
  }
  for (const { key, locksTasks } of file.decisions) {
    if (locksTasks.length === 0) faults.push(`${key} decides nothing`);
    for (const task of locksTasks) known(task, tasks, key);
  }
  return [...faults, ...coverFaults(file)];
}

/** Covers that hide nothing, and circles of links and covers. */
function coverFaults({ zones, tasks, links }: Pick<File, 'zones' | 'tasks' | 'links'>): string[] {
  const faults: string[] = [];
  const next = new Map<string, Set<string>>(tasks.map(({ key }) => [key, new Set()]));
  for (const { from, to } of links) next.get(from)?.add(to);
  for (const { key: zone, depths } of zones) {
    const here = tasks.flatMap(({ key, places }) =>
      places
        .filter((place) => place.zone === zone)
        .map(({ depth, hides }) => ({
          key,
          at: depths.indexOf(depth),
          to: hides === null ? -1 : depths.indexOf(hides),
        })),
    );
    const covers = here.filter(({ to }) => to >= 0);
    for (const cover of covers) {
      const behind = here.filter(({ key, at }) => key !== cover.key && at <= cover.to);
      if (behind.length === 0) faults.push(`${cover.key} hides nothing in ${zone}`);
      for (const { key, at } of behind) {
        // Two that would hide each other are ordered by a link, or not at all.
        const mutual = covers.some((other) => other.key === key && hidesOwn(cover.key, other.to));
        if (!mutual && at <= cover.to) next.get(key)!.add(cover.key);
      }
    }
    function hidesOwn(key: string, to: number): boolean {
      return here.some((place) => place.key === key && place.at <= to);
    }
  }
  const stuck = inACircle(next);
  if (stuck.length > 0) faults.push(`these wait for each other: ${stuck.join(', ')}`);
  return faults;
}

function inACircle(next: ReadonlyMap<string, ReadonlySet<string>>): string[] {
  const waits = new Map([...next.keys()].map((key) => [key, 0]));
  for (const after of next.values()) for (const to of after) waits.set(to, waits.get(to)! + 1);
  const free = [...waits].filter(([, n]) => n === 0).map(([key]) => key);
  for (const key of free) {
    waits.delete(key);
    for (const to of next.get(key)!) {
      const left = waits.get(to)! - 1;
      waits.set(to, left);
      if (left === 0) free.push(to);
    }
  }
  return [...waits.keys()];
}

/** Person-hours as estimated, minor units at guessed prices, grams that stay in the van. */
export function sizeOf({ tasks, purchases }: Pick<BuildFile, 'tasks' | 'purchases'>): {
  hours: number;
  cost: number;
  mass: number;
} {
  const lines = purchases.flatMap((purchase) => purchase.lines);
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  return {
    hours: sum(tasks.map(({ minutes, people }) => minutes.likely * people)) / 60,
    cost: sum(lines.map(({ quantity, unitPrice }) => Math.round(quantity * unitPrice!))),
    mass: sum(lines.map(({ mass, fittedShare }) => (mass ?? 0) * fittedShare)),
  };
}
