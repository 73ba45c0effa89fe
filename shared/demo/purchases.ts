/**
 * Wagtail's purchases: the catalogue's parts, those of one task bought together. What a finished task needed has come
 * and is paid; the rest is in the states the story gives it, else wanted.
 */
import type { Purchase, PurchaseLine } from '../contract/purchase.ts';
import { CATALOGUE_PARTS, CATALOGUE_TASKS, type CataloguePart } from '../starter/catalogue.ts';
import { lineOf as wantedLine, purchaseOf as wantedPurchase } from '../starter/shopping.ts';
import { dayNumber, dayText } from '../time/days.ts';
import { FINISHED, START_ON, STARTED } from './story.ts';

/** Paid prices that differ from the catalogue's, minor units each. */
const PAID: Readonly<Record<string, number>> = {
  p025: 41800,
  p027: 38900,
  p030: 32900,
  p045: 63900,
  p052: 29900,
  p071: 85900,
  p097: 47900,
  p006: 15900,
  p076: 47400,
};

/** Parts whose state the story gives. Days written; the first part of a group speaks for it. */
type Told =
  | { readonly state: 'received'; readonly on: string }
  | { readonly state: 'ordered'; readonly on: string; readonly promised: string; readonly deposit?: number }
  | {
      readonly state: 'part-received';
      readonly on: string;
      readonly promised: string;
      readonly came: string;
      readonly cameOn: string;
    }
  | { readonly state: 'quoted'; readonly quotes: readonly (readonly [string, number, string])[] };

const TOLD: Readonly<Record<string, Told>> = {
  p045: { state: 'received', on: '2027-02-20' },
  p082: { state: 'received', on: '2027-03-02' },
  p083: { state: 'received', on: '2027-02-23' },
  p080: { state: 'received', on: '2027-02-19' },
  p053: { state: 'received', on: '2027-01-29' },
  p040: { state: 'ordered', on: '2027-03-02', promised: '2027-03-16' },
  p084: { state: 'ordered', on: '2027-03-04', promised: '2027-03-12' },
  p085: {
    state: 'part-received',
    on: '2027-02-25',
    promised: '2027-03-12',
    came: 'p085',
    cameOn: '2027-03-05',
  },
  p041: {
    state: 'quoted',
    quotes: [
      ['first shop', 16500, '2027-03-01'],
      ['second shop', 17200, '2027-03-02'],
    ],
  },
  p122: { state: 'quoted', quotes: [['hardware dealer', 46800, '2027-02-10']] },
  p124: { state: 'ordered', on: '2027-02-15', promised: '2027-11-30', deposit: 29400 },
  p130: { state: 'ordered', on: '2027-02-15', promised: '2027-11-30', deposit: 17700 },
};

export function wagtailPurchases(): Purchase[] {
  return [...groups().values()].map(purchaseOf).concat(returned());
}

/** Parts used by one task and needed in hand by one, together; what the story singles out, alone. */
function groups(): Map<string, CataloguePart[]> {
  const together = new Map<string, CataloguePart[]>();
  for (const part of CATALOGUE_PARTS) {
    const alone = TOLD[part.key] !== undefined && TOLD[part.key]!.state !== 'part-received';
    const name = alone ? part.key : `${part.usedIn} ${part.inHandBy}`;
    together.set(name, [...(together.get(name) ?? []), part]);
  }
  return together;
}

