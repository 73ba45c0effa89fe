/**
 * What is not certain of a plan's dates: the minutes of each task, the pace all have in common, and how much later than
 * planned each purchase comes. Each has a stream of its own, named by its key.
 */
import type { OddsDistribution } from '../contract/plan-odds.ts';
import type { Task } from '../contract/task.ts';
import { minutesLeft } from '../progress/remaining.ts';
import { paceOf } from '../progress/pace.ts';
import type { Arrival } from '../purchases/arrivals.ts';
import { usableFrom, type Basis } from '../schedule/basis.ts';
import type { Draft } from '../schedule/draft.ts';
import { DAY } from '../time/clock.ts';
import { aroundOne, drawOf, hasSpread, stream, triangular, type Draw, type Points } from './draws.ts';

export interface UncertainTask {
  /** Its node. */
  readonly v: number;
  /** Clock minutes left at the phase's own pace, before the common pace and before rounding up. */
  readonly draw: Draw;
  readonly varies: boolean;
}

export interface UncertainPurchase {
  readonly key: string;
  /** Whole days later than its lead days say, 0 or more. */
  readonly draw: Draw;
}

/** A part a task waits for. */
export interface AwaitedPart {
  /** Its number among the uncertain purchases; -1 if it comes when it comes. */
  readonly purchase: number;
  readonly key: string;
  /** The instant from which it can be used when nothing is late, and days it is overdue already. */
  readonly usable: number;
  readonly overdue: number;
}

export interface Uncertain {
  /** Every node with minutes to work. */
  readonly tasks: readonly UncertainTask[];
  readonly purchases: readonly UncertainPurchase[];
  /** Per task node. */
  readonly parts: readonly (readonly AwaitedPart[])[];
  readonly pace: Draw;
  readonly paceSigma: number;
}

/** At no finished hours at all; falls as they grow, because what is done says how fast the rest goes. */
const SIGMA = 0.3;
/** Finished estimated person-minutes at which half of the variance is left. */
const SIGMA_HALF = 100 * 60;

/** @param known estimated person-minutes of finished work */
export function paceSigmaOf(known: number): number {
  return SIGMA * Math.sqrt(SIGMA_HALF / (SIGMA_HALF + known));
}

export function uncertainOf(
  { basis, graph, net }: Pick<Draft, 'basis' | 'graph' | 'net'>,
  seed: number,
  kind: OddsDistribution,
  paceSigma: number,
): Uncertain {
  const tasks: UncertainTask[] = [];
  for (let v = 0; v < graph.taskCount; v++) {
    // What the plan gives no minutes needs nobody and no window, and stays so.
    if (net.minutes[v] === 0) continue;
    const task = basis.taskOf.get(graph.ids[v]!)!;
    const points = leftOf(basis, task);
    const draw = drawOf(kind, points, stream(seed, `task ${task.key}`));
    tasks.push({ v, draw, varies: hasSpread(points) });
  }
  const purchases: UncertainPurchase[] = [];
  const numberOf = new Map<string, number>();
  for (const { purchase, inHand } of basis.arrivals.toSorted(byPurchase)) {
    const { key, leadDays, leadDaysBad } = purchase;
    const late = (leadDaysBad ?? leadDays) - leadDays;
    if (inHand || late <= 0 || numberOf.has(key)) continue;
    numberOf.set(key, purchases.length);
    const days = triangular({ low: 0, likely: 0, high: late }, stream(seed, `purchase ${key}`));
    purchases.push({ key, draw: () => Math.round(days()) });
  }
  return {
    tasks,
    purchases,
    parts: graph.ids.slice(0, graph.taskCount).map((key) => partsOf(basis, key, numberOf)),
    pace: aroundOne(paceSigma, stream(seed, 'pace')),
    paceSigma,
  };
}

/** The three points of the estimate, scaled to what is left of the likely minutes and to the pace of the phase. */
function leftOf(basis: Basis, task: Task): Points {
  const { low, likely, high } = task.minutes;
  const left = minutesLeft(task, basis.logged.get(task.key) ?? 0, paceOf(task, basis.paces));
  if (likely === 0) return { low: left, likely: left, high: left };
  return { low: (left * low) / likely, likely: left, high: (left * high) / likely };
}

function partsOf(basis: Basis, key: string, numberOf: ReadonlyMap<string, number>): AwaitedPart[] {
  // A task that has begun has what it needs, or does without.
  if (basis.taskOf.get(key)!.state !== 'not-started') return [];
  return (basis.partsOf.get(key) ?? []).flatMap((arrival) => {
    const usable = usableFrom(basis, arrival);
    if (usable === null) return [];
    const { purchase, inHand, day, due } = arrival;
    const number = inHand ? -1 : (numberOf.get(purchase.key) ?? -1);
    return [{ purchase: number, key: purchase.key, usable, overdue: day! - due! }];
  });
}

/** From when a part can be used if its purchase comes so many days late. */
export function usableWhen({ usable, overdue }: AwaitedPart, late: number): number {
  return late > overdue ? usable + (late - overdue) * DAY : usable;
}

function byPurchase(a: Arrival, b: Arrival): number {
  return a.purchase.key < b.purchase.key ? -1 : a.purchase.key > b.purchase.key ? 1 : 0;
}
