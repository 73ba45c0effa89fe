/**
 * The one door: the plan as a pure function of the build. The same in the server, in the browser and in a command;
 * nothing computed is stored.
 */
import type { BuildFile } from './contract/build-file.ts';
import type { BuildHead } from './contract/build.ts';
import type { Plan } from './contract/plan.ts';
import { closedErrors } from './covers/closed.ts';
import { closingsOf } from './covers/closings.ts';
import { hintsOf } from './covers/hints.ts';
import { lastChancesOf } from './covers/last-chances.ts';
import { planMass } from './mass/plan-mass.ts';
import { moneyOf } from './money/money.ts';
import { progressOf } from './progress/progress.ts';
import { plannedPurchases } from './purchases/planned-purchases.ts';
import { criticalChains } from './schedule/critical-chains.ts';
import { draftOf } from './schedule/draft.ts';
import { plannedTasks } from './schedule/planned-tasks.ts';
import { missedFixedStarts, unplacedTasks } from './schedule/trouble.ts';
import { instantText } from './time/clock.ts';
import { tradeFindings } from './trade/check.ts';

export interface PlanOptions {
  /** The caller's now, `2027-03-13T18:30`: the as-of instant of a build that names none. */
  readonly now: string;
}

/** @param file a build that `readBuild` has vouched for */
export function computePlan(file: BuildFile, { now }: PlanOptions): Plan {
  const draft = draftOf(file, asOfOf(file, now));
  const { basis, names, drawn, graph, findings, net, path, list, levelled } = draft;
  const { stacks, exceptions } = drawn;
  const trouble = unplacedTasks(draft);
  const tasks = plannedTasks(draft, trouble.unplaced);
  const closings = closingsOf(basis, stacks, exceptions, tasks);
  const purchases = plannedPurchases(draft, closings);
  const progress = progressOf(file, basis.logged, basis.minutes, basis.complete, basis.paces);
  const finish = levelled.end === null ? null : instantText(basis.clock, levelled.end);
  return {
    provisional: findings.leftOut.length > 0,
    leftOut: findings.leftOut.map(({ from, to, kind }) => ({ from, to, kind })),
    asOf: instantText(basis.clock, basis.asOf),
    tasks,
    finish: {
      early: path.end,
      dates: finish,
    },
    criticalChains: criticalChains(net, basis.calendar.sets, path).map((chain) =>
      chain.map((v) => graph.ids[v]!),
    ),
    order: list.map((v) => graph.ids[v]!),
    errors: [
      ...findings.errors,
      ...closedErrors(basis, stacks, exceptions, names),
      ...trouble.errors,
      ...missedFixedStarts(draft, tasks),
    ],
    hints: hintsOf(basis, stacks, exceptions, graph, findings.left, names),
    closings,
    lastChances: lastChancesOf(basis, stacks, tasks),
    purchases,
    progress,
    money: moneyOf(basis, purchases, progress, finish),
    mass: planMass(file, instantText(basis.clock, basis.asOf).slice(0, 10)),
    trade: tradeFindings(file, {
      tasks: basis.tasks,
      stacks,
      graph,
      left: findings.left,
      names,
      planned: tasks,
    }),
  };
}

/** A build that names no as-of instant is looked at now, though never before it begins. */
export function asOfOf(
  { build }: { readonly build: Pick<BuildHead, 'startOn' | 'asOf'> },
  now: string,
): string {
  const start = `${build.startOn}T00:00`;
  return build.asOf ?? (now > start ? now : start);
}
