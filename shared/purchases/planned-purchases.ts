/** The purchases of the plan: their days, and the tasks each holds back. */
import type { Closing, PlannedPurchase } from '../contract/plan.ts';
import { usableFrom } from '../schedule/basis.ts';
import { UNKNOWN } from '../schedule/backward.ts';
import type { Draft } from '../schedule/draft.ts';
import { earliestStart, UNPLACED } from '../schedule/forward.ts';
import { boundsInto, incomingOf } from '../schedule/incoming.ts';
import { CLOCK } from '../schedule/network.ts';
import { dayIndex } from '../time/clock.ts';
import { byKey } from '../contract/by-key.ts';
import { plannedPurchase } from './order-by.ts';
import type { Use } from './use.ts';

const NONE: ReadonlySet<string> = new Set();

/** By purchase key. @param closings those ahead */
export function plannedPurchases(
  draft: Draft,
  closings: readonly Closing[],
): Record<string, PlannedPurchase> {
  const { basis } = draft;
  const holds = heldBack(draft);
  const arrives = new Map<string, number>();
  const toCome = new Map<string, Set<string>>();
  for (const { purchase, line, inHand, day } of basis.arrivals) {
    if (!inHand) toCome.set(purchase.key, (toCome.get(purchase.key) ?? new Set()).add(line.key));
    if (day !== null) arrives.set(purchase.key, Math.max(day, arrives.get(purchase.key) ?? day));
  }
  const waiting = new Map<string, Closing[]>();
  for (const closing of closings)
    for (const key of new Set(closing.undelivered.map(({ purchase }) => purchase)))
      waiting.set(key, [...(waiting.get(key) ?? []), closing]);
  const records: Record<string, PlannedPurchase> = {};
  for (const purchase of basis.file.purchases.toSorted(byKey)) {
    const usesOf = new Map(
      purchase.lines.map((line) => [line.key, line.neededBy.flatMap((task) => useOf(draft, task))]),
    );
    records[purchase.key] = plannedPurchase(purchase, {
      usesOf,
      arrives: arrives.get(purchase.key) ?? null,
      holds: holds.get(purchase.key) ?? [],
      toCome: toCome.get(purchase.key) ?? NONE,
      closings: waiting.get(purchase.key) ?? [],
      asOfDay: basis.asOfDay,
    });
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
      begun: task.state === 'started',
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
