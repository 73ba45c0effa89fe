/**
 * The money of a plan. Every amount is in minor units of the build's currency, tax included. Null means "not known",
 * never zero. `plan` is the baseline's money where one is frozen, else the phase's budget.
 */
import { Type, type Static, type TSchema } from 'typebox';
import { Day, Key, Month, Strict } from './common.ts';

const Whole = Type.Integer();
const OrNull = <T extends TSchema>(type: T) => Type.Union([type, Type.Null()]);

/** Forecast = paid + ordered + to buy, to the minor unit. */
export const MoneyFigures = Type.Object(
  {
    plan: OrNull(Whole),
    /** Less refunds that are in. */
    paid: Whole,
    /** Ordered or in, not paid. */
    ordered: Whole,
    toBuy: Whole,
    forecast: Whole,
    /** Forecast less plan: negative is under. */
    over: OrNull(Whole),
    /** How much of ordered and to buy rests on prices nobody confirmed, and on how many lines. */
    unconfirmed: Whole,
    unconfirmedLines: Whole,
    /** Lines without any price: they count as nothing. */
    unpricedLines: Whole,
  },
  Strict,
);

/** A task's share of the lines that need it: each line in equal parts. */
export const TaskMoney = Type.Object({ paid: Whole, ordered: Whole, toBuy: Whole, forecast: Whole }, Strict);

export const PurchaseMoney = Type.Object(
  {
    /** What it comes to: lines, shipping, charges, less the discount; or the chosen quote. */
    total: Whole,
    byQuote: Type.Boolean(),
    paid: Whole,
    /** Still to pay. */
    open: Whole,
    /** Refunds agreed that have not come in. */
    refundsOut: Whole,
    unconfirmed: Whole,
    unconfirmedLines: Whole,
    unpricedLines: Whole,
  },
  Strict,
);

export const Contingency = Type.Object(
  {
    percent: Type.Number(),
    /** The budget, or the phases' budgets with the contingency on top. */
    ceiling: Whole,
    /** The ceiling without the contingency. */
    forParts: Whole,
    amount: Whole,
    /** What the forecast takes of it. */
    used: Whole,
    /** What the plan itself would take of it. */
    usedByPlan: Whole,
    /** Negative: the forecast is over the ceiling. */
    left: Whole,
  },
  Strict,
);

/** Sums up to the end of a month. */
export const CashMonth = Type.Object(
  {
    month: Month,
    moneyIn: Whole,
    /** Null for months still to come. */
    paid: OrNull(Whole),
    /** Paid and expected; null for months gone by. */
    forecast: OrNull(Whole),
    /** By the baseline; null without one. */
    plan: OrNull(Whole),
  },
  Strict,
);

export const Cash = Type.Object(
  {
    /** Up to the as-of day. */
    moneyIn: Whole,
    months: Type.Array(CashMonth),
    /** Expected for no known day: counted at the planned finish. */
    undated: Whole,
    /** The first month at whose end more is spent than was put in. Null: never, or nobody said what is put in. */
    empty: OrNull(
      Type.Object(
        {
          month: Month,
          /** The most that is missing until it is level again. */
          short: Whole,
          /** Null: never. */
          level: OrNull(Month),
        },
        Strict,
      ),
    ),
  },
  Strict,
);

export const Partners = Type.Object(
  {
    people: Type.Array(
      Type.Object(
        {
          person: Key,
          paid: Whole,
          share: Whole,
          /** Paid less share: positive is owed to them. They sum to zero. */
          balance: Whole,
        },
        Strict,
      ),
    ),
    /** Paid, with nobody named. */
    purse: Whole,
    settle: Type.Array(Type.Object({ from: Key, to: Key, amount: Whole }, Strict)),
    /** Weeks in which somebody paid, by their Monday. */
    weeks: Type.Array(Type.Object({ monday: Day, paid: Type.Record(Key, Whole) }, Strict)),
  },
  Strict,
);

/** Earned value in one unit: person-minutes, or minor units. Null: no figure yet. */
export const EarnedFigures = Type.Object(
  {
    /** The whole baseline. */
    bac: Whole,
    /** Planned by now. */
    pv: Whole,
    /** Earned by what is done. */
    ev: Whole,
    /** Spent. */
    ac: Whole,
    sv: Whole,
    cv: Whole,
    spi: OrNull(Type.Number()),
    cpi: OrNull(Type.Number()),
    eac: OrNull(Whole),
    vac: OrNull(Whole),
    tcpi: OrNull(Type.Number()),
  },
  Strict,
);

export const Earned = Type.Object({ baseline: Key, hours: EarnedFigures, money: EarnedFigures }, Strict);

/** A line of hire that is priced by the day, week or month, and needed by work that is still to be done. */
export const StandingHire = Type.Object(
  {
    purchase: Key,
    line: Key,
    perWeek: Whole,
    /** In hand: a delay costs it now. Else only once it is here. */
    isHere: Type.Boolean(),
    /** What is still to be done with it. */
    tasks: Type.Array(Key),
  },
  Strict,
);

export const Standing = Type.Object(
  {
    hires: Type.Array(StandingHire),
    /** What another week costs: the hire that is here. */
    perWeek: Whole,
    /** The same for each hour of a usual week of those who build; null where they have none. */
    perHour: OrNull(Whole),
  },
  Strict,
);

export const PlanMoney = Type.Object(
  {
    total: MoneyFigures,
    phases: Type.Record(Key, MoneyFigures),
    /** For lines of no phase. */
    unsorted: MoneyFigures,
    /** By category; nothing is planned by category. */
    categories: Type.Record(Type.String(), MoneyFigures),
    tasks: Type.Record(Key, TaskMoney),
    purchases: Type.Record(Key, PurchaseMoney),
    contingency: Contingency,
    cash: Cash,
    partners: Partners,
    /** What a delay costs. */
    standing: Standing,
    /** Null without a baseline. */
    earned: OrNull(Earned),
  },
  Strict,
);

export type MoneyFigures = Static<typeof MoneyFigures>;
export type TaskMoney = Static<typeof TaskMoney>;
export type PurchaseMoney = Static<typeof PurchaseMoney>;
export type Contingency = Static<typeof Contingency>;
export type Cash = Static<typeof Cash>;
export type CashMonth = Static<typeof CashMonth>;
export type Partners = Static<typeof Partners>;
export type Standing = Static<typeof Standing>;
export type StandingHire = Static<typeof StandingHire>;
export type EarnedFigures = Static<typeof EarnedFigures>;
export type Earned = Static<typeof Earned>;
export type PlanMoney = Static<typeof PlanMoney>;
