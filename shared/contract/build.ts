/** The build itself: one vehicle's conversion with its dates, budget and limits of mass. */
import { Type, type Static } from 'typebox';
import {
  CURRENCY,
  Day,
  Flag,
  Instant,
  Length,
  Mass,
  Maybe,
  Money,
  Month,
  Name,
  OneOf,
  PercentOr,
  Position,
  Strict,
  Text,
} from './common.ts';

/** Money put in: every month from one on, or once on a day. */
export const MoneyIn = Type.Union(
  [Type.Object({ from: Month, monthly: Money }, Strict), Type.Object({ on: Day, amount: Money }, Strict)],
  { description: 'money put in: { from: "2026-06", monthly } or { on: "2026-06-06", amount }' },
);

/** Something carried that is not a purchase; negative where something was taken out. */
export const Load = Type.Object(
  {
    name: Name,
    mass: Type.Integer({
      minimum: -10_000_000,
      maximum: 10_000_000,
      description: 'a whole number of grams, negative for something taken out',
    }),
    x: Position,
    y: Position,
  },
  Strict,
);

/** What the plate and the weighbridge say. Masses in grams, lengths in millimetres. */
export const Limits = Type.Object(
  {
    grossMass: Maybe(Mass),
    frontAxle: Maybe(Mass),
    rearAxle: Maybe(Mass),
    wheelbase: Maybe(Length),
    track: Maybe(Length),
    kerbMass: Maybe(Mass),
    kerbFront: Maybe(Mass),
    loads: Type.Array(Load, { default: [], maxItems: 1000, description: 'a list of loads' }),
  },
  Strict,
);

/** How logged hours correct the estimates that are still to come. */
export const PaceSettings = Type.Object(
  {
    use: Flag(true),
    prior: Type.Number({
      minimum: 0.1,
      maximum: 10,
      default: 1.5,
      description: 'hours taken per hour estimated, 0.1 to 10 (a first build: 1.5)',
    }),
  },
  Strict,
);

export const BuildHead = Type.Object(
  {
    name: Name,
    vehicle: Text,
    currency: Type.String({ ...CURRENCY, default: 'EUR' }),
    units: OneOf(['metric', 'imperial'], 'metric'),
    startOn: Day,
    targetFinishOn: Maybe(Day),
    /** Null: the caller's now. */
    asOf: Maybe(Instant),
    budget: Maybe(Money),
    contingencyPercent: PercentOr(20),
    pace: Type.Object(PaceSettings.properties, {
      ...Strict,
      default: {},
      description: 'an object with use and prior',
    }),
    moneyIn: Type.Array(MoneyIn, { default: [], maxItems: 1000, description: 'a list of money put in' }),
    limits: Maybe(Limits),
  },
  Strict,
);

export type BuildHead = Static<typeof BuildHead>;
export type PaceSettings = Static<typeof PaceSettings>;
export type Limits = Static<typeof Limits>;
export type Load = Static<typeof Load>;
