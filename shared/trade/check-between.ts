/**
 * Each task that wants a test has one after it and before what closes it up. Three sweeps find those that surely have:
 * which tests come before a cover and after none, and which tasks come before such a test. The others are looked at
 * one by one (`look-between.ts`).
 */
import type { Task } from '../contract/task.ts';
import { kindName } from './kinds.ts';
import type { BetweenRule } from './rules.ts';
import {
  endsBefore,
  found,
  hasCheck,
  isBegun,
  MOST_LOOKED,
  nodeOf,
  type Found,
  type Ground,
} from './ground.ts';
import { isTestedBy, lastDone, lookAt, type Column, type Lacking, type Wanting } from './look-between.ts';
import { workersOf, type Site, type Worker } from './sites.ts';
import { spread } from './ways.ts';

const COLUMNS = 1024;

export function checkBetween(ground: Ground, rules: readonly BetweenRule[]): Found[] {
  const columns: Column[] = [];
  const wanting = rules.map((rule) => [rule, wantingOf(ground, rule, columns)] as const);
  for (let start = 0; start < columns.length; start += COLUMNS)
    markFine(ground, columns.slice(start, start + COLUMNS));
  return wanting.flatMap(([rule, all]) => {
    const unsure = [...all.values()]
      .filter(({ fine }) => !fine)
      .sort((a, b) => (a.task.key < b.task.key ? -1 : 1));
    if (unsure.length > MOST_LOOKED) ground.untold.add(rule.key);
    const lacking = unsure.slice(0, MOST_LOOKED).flatMap((entry) => lookAt(ground, rule, entry) ?? []);
    return findingsOf(ground, rule, lacking);
  });
}

function wantingOf(ground: Ground, rule: BetweenRule, columns: Column[]): Map<Task, Wanting> {
  const { sites } = ground;
  const wanting = new Map<Task, Wanting>();
  const anywhere = workersOf(sites, sites.build, rule.need).map(({ task }) => task);
  // A task without a place is taken to be everywhere.
  const placeless = anywhere.filter(({ places }) => places.length === 0);
  for (const site of rule.scope === 'zone' ? sites.zones : [sites.build]) {
    const of = workersOf(sites, site, rule.of);
    if (of.length === 0) continue;
    const covers = workersOf(sites, site, rule.before);
    const tests =
      site.zone === null || rule.needAnywhere === true
        ? anywhere
        : [...workersOf(sites, site, rule.need).map(({ task }) => task), ...placeless];
    for (const deep of byReach(of)) addColumn(rule, site, deep, covers, tests, columns, wanting);
  }
  return wanting;
}

function byReach(of: readonly Worker[]): Worker[][] {
  const groups = new Map<number, Worker[]>();
  for (const worker of of) {
    const group = groups.get(worker.reach);
    if (group === undefined) groups.set(worker.reach, [worker]);
    else group.push(worker);
  }
  return [...groups.values()];
}

function addColumn(
  rule: BetweenRule,
  { zone }: Site,
  of: readonly Worker[],
  all: readonly Worker[],
  tests: readonly Task[],
  columns: Column[],
  wanting: Map<Task, Wanting>,
): void {
  const { reach } = of[0]!;
  const covers = all.filter(({ front }) => zone === null || front > reach).map(({ task }) => task);
  if (covers.length === 0 && rule.always !== true) return;
  const lastTest = lastDone(tests);
  const entries: Wanting[] = [];
  const column = { of: entries, tests, covers };
  for (const { task } of of) {
    let entry = wanting.get(task);
    if (entry === undefined) {
      const fine =
        hasCheck(task, rule.checks, 'exit') || rule.need.kinds.some((kind) => task.kinds.includes(kind));
      wanting.set(task, (entry = { task, zones: [], columns: [], fine }));
    }
    if (zone !== null) entry.zones.push(zone);
    entry.columns.push(column);
    entries.push(entry);
    if (isTestedBy(lastTest, task)) entry.fine = true;
  }
  columns.push(column);
}

