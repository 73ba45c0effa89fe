/**
 * The trade check: what a builder who has done it would ask of any plan, also one made by hand. Tasks carry kinds, the
 * rules speak of kinds; "before" is what links and covers hold, then what the dates say. Advice: nothing waits for it.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { PlannedTask } from '../contract/plan.ts';
import { STANDINGS, type PlanTrade, type TradeFinding } from '../contract/plan-trade.ts';
import type { Link, Task } from '../contract/task.ts';
import type { Names } from '../covers/names.ts';
import type { Stack } from '../covers/stacks.ts';
import type { CompiledGraph } from '../graph/compile.ts';
import { checkBefore } from './check-before.ts';
import { checkBetween } from './check-between.ts';
import { checkOrder } from './check-order.ts';
import type { Found, Ground } from './ground.ts';
import { BEFORE_RULES } from './rules/before.ts';
import { BETWEEN_RULES } from './rules/between.ts';
import { ROOM_ORDER } from './rules/order-room.ts';
import { SHELL_ORDER } from './rules/order-shell.ts';
import { sitesOf } from './sites.ts';
import { networkOf, Ways } from './ways.ts';

/** Findings of one rule that are told, beside those that are dismissed. */
const MOST_TOLD = 40;

const ORDER = [...SHELL_ORDER, ...ROOM_ORDER];

export interface TradeBasis {
  /** By key. */
  readonly tasks: readonly Task[];
  readonly stacks: readonly Stack[];
  readonly graph: CompiledGraph;
  /** 1 per arc that the suggested repairs leave out. */
  readonly left: Uint8Array;
  readonly names: Names;
  readonly planned: Readonly<Record<string, PlannedTask>>;
}

/** O(arcs × rules × zones / 32), and a walk for some hundreds of findings at most. */
export function tradeFindings(
  file: BuildFile,
  { tasks, stacks, graph, left, names, planned }: TradeBasis,
): PlanTrade {
  const net = networkOf(graph, left);
  const ground: Ground = {
    sites: sitesOf(file, tasks, stacks),
    net,
    ways: new Ways(net),
    names,
    planned,
    linksFrom: linksFrom(file),
    untold: new Set(),
  };
  const reasons = new Map(file.dismissals.map(({ key, reason }) => [key, reason]));
  const all = [
    ...checkBetween(ground, BETWEEN_RULES),
    ...checkBefore(ground, BEFORE_RULES),
    ...checkOrder(ground, ORDER),
  ].map((finding) => ({ ...finding, dismissed: reasons.get(finding.key) ?? null }));
  return told(all.sort(worstFirst), ground.untold);
}

function linksFrom({ links }: BuildFile): Map<string, Link[]> {
  const byTask = new Map<string, Link[]>();
  for (const link of links) {
    const list = byTask.get(link.from);
    if (list === undefined) byTask.set(link.from, [link]);
    else list.push(link);
  }
  return byTask;
}

function worstFirst(a: Found, b: Found): number {
  return STANDINGS.indexOf(a.standing) - STANDINGS.indexOf(b.standing) || (a.key < b.key ? -1 : 1);
}

function told(all: readonly TradeFinding[], untold: Set<string>): PlanTrade {
  const byRule = new Map<string, number>();
  const findings = all.filter(({ rule, dismissed }) => {
    if (dismissed !== null) return true;
    const count = (byRule.get(rule) ?? 0) + 1;
    byRule.set(rule, count);
    if (count > MOST_TOLD) untold.add(rule);
    return count <= MOST_TOLD;
  });
  return { findings, untold: [...untold].sort() };
}
