/**
 * What a delay costs: hire that is priced by time and that work still to be done needs. Nothing else that is stored costs
 * by time gone by: what people are paid goes by hours worked, and nobody writes down rent here.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Standing, StandingHire } from '../contract/plan-money.ts';
import { WEEKDAYS } from '../contract/calendar.ts';
import type { Purchase, PurchaseLine } from '../contract/purchase.ts';
import { inHand } from '../purchases/steps.ts';
import { windowsOf } from '../time/availability.ts';
import { Patterns } from '../time/patterns.ts';
import { inBuildCurrency, withTax } from './cost.ts';
import { rounded } from './rounding.ts';

/** Days of the units that say a price is for a time. */
const TIMES: readonly (readonly [unit: RegExp, days: number])[] = [
  [/^d(ays?)?$/i, 1],
  [/^w(ee)?ks?$/i, 7],
  [/^months?$/i, 365 / 12],
];

export function standingOf(file: BuildFile): Standing {
  const open = new Set(file.tasks.filter(({ state }) => state !== 'finished').map(({ key }) => key));
  const hires = file.purchases
    .filter(({ state }) => state !== 'returned')
    .flatMap((purchase) => purchase.lines.flatMap((line) => hireOf(purchase, line, open, file)));
  const perWeek = hires.reduce((sum, hire) => sum + (hire.isHere ? hire.perWeek : 0), 0);
  const minutes = usualWeek(file);
  return { hires, perWeek, perHour: minutes === 0 ? null : rounded((perWeek * 60) / minutes) };
}

/** One or none. What is sent back, or is needed by nothing that is left to do, costs nothing more. */
function hireOf(
  purchase: Purchase,
  line: PurchaseLine,
  open: ReadonlySet<string>,
  { build }: BuildFile,
): StandingHire[] {
  const time = TIMES.find(([unit]) => unit.test(line.unit.trim()));
  const tasks = line.neededBy.filter((task) => open.has(task));
  if (line.category !== 'hire' || time === undefined || line.unitPrice === null || tasks.length === 0)
    return [];
  const here = inHand(purchase).some((one) => one.line.key === line.key);
  const isBack = !here && purchase.returns.some((one) => one.line === line.key);
  if (isBack) return [];
  const perUnit = inBuildCurrency(withTax(line.unitPrice, line), purchase, build.currency);
  return [
    {
      purchase: purchase.key,
      line: line.key,
      perWeek: rounded((perUnit * 7) / time[1]),
      isHere: here,
      tasks,
    },
  ];
}

/** Person-minutes of those who do whatever comes, in a week without exceptions. */
function usualWeek({ people }: BuildFile): number {
  const patterns = new Patterns();
  return people
    .filter(({ byNameOnly }) => !byNameOnly)
    .flatMap(({ week }) => WEEKDAYS.map((day) => patterns.at(patterns.of(windowsOf(week[day])))))
    .reduce((sum, ends) => ends.reduce((all, end, i) => all + (i % 2 === 0 ? -end : end), sum), 0);
}
