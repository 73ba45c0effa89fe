/** Each later one has one of the needed before it. One sweep: a needed task marks its site, and marks run forward. */
import type { Task } from '../contract/task.ts';
import { kindName } from './kinds.ts';
import type { BeforeRule } from './rules.ts';
import {
  bySoonest,
  endsBefore,
  found,
  hasCheck,
  isBegun,
  isStated,
  linkRepair,
  MOST_LOOKED,
  nodeOf,
  type Found,
  type Ground,
} from './ground.ts';
import { workersOf, type Site } from './sites.ts';
import { spread } from './ways.ts';

/** Tasks looked at as the one that is needed, at most. */
const MOST_TRIED = 8;
const COLUMNS = 1024;

/** A later task with the needed ones of its sites. */
interface Wanting {
  readonly later: Task;
  readonly zones: string[];
  readonly columns: Column[];
  fine: boolean;
}

interface Column {
  readonly needed: readonly Task[];
  readonly laters: Wanting[];
}

export function checkBefore(ground: Ground, rules: readonly BeforeRule[]): Found[] {
  const columns: Column[] = [];
  const wanting = rules.map((rule) => [rule, wantingOf(ground, rule, columns)] as const);
  for (let start = 0; start < columns.length; start += COLUMNS)
    markFine(ground, columns.slice(start, start + COLUMNS));
  return wanting.flatMap(([rule, all]) => {
    const lacking = [...all.values()]
      .filter(({ fine }) => !fine)
      .sort((a, b) => (a.later.key < b.later.key ? -1 : 1));
    if (lacking.length > MOST_LOOKED) ground.untold.add(rule.key);
    return findingsOf(ground, rule, lacking.slice(0, MOST_LOOKED));
  });
}

function wantingOf(ground: Ground, rule: BeforeRule, columns: Column[]): Map<Task, Wanting> {
  const { sites } = ground;
  const wanting = new Map<Task, Wanting>();
  const anywhere = workersOf(sites, sites.build, rule.need).map(({ task }) => task);
  for (const site of rule.scope === 'zone' ? sites.zones : [sites.build]) {
    if (rule.where?.every((kind) => !site.byKind.has(kind)) === true) continue;
    const laters = workersOf(sites, site, rule.later).filter(({ task }) => !isBegun(task));
    if (laters.length > 0)
      addSite(
        ground,
        rule,
        site,
        laters.map(({ task }) => task),
        anywhere,
        columns,
        wanting,
      );
  }
  return wanting;
}

function addSite(
  { sites }: Ground,
  rule: BeforeRule,
  site: Site,
  laters: readonly Task[],
  anywhere: readonly Task[],
  columns: Column[],
  wanting: Map<Task, Wanting>,
): void {
  // A task without a place is taken to be everywhere.
  const needed =
    site.zone === null
      ? anywhere
      : [
          ...workersOf(sites, site, rule.need).map(({ task }) => task),
          ...anywhere.filter(({ places }) => places.length === 0),
        ];
  const column: Column = { needed, laters: [] };
  const done = needed.some(({ state }) => state === 'finished');
  for (const later of laters) {
    let entry = wanting.get(later);
    if (entry === undefined) {
      const fine =
        hasCheck(later, rule.checks, 'entry') || rule.need.kinds.some((kind) => later.kinds.includes(kind));
      wanting.set(later, (entry = { later, zones: [], columns: [], fine }));
    }
    if (site.zone !== null) entry.zones.push(site.zone);
    entry.columns.push(column);
    column.laters.push(entry);
    if (done) entry.fine = true;
  }
  columns.push(column);
}

function markFine(ground: Ground, columns: readonly Column[]): void {
  const words = Math.ceil(columns.length / 32);
  const marks = new Uint32Array(ground.net.graph.size * words);
  columns.forEach(({ needed }, i) => {
    for (const task of needed) {
      const node = nodeOf(ground, task);
      if (node >= 0) marks[node * words + (i >> 5)]! |= 1 << (i & 31);
    }
  });
  spread(ground.net, marks, words, 'forward');
  columns.forEach(({ laters }, i) => {
    for (const entry of laters) {
      const node = nodeOf(ground, entry.later);
      // In a knot nothing is before or after anything: the order guard tells that.
      entry.fine ||= node < 0 || (marks[node * words + (i >> 5)]! & (1 << (i & 31))) !== 0;
    }
  });
}

function findingsOf(ground: Ground, rule: BeforeRule, lacking: readonly Wanting[]): Found[] {
  const { names } = ground;
  const near = lacking.map((entry) => nearest(ground, entry));
  const without = lacking.filter((_, i) => near[i] === null).map(({ later }) => later.key);
  return lacking.map(({ later, zones }, i) => {
    const need = near[i] ?? null;
    const b = names.task(later.key);
    if (need === null)
      return found(rule, [later.key], {
        standing: 'missing',
        tasks: [later.key],
        zones,
        sentence: `${b} has no ${kindName(rule.need.kinds[0]!)} before it.`,
        repair: { kind: 'add-task', entry: rule.adds, after: [], before: without, places: [] },
      });
    const a = names.task(need.key);
    const ends = endsBefore(ground, need, later);
    return found(rule, [later.key], {
      standing: ends === false ? 'dates' : 'unheld',
      tasks: [need.key, later.key],
      zones,
      sentence:
        ends === false
          ? `By the dates ${b} begins before ${a} is done, and nothing holds it back.`
          : `Nothing holds ${a} before ${b}${ends === null ? '' : ': the dates happen to be right'}.`,
      repair: linkRepair(ground, need, later),
    });
  });
}

/** The soonest of the needed that can still be linked before it. */
function nearest(ground: Ground, { later, columns }: Wanting): Task | null {
  const needed = new Set(columns.flatMap((column) => column.needed));
  const to = nodeOf(ground, later);
  for (const task of [...needed].sort(bySoonest(ground)).slice(0, MOST_TRIED)) {
    const from = nodeOf(ground, task);
    if (from < 0 || task === later || isStated(ground, task.key, later.key)) continue;
    if (ground.ways.leads(to, from) === false) return task;
  }
  return null;
}
