/**
 * Cash by month: what was put in, paid and is still expected, summed up to the end of each month. What is open falls due
 * on the days written down for it, else when it is to be ordered (or, once ordered, when it comes); what has no day at
 * all is counted at the planned finish, so the curve ends at the forecast.
 */
import type { BuildHead } from '../contract/build.ts';
import type { Cash, CashMonth } from '../contract/plan-money.ts';
import type { PlannedPurchase } from '../contract/plan.ts';
import type { Booked } from './booked.ts';
import { monthNumber, monthOf, monthText } from './months.ts';

/** A list no longer than this: what lies beyond is counted in its last month. */
const LONGEST = 600;

interface Move {
  /** Null: nobody knows. */
  readonly on: string | null;
  readonly amount: number;
}

/**
 * @param asOf the as-of day. @param end the day the build is planned to be done
 * @param planByMonth what the baseline plans to spend in each month; null without one
 */
export function cashOf(
  { startOn, moneyIn }: Pick<BuildHead, 'startOn' | 'moneyIn'>,
  booked: readonly Booked[],
  planned: Readonly<Record<string, PlannedPurchase>>,
  asOf: string,
  end: string,
  planByMonth: ReadonlyMap<string, number> | null,
): Cash {
  const paid = booked.flatMap(({ moves }): Move[] => [
    ...moves.paid,
    ...moves.refunded.map(({ on, amount }) => ({ on, amount: -amount })),
  ]);
  const expected = booked.flatMap((one) => expectedOf(one, planned[one.purchase.key], asOf));
  const undated = expected.reduce((sum, { on, amount }) => (on === null ? sum + amount : sum), 0);
  const latest = end > asOf ? end : asOf;
  const firsts = [
    startOn,
    asOf,
    ...paid.map(({ on }) => on!),
    ...moneyIn.map((one) => ('on' in one ? one.on : one.from)),
    ...(planByMonth?.keys() ?? []),
  ];
  const lasts = [latest, ...expected.map(({ on }) => on ?? latest), ...(planByMonth?.keys() ?? [])];
  const first = monthNumber(firsts.map(monthOf).reduce((a, b) => (b < a ? b : a)));
  const last = Math.min(
    monthNumber(lasts.map(monthOf).reduce((a, b) => (b > a ? b : a))),
    Math.max(first + LONGEST - 1, monthNumber(monthOf(asOf))),
  );
  const count = last - first + 1;
  const at = (day: string) => Math.min(count - 1, Math.max(0, monthNumber(monthOf(day)) - first));
  const sums = (moves: readonly Move[]) => running(count, moves, (on) => at(on ?? latest));
  const [ins, outs, dues] = [sums(putIn(moneyIn, monthText(last))), sums(paid), sums(expected)];
  const plans =
    planByMonth === null ? null : sums([...planByMonth].map(([month, amount]) => ({ on: month, amount })));
  const now = at(asOf);
  const months = ins.map((moneyIn, i): CashMonth => ({
    month: monthText(first + i),
    moneyIn,
    paid: i <= now ? outs[i]! : null,
    forecast: i >= now ? outs[count - 1]! + dues[i]! : null,
    plan: plans === null ? null : plans[i]!,
  }));
  return {
    moneyIn: putIn(moneyIn, monthOf(asOf)).reduce(
      (sum, { on, amount }) => (on! <= asOf ? sum + amount : sum),
      0,
    ),
    months,
    undated,
    empty: moneyIn.length === 0 ? null : emptyOf(months),
  };
}

/** When what is open falls due, from the as-of day on. */
function expectedOf(
  { moves: { scheduled }, open, toBuy }: Booked,
  planned: PlannedPurchase | undefined,
  asOf: string,
): Move[] {
  const moves: Move[] = [];
  let left = open;
  for (const { on, amount } of scheduled) {
    const due = Math.min(left, amount);
    if (due > 0) moves.push({ on, amount: due });
    left -= due;
  }
  const day = (toBuy ? planned?.orderBy : planned?.arrives) ?? (toBuy ? null : asOf);
  if (left > 0) moves.push({ on: day !== null && day < asOf ? asOf : day, amount: left });
  return moves;
}

/** What is put in, a move each month. @param last the last month wanted */
function putIn(moneyIn: BuildHead['moneyIn'], last: string): Move[] {
  return moneyIn.flatMap((one): Move[] => {
    if ('on' in one) return monthOf(one.on) <= last ? [{ on: one.on, amount: one.amount }] : [];
    const months: Move[] = [];
    for (let n = monthNumber(one.from); n <= monthNumber(last); n++)
      months.push({ on: monthText(n), amount: one.monthly });
    return months;
  });
}

/** Sums up to the end of each month. */
function running(count: number, moves: readonly Move[], at: (on: string | null) => number): number[] {
  const sums = Array.from({ length: count }, () => 0);
  for (const { on, amount } of moves) sums[at(on)]! += amount;
  for (let i = 1; i < count; i++) sums[i]! += sums[i - 1]!;
  return sums;
}

function emptyOf(months: readonly CashMonth[]): Cash['empty'] {
  const short = ({ forecast, moneyIn }: CashMonth) => (forecast === null ? 0 : forecast - moneyIn);
  const from = months.findIndex((one) => short(one) > 0);
  if (from < 0) return null;
  const level = months.findIndex((one, i) => i > from && short(one) <= 0);
  const within = months.slice(from, level < 0 ? undefined : level);
  return {
    month: months[from]!.month,
    short: Math.max(...within.map(short)),
    level: level < 0 ? null : months[level]!.month,
  };
}
