/** The purchases as rows: what each is, what it waits for and what waits for it, in the order in which they ask for something. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { PurchaseMoney } from '#shared/contract/plan-money.ts';
import type { Plan, PlannedPurchase } from '#shared/contract/plan.ts';
import type { Purchase } from '#shared/contract/purchase.ts';
import { stillToCome } from '#shared/purchases/steps.ts';

export interface PurchaseRow {
  readonly purchase: Purchase;
  readonly planned: PlannedPurchase;
  readonly money: PurchaseMoney;
  /** Tasks that need one of its lines, each once. */
  readonly neededBy: readonly string[];
  readonly toOrder: boolean;
  readonly toCome: boolean;
  /** "2 of 3 here": of a delivery in parts; '' else. */
  readonly part: string;
}

export function rowsOf({ purchases }: Pick<BuildFile, 'purchases'>, plan: Plan): PurchaseRow[] {
  return purchases
    .map((purchase): PurchaseRow => ({
      purchase,
      planned: plan.purchases[purchase.key]!,
      money: plan.money.purchases[purchase.key]!,
      neededBy: [...new Set(purchase.lines.flatMap((line) => line.neededBy))],
      toOrder: purchase.state === 'wanted' || purchase.state === 'quoted',
      toCome: purchase.state === 'ordered' || purchase.state === 'part-received',
      part:
        purchase.state === 'part-received'
          ? `${purchase.lines.length - stillToCome(purchase).length} of ${purchase.lines.length} here`
          : '',
    }))
    .toSorted(
      (a, b) => rank(a) - rank(b) || compare(dayOf(a), dayOf(b)) || compare(a.purchase.key, b.purchase.key),
    );
}

function rank({ toOrder, toCome, planned }: PurchaseRow): number {
  return toOrder ? (planned.orderBy === null ? 2 : 0) : toCome ? 1 : 3;
}

function dayOf({ toOrder, planned }: PurchaseRow): string {
  return (toOrder ? planned.orderBy : planned.arrives) ?? '9999';
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

export interface Filter {
  readonly key: string;
  readonly words: string;
  readonly holds: (row: PurchaseRow) => boolean;
}

export const FILTERS: readonly Filter[] = [
  { key: 'open', words: 'Open', holds: ({ toOrder, toCome }) => toOrder || toCome },
  { key: 'wanted', words: 'To order', holds: ({ toOrder }) => toOrder },
  { key: 'ordered', words: 'On the way', holds: ({ toCome }) => toCome },
  { key: 'late', words: 'Holding a task up', holds: ({ planned }) => planned.late },
  { key: 'risk', words: 'May come late', holds: ({ planned }) => planned.risks.length > 0 },
  {
    key: 'keep',
    words: 'Goes off or back',
    holds: ({ planned }) => planned.keeping.some(({ untried, spoils }) => untried || spoils),
  },
  { key: 'in', words: 'In', holds: ({ purchase }) => purchase.state === 'received' },
  {
    key: 'returned',
    words: 'Sent back',
    holds: ({ purchase }) => purchase.state === 'returned' || purchase.returns.length > 0,
  },
  { key: 'all', words: 'All', holds: () => true },
];
