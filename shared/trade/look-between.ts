/**
 * A task that seems to lack its test, looked at by itself: with the covers that still go over it, with tests on another
 * side of the same skin, and with those that are linked after it.
 */
import type { TradeRepair } from '../contract/plan-trade.ts';
import type { Task } from '../contract/task.ts';
import type { BetweenRule } from './rules.ts';
import { bySoonest, isBegun, isStated, nodeOf, type Ground } from './ground.ts';
import { workersOf } from './sites.ts';

/** Tests tried, and covers looked at, at most. */
const MOST_TRIED = 8;
const MOST_COVERS = 24;

/** Tasks of one depth of one site, with the tests there and the covers in front of them. */
export interface Column {
  readonly of: readonly Wanting[];
  readonly tests: readonly Task[];
  readonly covers: readonly Task[];
}

export interface Wanting {
  readonly task: Task;
  readonly zones: string[];
  readonly columns: Column[];
  fine: boolean;
}

export interface Lacking {
  readonly entry: Wanting;
  /** What is still to go over it, without what comes after another of them. */
  readonly covers: readonly Task[];
  /** What has gone over it already; null where nothing has. */
  readonly closed: Task | null;
  /** A test that could be held in between, and the links that hold it there. */
  readonly test: Task | null;
  readonly links: Extract<TradeRepair, { kind: 'link' }>['links'];
}

/** Null where it is fine after all, or nothing is left that could go over it. */
export function lookAt(ground: Ground, rule: BetweenRule, entry: Wanting): Lacking | null {
  const { ways } = ground;
  const { task } = entry;
  const isDone = task.state === 'finished';
  const at = nodeOf(ground, task);
  const leads = (from: number, to: number) => from >= 0 && to >= 0 && ways.leads(from, to) !== false;
  const holds = (from: number, to: number) => from >= 0 && to >= 0 && ways.holds(from, to) === true;
  const all = [...new Set(entry.columns.flatMap(({ covers }) => covers))]
    .filter((cover) => cover !== task)
    .sort((a, b) => (a.key < b.key ? -1 : 1));
  const closed = all.find(isBegun) ?? null;
  // What comes before the task does not go over it: that is another rule's matter.
  const open = all
    .filter((cover) => !isBegun(cover) && nodeOf(ground, cover) >= 0)
    .sort(bySoonest(ground))
    .slice(0, MOST_COVERS)
    .filter((cover) => isDone || !leads(nodeOf(ground, cover), at));
  if (open.length === 0 && rule.always !== true && !(isDone && closed !== null)) return null;
  const nodes = open.map((cover) => nodeOf(ground, cover));
  const covers = open
    .filter((_, i) => nodes.every((other, j) => i === j || !holds(other, nodes[i]!)))
    .sort((a, b) => (a.key < b.key ? -1 : 1));
  const near = testsNear(ground, rule, entry);
  if (isTestedBy(lastDone(near), task)) return null;
  // A task that covers and tests in one comes too late to be a test of what it covers.
  const tries = near
    .filter((test) => test.state !== 'finished' && test !== task && nodeOf(ground, test) >= 0)
    .filter((test) => !all.includes(test))
    .sort(bySoonest(ground))
    .slice(0, MOST_TRIED);
  let best: Lacking | null = null;
  for (const test of tries) {
    const node = nodeOf(ground, test);
    if (nodes.some((cover) => leads(cover, node)) || (!isDone && leads(node, at))) continue;
    const links = [
      ...(isDone || holds(at, node) ? [] : [{ from: task.key, to: test.key }]),
      ...(nodes.some((cover) => holds(node, cover))
        ? []
        : covers.map(({ key }) => ({ from: test.key, to: key }))),
    ];
    if (links.length === 0) return null;
    if (links.some(({ from, to }) => isStated(ground, from, to))) continue;
    best ??= { entry, covers, closed, test, links };
  }
  return best ?? { entry, covers, closed, test: null, links: [] };
}

function testsNear(ground: Ground, rule: BetweenRule, { task, columns }: Wanting): Task[] {
  const { sites, linksFrom } = ground;
  const near = new Set(columns.flatMap(({ tests }) => tests));
  if (rule.scope === 'zone')
    for (const site of sites.zones)
      if (task.places.some(({ zone }) => zone === site.zone))
        for (const worker of workersOf(sites, site, rule.need)) near.add(worker.task);
  if (linksFrom.has(task.key))
    for (const worker of workersOf(sites, sites.build, rule.need))
      if (isStated(ground, task.key, worker.task.key)) near.add(worker.task);
  return [...near];
}

/** When the last finished test ended; '' where none has. */
export function lastDone(tests: readonly Task[]): string {
  return tests.reduce(
    (last, { state, finishedAt }) => (state === 'finished' && (finishedAt ?? '') > last ? finishedAt! : last),
    '',
  );
}

/** Both are done, the test last. */
export function isTestedBy(lastTest: string, { state, finishedAt }: Task): boolean {
  return lastTest !== '' && state === 'finished' && lastTest >= (finishedAt ?? '');
}
