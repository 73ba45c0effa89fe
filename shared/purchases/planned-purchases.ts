/** The purchases of the plan: their days, and the tasks each holds back. */
import type { PlannedPurchase } from '../contract/plan.ts';
import { usableFrom } from '../schedule/basis.ts';
import { UNKNOWN } from '../schedule/backward.ts';
import type { Draft } from '../schedule/draft.ts';
import { earliestStart, UNPLACED } from '../schedule/forward.ts';
import { boundsInto, incomingOf } from '../schedule/incoming.ts';
import { CLOCK } from '../schedule/network.ts';
import { dayIndex } from '../time/clock.ts';
import { byKey } from '../contract/by-key.ts';
import { plannedPurchase, type Use } from './order-by.ts';

/** By purchase key. */
export function plannedPurchases(draft: Draft): Record<string, PlannedPurchase> {
  const { basis } = draft;
  const holds = heldBack(draft);
  const arrives = new Map<string, number>();
  for (const { purchase, day } of basis.arrivals)
    if (day !== null) arrives.set(purchase.key, Math.max(day, arrives.get(purchase.key) ?? day));
  const records: Record<string, PlannedPurchase> = {};
  for (const purchase of basis.file.purchases.toSorted(byKey)) {
    const uses = new Map(
      purchase.lines.map((line) => [line.key, line.neededBy.flatMap((task) => useOf(draft, task))]),
    );
    records[purchase.key] = plannedPurchase(
      purchase,
      uses,
      arrives.get(purchase.key) ?? null,
      holds.get(purchase.key) ?? [],
    );
  }
  return records;
}

/** One use, or none once the task is finished. */
function useOf({ basis, graph, path, levelled }: Draft, key: string): Use[] {
  const task = basis.taskOf.get(key)!;
  const v = graph.indexOf.get(key);
  if (task.state === 'finished' || v === undefined) return [];
  const day = (instant: number) => basis.clock.firstDay + dayIndex(instant);
  const placed = levelled.start[v] !== UNPLACED;
  const late = path.late;
  return [
    {
      task: key,
      start: placed ? day(levelled.start[v]!) : null,
      finish: placed ? day(levelled.finish[v]!) : null,
      lateStart: late === null || late.start[v] === UNKNOWN ? null : day(late.start[v]!),
    },
  ];
}

/** The tasks whose early start would be earlier if a purchase were in hand; by purchase. */
function heldBack({ basis, graph, net, lowerWithoutParts, path }: Draft): Map<string, string[]> {
  const held = new Map<string, string[]>();
  const incoming = incomingOf(net);
  const { sets } = basis.calendar;
  for (const [key, parts] of [...basis.partsOf].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const v = graph.indexOf.get(key);
    if (v === undefined || path.early.start[v] === UNPLACED || basis.taskOf.get(key)!.state !== 'not-started')
      continue;
    const open = parts.map((part) => ({ purchase: part.purchase.key, from: usableFrom(basis, part) }));
    const last = open.reduce((max, { from }) => (from === null ? max : Math.max(max, from)), -Infinity);
    if (last === -Infinity) continue;
    const links = boundsInto(net, sets, incoming, path.early, v);
    const lower = Math.max(lowerWithoutParts[v]!, links.lower);
    const minutes = net.minutes[v]!;
    const without =
      minutes === 0 || net.set[v] === CLOCK
        ? Math.max(lower, links.lowerFinish - minutes)
        : earliestStart(sets[net.set[v]!]!, lower, links.lowerFinish, minutes, net.sitting[v]!);
    if (without >= path.early.start[v]!) continue;
    for (const purchase of new Set(open.filter(({ from }) => from === last).map((part) => part.purchase)))
      held.set(purchase, [...(held.get(purchase) ?? []), key]);
  }
  return held;
}
