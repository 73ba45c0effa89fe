/**
 * The ledger: what is paid, ordered and still to buy, summed from the shares of the lines for the whole build, per
 * phase, per category and per task. One sweep over the lines, so the sums agree to the minor unit.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { MoneyFigures, TaskMoney } from '../contract/plan-money.ts';
import { bookPurchase, type Booked, type Share } from './booked.ts';
import { spread } from './rounding.ts';

type Sum = Omit<{ -readonly [K in keyof MoneyFigures]: MoneyFigures[K] }, 'plan' | 'over'>;

export interface Ledger {
  readonly booked: readonly Booked[];
  readonly total: Sum;
  /** Every phase of the build. */
  readonly phases: ReadonlyMap<string, Sum>;
  /** For lines of no phase, and purchases without lines. */
  readonly unsorted: Sum;
  /** By category; only those something was bought in. */
  readonly categories: ReadonlyMap<string, Sum>;
  /** By task key; only those that need a part. A line's share goes in equal parts to the tasks that need it. */
  readonly tasks: ReadonlyMap<string, TaskMoney>;
}

/** @param on the as-of day */
export function ledgerOf(
  file: Pick<BuildFile, 'build' | 'phases' | 'tasks' | 'purchases'>,
  on: string,
): Ledger {
  const finished = new Set(file.tasks.filter(({ state }) => state === 'finished').map(({ key }) => key));
  const total = nothing();
  const unsorted = nothing();
  const phases = new Map(file.phases.map(({ key }) => [key, nothing()]));
  const categories = new Map<string, Sum>();
  const tasks = new Map<string, { paid: number; ordered: number; toBuy: number; forecast: number }>();
  const booked = file.purchases.map((purchase) => bookPurchase(purchase, file.build.currency, on, finished));
  for (const one of booked)
    for (const share of one.shares) {
      const { line } = share;
      const phase = (line?.phase ?? null) === null ? undefined : phases.get(line!.phase!);
      addShare(total, share, one.toBuy);
      addShare(phase ?? unsorted, share, one.toBuy);
      if (line === null) continue;
      const category = categories.get(line.category) ?? nothing();
      categories.set(line.category, category);
      addShare(category, share, one.toBuy);
      addTasks(tasks, share, one.toBuy);
    }
  return { booked, total, phases, unsorted, categories, tasks };
}

function nothing(): Sum {
  return {
    paid: 0,
    ordered: 0,
    toBuy: 0,
    forecast: 0,
    unconfirmed: 0,
    unconfirmedLines: 0,
    unpricedLines: 0,
  };
}

function addShare(into: Sum, { paid, open, unconfirmed, unpriced }: Share, toBuy: boolean): void {
  into.paid += paid;
  into[toBuy ? 'toBuy' : 'ordered'] += open;
  into.forecast += paid + open;
  into.unconfirmed += unconfirmed;
  if (unconfirmed > 0) into.unconfirmedLines++;
  if (unpriced) into.unpricedLines++;
}

function addTasks(
  tasks: Map<string, { paid: number; ordered: number; toBuy: number; forecast: number }>,
  { line, paid, open }: Share,
  toBuy: boolean,
): void {
  const equal = line!.neededBy.map(() => 1);
  const [paids, opens] = [spread(paid, equal), spread(open, equal)];
  line!.neededBy.forEach((key, i) => {
    const task = tasks.get(key) ?? { paid: 0, ordered: 0, toBuy: 0, forecast: 0 };
    tasks.set(key, task);
    task.paid += paids[i]!;
    task[toBuy ? 'toBuy' : 'ordered'] += opens[i]!;
    task.forecast += paids[i]! + opens[i]!;
  });
}
