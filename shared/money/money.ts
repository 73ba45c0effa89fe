/** The money of the plan: the ledger with what was planned beside it, contingency, cash, partners and earned value. */
import type { MoneyFigures, PlanMoney, PurchaseMoney } from '../contract/plan-money.ts';
import type { PlannedPurchase, Progress } from '../contract/plan.ts';
import type { Basis } from '../schedule/basis.ts';
import { dayText } from '../time/days.ts';
import type { Booked } from './booked.ts';
import { cashOf } from './cash.ts';
import { contingencyOf } from './contingency.ts';
import { baselineOf, earnedOf, planByMonth } from './earned.ts';
import { ledgerOf } from './ledger.ts';
import { sumOf } from './moves.ts';
import { partnersOf } from './partners.ts';
import { standingOf } from './standing.ts';

type Unplanned = Omit<MoneyFigures, 'plan' | 'over'>;

/** @param finish the planned finish as written; null where it is not known */
export function moneyOf(
  basis: Basis,
  planned: Readonly<Record<string, PlannedPurchase>>,
  progress: Progress,
  finish: string | null,
): PlanMoney {
  const { file } = basis;
  const { build, phases } = file;
  const asOf = dayText(basis.asOfDay);
  const ledger = ledgerOf(file, asOf);
  const baseline = baselineOf(file.baselines);
  const plans = plansOf(basis, baseline);
  const plan = plans.unsorted + [...plans.phases.values()].reduce((sum, one) => sum + one, 0);
  const budgets = phases.reduce((sum, { budget }) => sum + budget, 0);
  return {
    total: withPlan(ledger.total, plan),
    phases: Object.fromEntries(
      phases.map(({ key }) => [key, withPlan(ledger.phases.get(key)!, plans.phases.get(key)!)]),
    ),
    unsorted: withPlan(ledger.unsorted, plans.unsorted),
    categories: Object.fromEntries(
      [...ledger.categories]
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([category, figures]) => [category, withPlan(figures, null)]),
    ),
    tasks: Object.fromEntries([...ledger.tasks].sort(([a], [b]) => (a < b ? -1 : 1))),
    purchases: Object.fromEntries(
      ledger.booked.map((one): [string, PurchaseMoney] => [one.purchase.key, purchaseMoney(one)]),
    ),
    contingency: contingencyOf(build, budgets, plan, ledger.total.forecast),
    cash: cashOf(
      build,
      ledger.booked,
      planned,
      asOf,
      (finish ?? build.targetFinishOn ?? asOf).slice(0, 10),
      baseline === null ? null : planByMonth(basis, baseline),
    ),
    partners: partnersOf(file, ledger.booked),
    standing: standingOf(file),
    earned: baseline === null ? null : earnedOf(basis, baseline, progress.logged, ledger.total.paid),
  };
}

/** The plan of each phase: what the baseline froze for its tasks, or its budget where it froze none of them. */
function plansOf({ file, taskOf }: Basis, baseline: ReturnType<typeof baselineOf>) {
  const phases = new Map(file.phases.map(({ key, budget }) => [key, budget]));
  const frozen = new Map<string, number>();
  let unsorted = 0;
  for (const [key, { money }] of Object.entries(baseline?.tasks ?? {})) {
    const phase = taskOf.get(key)?.phase ?? null;
    if (phase === null) unsorted += money;
    else frozen.set(phase, (frozen.get(phase) ?? 0) + money);
  }
  for (const [phase, money] of frozen) phases.set(phase, money);
  return { phases, unsorted };
}

function withPlan(figures: Unplanned, plan: number | null): MoneyFigures {
  return { ...figures, plan, over: plan === null ? null : figures.forecast - plan };
}

function purchaseMoney({ cost, moves, paid, open, shares }: Booked): PurchaseMoney {
  const unsure = shares.filter(({ unconfirmed }) => unconfirmed > 0);
  return {
    total: cost.total,
    byQuote: cost.byQuote,
    paid,
    open,
    refundsOut: sumOf(moves.refundsOut),
    unconfirmed: unsure.reduce((sum, { unconfirmed }) => sum + unconfirmed, 0),
    unconfirmedLines: unsure.length,
    unpricedLines: shares.filter(({ unpriced }) => unpriced).length,
  };
}
