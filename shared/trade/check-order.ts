/**
 * Every first before every later one. What holds is found for all pairs at once: each later one is a bit carried back to all that
 * comes before it, some thousand of them a sweep.
 */
import type { OrderRule } from './rules.ts';
import {
  found,
  endsBefore,
  isBegun,
  isStated,
  linkRepair,
  MOST_LOOKED,
  nodeOf,
  type Found,
  type Ground,
} from './ground.ts';
import { workersOf, type Site } from './sites.ts';
import type { Task } from '../contract/task.ts';
import { spread } from './ways.ts';

/** Bits carried in one sweep. */
const COLUMNS = 1024;

interface Group {
  readonly rule: OrderRule;
  readonly zone: string | null;
  readonly firsts: readonly (readonly [node: number, task: Task, reach: number])[];
  readonly laters: readonly (readonly [node: number, task: Task, front: number])[];
}

interface Pair {
  readonly rule: OrderRule;
  readonly first: Task;
  readonly later: Task;
  readonly zones: string[];
}

type Pairs = Map<OrderRule, Map<string, Pair>>;

export function checkOrder(ground: Ground, rules: readonly OrderRule[]): Found[] {
  const pairs: Pairs = new Map(rules.map((rule) => [rule, new Map()]));
  const groups: Group[] = [];
  for (const rule of rules)
    for (const site of rule.scope === 'zone' ? ground.sites.zones : [ground.sites.build]) {
      const group = groupOf(ground, rule, site, pairs);
      if (group !== null) groups.push(group);
    }
  addUnheld(ground, groups, pairs);
  return [...pairs.values()].flatMap((ofRule) =>
    [...ofRule.values()]
      .sort((a, b) => (nameOf(a.later, a.first) < nameOf(b.later, b.first) ? -1 : 1))
      .flatMap((pair) => findingOf(ground, pair) ?? []),
  );
}

/** Pairs whose later one has begun are told at once; the others wait for the sweep. */
function groupOf(ground: Ground, rule: OrderRule, site: Site, pairs: Pairs): Group | null {
  const firsts = workersOf(ground.sites, site, rule.first).filter(({ task }) => task.state !== 'finished');
  if (firsts.length === 0) return null;
  const laters = workersOf(ground.sites, site, rule.later);
  const told = pairs.get(rule)!;
  for (const later of laters)
    if (isBegun(later.task))
      for (const first of firsts) {
        if (isFull(ground, rule, told)) return null;
        if (!isApart(rule, first.reach, later.front)) add(told, rule, site.zone, first.task, later.task);
      }
  const placed = <W extends { readonly task: Task }>(list: readonly W[]) =>
    list.filter(({ task }) => nodeOf(ground, task) >= 0);
  const open = placed(laters.filter(({ task }) => !isBegun(task)));
  if (open.length === 0) return null;
  return {
    rule,
    zone: site.zone,
    firsts: placed(firsts).map(({ task, reach }) => [nodeOf(ground, task), task, reach]),
    laters: open.map(({ task, front }) => [nodeOf(ground, task), task, front]),
  };
}

/** The first lies in front of the later one, or beside it: it is not hidden. */
function isApart(rule: OrderRule, reach: number, front: number): boolean {
  return rule.behind === true && rule.scope === 'zone' && reach >= front;
}

function add(pairs: Map<string, Pair>, rule: OrderRule, zone: string | null, first: Task, later: Task): void {
  if (first === later) return;
  const name = nameOf(first, later);
  const known = pairs.get(name);
  if (known === undefined) pairs.set(name, { rule, first, later, zones: zone === null ? [] : [zone] });
  else if (zone !== null) known.zones.push(zone);
}

/** A rule with thousands of pairs is not walked through to the last: its first ones tell enough. */
function isFull({ untold }: Ground, rule: OrderRule, pairs: Map<string, Pair>): boolean {
  if (pairs.size <= MOST_LOOKED) return false;
  untold.add(rule.key);
  return true;
}

/** Keys hold no blanks. */
function nameOf(a: Task, b: Task): string {
  return `${a.key} ${b.key}`;
}

function addUnheld(ground: Ground, groups: readonly Group[], pairs: Pairs): void {
  const { size } = ground.net.graph;
  const asked = [...new Set(groups.flatMap(({ laters }) => laters.map(([node]) => node)))].sort(
    (a, b) => a - b,
  );
  for (let start = 0; start < asked.length; start += COLUMNS) {
    const block = asked.slice(start, start + COLUMNS);
    const column = new Map(block.map((node, i) => [node, i]));
    const words = Math.ceil(block.length / 32);
    const marks = new Uint32Array(size * words);
    for (const [node, i] of column) marks[node * words + (i >> 5)]! |= 1 << (i & 31);
    spread(ground.net, marks, words, 'backward');
    for (const group of groups) addUnheldOf(ground, group, column, words, marks, pairs.get(group.rule)!);
  }
}

function addUnheldOf(
  ground: Ground,
  { rule, zone, firsts, laters }: Group,
  column: ReadonlyMap<number, number>,
  words: number,
  marks: Uint32Array,
  pairs: Map<string, Pair>,
): void {
  const wanted = new Map<number, number>();
  const byColumn = new Map<number, Group['laters'][number]>();
  for (const later of laters) {
    const at = column.get(later[0]);
    if (at === undefined) continue;
    byColumn.set(at, later);
    wanted.set(at >> 5, (wanted.get(at >> 5) ?? 0) | (1 << (at & 31)));
  }
  for (const [node, task, reach] of firsts)
    for (const [word, bits] of wanted)
      for (let lacking = bits & ~marks[node * words + word]!; lacking !== 0; lacking &= lacking - 1) {
        if (isFull(ground, rule, pairs)) return;
        const [, later, front] = byColumn.get(word * 32 + (31 - Math.clz32(lacking & -lacking)))!;
        if (!isApart(rule, reach, front)) add(pairs, rule, zone, task, later);
      }
}

function findingOf(ground: Ground, { rule, first, later, zones }: Pair): Found | null {
  const { names, net, ways } = ground;
  const [a, b] = [names.task(first.key), names.task(later.key)];
  const tell = (standing: Found['standing'], sentence: string) =>
    found(rule, [first.key, later.key], {
      standing,
      tasks: [first.key, later.key],
      zones,
      sentence,
      repair: standing === 'begun' ? null : linkRepair(ground, first, later),
    });
  if (isBegun(later)) return tell('begun', `${b} has begun, and ${a} is not done.`);
  // Said already, and left out to get dates at all: the order guard tells it.
  if (isStated(ground, first.key, later.key)) return null;
  if (ways.holds(net.graph.indexOf.get(later.key)!, net.graph.indexOf.get(first.key)!) === true)
    return tell('wrong', `Links and covers put ${b} before ${a}: usually it is the other way round.`);
  const ends = endsBefore(ground, first, later);
  return ends === false
    ? tell('dates', `By the dates ${b} begins before ${a} is done, and nothing holds it back.`)
    : tell(
        'unheld',
        `Nothing holds ${a} before ${b}${ends === null ? '' : ': the dates happen to be right'}.`,
      );
}