function purchaseOf(parts: readonly CataloguePart[]): Purchase {
  const [first] = parts as readonly [CataloguePart];
  const told = parts.map(({ key }) => TOLD[key]).find((entry) => entry !== undefined);
  const lead = Math.max(...parts.map((part) => part.lead));
  const needed = neededOn(parts);
  const came =
    told?.state === 'received'
      ? told.on
      : told === undefined && needed !== null
        ? daysBefore(needed, 4)
        : null;
  const lines = parts.map((part) => lineOf(part, came !== null));
  const amount = lines.reduce((sum, line) => sum + Math.round(line.unitPrice! * line.quantity), 0);
  const key = parts.length > 1 ? `for-${first.usedIn}` : first.key;
  const base: Purchase = { ...wantedPurchase(key, lead, lines), currency: 'EUR' };
  if (came !== null) {
    const orderedOn = later(daysBefore(came, lead), START_ON);
    return {
      ...base,
      state: 'received',
      orderedOn,
      deliveries: lines.map((line) => ({
        on: later(came, orderedOn),
        line: line.key,
        quantity: line.quantity,
      })),
      payments: [{ on: orderedOn, amount, by: payer(first.key), kind: 'full' }],
    };
  }
  if (told === undefined || told.state === 'received') return base;
  if (told.state === 'quoted') {
    const quotes = told.quotes.map(([supplier, quoted, on], i) => ({
      supplier,
      amount: quoted,
      on,
      chosen: i === 0,
    }));
    return { ...base, state: 'quoted', quotes };
  }
  const deposit = told.state === 'ordered' ? told.deposit : amount;
  return {
    ...base,
    state: told.state,
    orderedOn: told.on,
    promisedOn: told.promised,
    deliveries:
      told.state === 'part-received'
        ? lines
            .filter((line) => line.key === told.came)
            .map((line) => ({ on: told.cameOn, line: line.key, quantity: line.quantity }))
        : [],
    payments:
      deposit === undefined
        ? []
        : [
            {
              on: told.on,
              amount: deposit,
              by: payer(first.key),
              kind: deposit === amount ? 'full' : 'deposit',
            },
          ],
  };
}

function lineOf(part: CataloguePart, bought: boolean): PurchaseLine {
  return {
    ...wantedLine(part, PHASE_OF.get(part.usedIn) ?? null),
    unitPrice: (bought ? PAID[part.key] : undefined) ?? part.unitPrice,
    priceConfirmed: bought,
  };
}

const PHASE_OF = new Map(CATALOGUE_TASKS.map(({ key, phase }) => [key, phase]));

/** The day the first task that is under way or done needed it; null if none is. */
function neededOn(parts: readonly CataloguePart[]): string | null {
  const days = parts
    .flatMap((part) => [BEGAN.get(part.usedIn), BEGAN.get(part.inHandBy)])
    .filter((day) => day !== undefined);
  return days.length === 0 ? null : days.reduce((a, b) => (a < b ? a : b));
}

const BEGAN = new Map([...FINISHED, ...STARTED].map(({ task, startedAt }) => [task, startedAt.slice(0, 10)]));

/** A camera set that did not fit: sent back, refunded, and the right one bought instead. */
function returned(): Purchase[] {
  const base = purchaseOf(CATALOGUE_PARTS.filter(({ key }) => key === 'p046'));
  const [line] = base.lines as [PurchaseLine];
  const wrong = {
    ...line,
    key: 'camera-wrong',
    name: 'reversing camera, wrong bracket',
    unitPrice: 12900,
    mass: 0,
    fittedShare: 0,
  };
  return [
    {
      ...base,
      key: 'camera-wrong',
      state: 'returned',
      orderedOn: '2026-09-14',
      lines: [wrong],
      deliveries: [{ on: '2026-09-22', line: 'camera-wrong', quantity: 1 }],
      returns: [
        { on: '2026-09-26', line: 'camera-wrong', quantity: 1, refund: 12900, refundedOn: '2026-10-05' },
      ],
      payments: [{ on: '2026-09-14', amount: 12900, by: 'tor', kind: 'full' }],
    },
  ];
}

function payer(key: string): string {
  return Number(key.slice(1)) % 2 === 0 ? 'tor' : 'ines';
}

function daysBefore(day: string, days: number): string {
  return dayText(dayNumber(day) - days);
}

function later(a: string, b: string): string {
  return a > b ? a : b;
}