function markFine(ground: Ground, columns: readonly Column[]): void {
  const words = Math.ceil(columns.length / 32);
  const marks = () => new Uint32Array(ground.net.graph.size * words);
  const [before, after, tested] = [marks(), marks(), marks()];
  const at = (node: number, i: number) => node * words + (i >> 5);
  const bit = (i: number) => 1 << (i & 31);
  columns.forEach(({ covers }, i) => {
    for (const cover of covers) {
      const node = isBegun(cover) ? -1 : nodeOf(ground, cover);
      if (node < 0) continue;
      before[at(node, i)]! |= bit(i);
      after[at(node, i)]! |= bit(i);
    }
  });
  spread(ground.net, before, words, 'backward');
  spread(ground.net, after, words, 'forward');
  const isGood = columns.map(({ tests, covers }, i) => {
    const closes = covers.some((cover) => !isBegun(cover));
    let good = false;
    for (const test of tests) {
      const node = test.state === 'finished' ? -1 : nodeOf(ground, test);
      if (node < 0 || (after[at(node, i)]! & bit(i)) !== 0) continue;
      if (closes && (before[at(node, i)]! & bit(i)) === 0) continue;
      good = true;
      tested[at(node, i)]! |= bit(i);
    }
    return good;
  });
  spread(ground.net, tested, words, 'backward');
  columns.forEach(({ of }, i) => {
    for (const entry of of) {
      const node = nodeOf(ground, entry.task);
      if (entry.task.state === 'finished') entry.fine ||= isGood[i]!;
      // In a knot nothing is before or after anything: the order guard tells that.
      else entry.fine ||= node < 0 || (tested[at(node, i)]! & bit(i)) !== 0;
    }
  });
}

function findingsOf(ground: Ground, rule: BetweenRule, lacking: readonly Lacking[]): Found[] {
  // One test for all that the same covers go over.
  const together = new Map<string, Lacking[]>();
  const nameOf = ({ covers }: Lacking) => covers.map(({ key }) => key).join(' ');
  for (const one of lacking)
    if (one.test === null) together.set(nameOf(one), [...(together.get(nameOf(one)) ?? []), one]);
  return lacking.map((one) => {
    const { entry, covers, test } = one;
    const same = together.get(nameOf(one)) ?? [];
    return found(rule, [entry.task.key], {
      ...(test === null ? missing(ground, rule, one) : between(ground, one, test)),
      tasks: [entry.task.key, ...(test === null ? [] : [test.key]), ...covers.map(({ key }) => key)],
      zones: entry.zones,
      repair:
        test === null
          ? {
              kind: 'add-task',
              entry: rule.adds,
              after: same.map(({ entry: { task } }) => task.key),
              before: covers.map(({ key }) => key),
              places: placesOf(same.map(({ entry: { task, zones } }) => [task, zones])),
            }
          : { kind: 'link', links: [...one.links], drops: [] },
    });
  });
}

function missing({ names }: Ground, rule: BetweenRule, { entry, covers, closed }: Lacking) {
  const a = names.task(entry.task.key);
  const need = kindName(rule.need.kinds[0]!);
  const [first] = covers;
  if (closed !== null && entry.task.state === 'finished' && rule.scope === 'zone')
    return {
      standing: 'begun' as const,
      sentence: `${names.task(closed.key)} went over ${a}, which had no ${need}.`,
    };
  return {
    standing: 'missing' as const,
    sentence:
      first === undefined
        ? `${a} gets no ${need}.`
        : `${a} gets no ${need} before ${names.task(first.key)}${rule.scope === 'zone' ? ' goes over it' : ''}.`,
  };
}

function between(ground: Ground, { entry, covers }: Lacking, test: Task) {
  const { names } = ground;
  const dates = new Set([
    endsBefore(ground, entry.task, test),
    ...covers.map((cover) => endsBefore(ground, test, cover)),
  ]);
  const [a, n] = [names.task(entry.task.key), names.task(test.key)];
  const [first] = covers;
  const where = first === undefined ? `after ${a}` : `between ${a} and ${names.task(first.key)}`;
  return dates.has(false)
    ? {
        standing: 'dates' as const,
        sentence: `By the dates ${n} does not come ${where}, and nothing holds it there.`,
      }
    : {
        standing: 'unheld' as const,
        sentence: `Nothing holds ${n} ${where}${dates.has(null) ? '' : ': the dates happen to be right'}.`,
      };
}

/** Where the tasks work, each zone once, at the depth of the first of them there. */
function placesOf(tasks: readonly (readonly [Task, readonly string[]])[]) {
  const depths = new Map<string, string>();
  for (const [task, zones] of tasks)
    for (const { zone, depth } of task.places)
      if (zones.includes(zone) && !depths.has(zone)) depths.set(zone, depth);
  return [...depths]
    .map(([zone, depth]) => ({ zone, depth, hides: null }))
    .sort((a, b) => (a.zone < b.zone ? -1 : 1));
}
