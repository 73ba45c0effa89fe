/** What is bought: everything sits on the line of a purchase. Money in minor units, mass in grams, lengths in millimetres. */
import { Type, type Static } from 'typebox';
import {
  CURRENCY,
  Day,
  Days,
  DaysOrNone,
  Flag,
  Key,
  Keys,
  Length,
  Mass,
  Maybe,
  Money,
  MoneyOrNone,
  Name,
  OneOf,
  PercentOr,
  Position,
  Quantity,
  StoredFile,
  Strict,
  Text,
  Words,
} from './common.ts';

export const PURCHASE_STATES = [
  'wanted',
  'quoted',
  'ordered',
  'part-received',
  'received',
  'returned',
] as const;

export const LINE_CATEGORIES = ['material', 'tool', 'consumable', 'fee', 'hire'] as const;

const TaxPercent = PercentOr(0);
const Share = Type.Number({
  minimum: 0,
  maximum: 1,
  default: 1,
  description: 'the share that stays in the vehicle, 0 to 1 (offcuts do not drive along)',
});
const Rate = Type.Number({
  exclusiveMinimum: 0,
  maximum: 1_000_000,
  default: 1,
  description: 'the exchange rate at which it was booked, above 0',
});

export const PurchaseLine = Type.Object(
  {
    key: Key,
    name: Name,
    category: OneOf(LINE_CATEGORIES, 'material'),
    phase: Maybe(Key),
    /** Every task that cannot start without it in hand. */
    neededBy: Keys,
    quantity: Quantity,
    unit: Type.String({
      format: 'plain-text',
      maxLength: 40,
      default: 'pc',
      description: 'a unit, 40 characters at most',
    }),
    /** Null: not known yet. */
    unitPrice: Maybe(Money),
    priceLow: Maybe(Money),
    priceHigh: Maybe(Money),
    priceConfirmed: Flag(false),
    taxPercent: TaxPercent,
    taxIncluded: Flag(true),
    shelfLifeDays: Maybe(Days),
    returnDays: Maybe(Days),
    /** Of the whole line. */
    mass: Maybe(Mass),
    massWeighed: Flag(false),
    fittedShare: Share,
    x: Maybe(Position),
    y: Maybe(Position),
    z: Maybe(Position),
    size: Maybe(
      Type.Tuple([Length, Length, Length], { description: 'three lengths in millimetres: [x, y, z]' }),
    ),
    serial: Maybe(Words(200, 'a serial number')),
  },
  Strict,
);

/** Duties and fees, each with its own tax. */
export const Charge = Type.Object(
  { name: Name, amount: Money, taxPercent: TaxPercent, taxIncluded: Flag(true) },
  Strict,
);
export const Quote = Type.Object({ supplier: Text, amount: Money, on: Day, chosen: Flag(false) }, Strict);
export const Delivery = Type.Object({ on: Day, line: Key, quantity: Quantity }, Strict);
export const Return = Type.Object(
  { on: Day, line: Key, quantity: Quantity, refund: MoneyOrNone, refundedOn: Maybe(Day) },
  Strict,
);
export const Payment = Type.Object(
  { on: Day, amount: Money, by: Maybe(Key), kind: OneOf(['full', 'deposit', 'balance', 'other'], 'full') },
  Strict,
);

export const Purchase = Type.Object(
  {
    key: Key,
    supplier: Text,
    state: OneOf(PURCHASE_STATES, 'wanted'),
    leadDays: DaysOrNone,
    /** The bad case; null: the same as `leadDays`. */
    leadDaysBad: Maybe(Days),
    orderedOn: Maybe(Day),
    promisedOn: Maybe(Day),
    currency: Maybe(Type.String(CURRENCY)),
    rate: Rate,
    shipping: MoneyOrNone,
    shippingTaxPercent: TaxPercent,
    shippingTaxIncluded: Flag(true),
    charges: Type.Array(Charge, { default: [], maxItems: 100, description: 'a list of duties and fees' }),
    discount: MoneyOrNone,
    lines: Type.Array(PurchaseLine, { default: [], maxItems: 1000, description: 'a list of lines' }),
    quotes: Type.Array(Quote, { default: [], maxItems: 100, description: 'a list of quotes' }),
    deliveries: Type.Array(Delivery, { default: [], maxItems: 2000, description: 'a list of deliveries' }),
    returns: Type.Array(Return, { default: [], maxItems: 2000, description: 'a list of returns' }),
    payments: Type.Array(Payment, { default: [], maxItems: 500, description: 'a list of payments' }),
    /** Photographed or scanned. */
    receipts: Type.Array(StoredFile, {
      default: [],
      maxItems: 100,
      description: 'a list of stored files',
    }),
  },
  Strict,
);

export type Purchase = Static<typeof Purchase>;
export type PurchaseLine = Static<typeof PurchaseLine>;
export type PurchaseState = (typeof PURCHASE_STATES)[number];
export type Payment = Static<typeof Payment>;
