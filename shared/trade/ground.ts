/** What all three shapes of rules stand on: sites, network, dates, and how a found order becomes a finding. */
import type { PlannedTask } from '../contract/plan.ts';
import type { Standing, TradeFinding, TradeRepair } from '../contract/plan-trade.ts';
import type { CHECK_KINDS, Link, Task } from '../contract/task.ts';
import type { Names } from '../covers/names.ts';
import type { TradeRule } from './rules.ts';
import type { Sites } from './sites.ts';
import type { Network, Ways } from './ways.ts';

export interface Ground {
  readonly sites: Sites;
  readonly net: Network;
  readonly ways: Ways;
  readonly names: Names;
  readonly planned: Readonly<Record<string, PlannedTask>>;
  /** Stated links by the task they come from. */
  readonly linksFrom: ReadonlyMap<string, readonly Link[]>;
  /** Rules that have more to find than is looked at. */
  readonly untold: Set<string>;
}

/** Tasks or pairs of one rule that are looked at one by one. */
export const MOST_LOOKED = 100;

export type Found = Omit<TradeFinding, 'dismissed'>;

export function isStated({ linksFrom }: Ground, from: string, to: string): boolean {
  return linksFrom.get(from)?.some((link) => link.to === to && link.kind === 'FS') === true;
}

/** Its node in the plan's network; -1 for what is finished and closed, or in a knot. */
export function nodeOf({ net }: Ground, task: Task): number {
  const node = net.graph.indexOf.get(task.key);
  return node === undefined || net.inOrder[node] === 0 ? -1 : node;
}

export function isBegun({ state }: Task): boolean {
  return state !== 'not-started';
}

export function hasCheck(
  task: Task,
  kinds: readonly (typeof CHECK_KINDS)[number][] | undefined,
  when: 'entry' | 'exit',
): boolean {
  return (
    kinds !== undefined && task.holdPoints.some((hold) => hold.when === when && kinds.includes(hold.kind))
  );
}

/** By the dates alone: does the one end before the other starts? Null where one has no dates. */
export function endsBefore({ planned }: Ground, first: Task, later: Task): boolean | null {
  const end = first.state === 'finished' ? first.finishedAt : (planned[first.key]?.dates?.finish ?? null);
  const start = planned[later.key]?.dates?.start ?? null;
  return end === null || start === null ? null : end <= start;
}

/** Sorts by planned start, then by key; without dates last. */
export function bySoonest({ planned }: Ground) {
  const start = ({ key }: Task) => planned[key]?.dates?.start ?? '9999';
  return (a: Task, b: Task): number =>
    start(a) < start(b) ? -1 : start(a) > start(b) ? 1 : a.key < b.key ? -1 : 1;
}

/**
 * The link that holds the one before the other; where a single stated link says the opposite, that one goes. Null where
 * it would make a circle.
 */
export function linkRepair(ground: Ground, first: Task, later: Task): TradeRepair | null {
  const { ways, net, linksFrom } = ground;
  if (isStated(ground, first.key, later.key)) return null;
  const from = net.graph.indexOf.get(first.key);
  const to = net.graph.indexOf.get(later.key);
  if (from === undefined || to === undefined) return null;
  const links = [{ from: first.key, to: later.key }];
  if (ways.leads(to, from) === false) return { kind: 'link', links, drops: [] };
  const drops = (linksFrom.get(later.key) ?? [])
    .filter((link) => link.to === first.key)
    .map(({ kind }) => ({ from: later.key, to: first.key, kind }))
    .sort((a, b) => (a.kind < b.kind ? -1 : 1));
  return drops.length > 0 && ways.leadsOtherwise(to, from) === false ? { kind: 'link', links, drops } : null;
}

export function found(
  rule: TradeRule,
  of: readonly string[],
  finding: {
    readonly standing: Standing;
    readonly tasks: readonly string[];
    readonly zones: Iterable<string>;
    readonly sentence: string;
    readonly repair: TradeRepair | null;
  },
): Found {
  return {
    key: findingKey(rule.key, of),
    rule: rule.key,
    standing: finding.standing,
    tasks: [...finding.tasks],
    zones: [...new Set(finding.zones)].sort(),
    sentence: finding.sentence,
    reason: rule.reason,
    harm: rule.harm,
    repair: finding.repair,
  };
}

/** The rule and a short print of the tasks it is about: keys of tasks may be as long as a key may be. */
export function findingKey(rule: string, tasks: readonly string[]): string {
  const text = tasks.join(' ');
  return `${rule}.${fnv(text, 0x811c_9dc5)}${fnv(text, 0x9747_b28c)}`;
}

/** FNV-1a (Fowler, Noll, Vo, 1991), 32 bits as seven letters. */
function fnv(text: string, seed: number): string {
  let hash = seed;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x0100_0193);
  return (hash >>> 0).toString(36).padStart(7, '0');
}
