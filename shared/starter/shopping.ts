/**
 * What this van's tasks need in hand: the catalogue's parts and the extra ones, in this van's amounts. A part whose tasks
 * are left out goes too, or to the next task that uses it up.
 */
import type { Purchase, PurchaseLine } from '../contract/purchase.ts';
import { CATALOGUE_PARTS, type CataloguePart } from './catalogue.ts';
import { EXTRA_PARTS } from './extras.ts';
import type { Facts } from './facts.ts';
import { alongVan, SIZES } from './sizes.ts';

/** Every price stands with this tax in it. */
export const TAX = 21;

/** Tasks that go on with a part once its own task is left out, the first that is there. */
const ALSO_IN: Readonly<Record<string, readonly string[]>> = {
  p008: ['win-slider', 'win-rear', 'fan-cut', 'cooling-cut', 'side-inlets'],
  p014: ['vapour-check', 'power-up'],
  p031: ['rooflight'],
  p033: ['cooling-fit', 'side-inlets'],
  p034: ['side-inlets'],
  p035: ['fan-cut', 'side-inlets'],
  p099: ['skin-doors'],
};

/** Parts that hang on an answer and not only on their task. */
const WHEN: Readonly<Record<string, (facts: Facts) => boolean>> = {
  p002: ({ workshop }) => workshop !== 'heated',
  p003: ({ workshop }) => workshop !== 'heated',
  p036: ({ inlet }) => inlet,
  p037: ({ water }) => water,
  p042: ({ rack }) => !rack,
  p071: ({ heater }) => heater === 'diesel',
  p075: ({ hotWater }) => hotWater === 'engine',
  p076: ({ hotWater }) => hotWater === 'engine',
  p100: ({ insulation }) => insulation !== 'wool',
  p129: ({ panels }) => panels,
  p130: ({ inlet }) => inlet,
  p141: ({ toilet }) => toilet === 'yes',
  'wool-batts': ({ insulation }) => insulation === 'wool',
  'wool-netting': ({ insulation }) => insulation === 'wool',
  'gas-alarm': ({ gas }) => gas,
  'gas-heater': ({ heater }) => heater === 'gas',
  'gas-boiler': ({ hotWater }) => hotWater === 'gas',
  inverter: ({ inlet }) => !inlet,
  tarpaulin: ({ workshop }) => workshop === 'outdoors',
};

/** Every part this van needs, with the tasks that need it; in the order of the catalogue. */
export function partsFor(facts: Facts, has: (task: string) => boolean): CataloguePart[] {
  return [...CATALOGUE_PARTS, ...EXTRA_PARTS].flatMap((listed) => {
    const part = own(listed, facts);
    if (WHEN[part.key]?.(facts) === false) return [];
    const usedIn = [part.usedIn, ...(ALSO_IN[part.key] ?? [])].find(has);
    if (usedIn === undefined) return [];
    const inHandBy = usedIn === part.usedIn && has(part.inHandBy) ? part.inHandBy : usedIn;
    return [amountFor({ ...part, usedIn, inHandBy }, facts)];
  });
}

/** What an answer changes of a part. */
function own(part: CataloguePart, facts: Facts): CataloguePart {
  if (part.key === 'p040' && facts.solar === 'one')
    return { ...part, quantity: 1, mass: Math.round(part.mass! / 2) };
  if (part.key === 'p031' && facts.roofVent === 'fan')
    return { ...part, quantity: 1, mass: Math.round(part.mass! / 2) };
  // The toilet has a task of its own where the bench can do without.
  if (part.key === 'p141') return { ...part, usedIn: 'toilet' };
  if (part.key === 'p076') return { ...part, name: 'boiler 6 l with coolant coil' };
  return part;
}

/** `…, 24 m2` at the end of a name: sold by measure, so that a longer van takes more of it. */
const MEASURED = /^(.*?),? (\d+(?:\.\d+)?) (m2|m)$/;

function amountFor(part: CataloguePart, { van }: Facts): CataloguePart {
  const { surface } = SIZES[van];
  const placed =
    part.at === undefined
      ? part
      : { ...part, at: [alongVan(part.at[0], van), part.at[1], part.at[2]] as const };
  const measure = MEASURED.exec(part.name);
  if (measure !== null && part.quantity === 1) {
    const [, name, amount, unit] = measure as unknown as [string, string, string, string];
    const taken = Math.round(Number(amount) * surface * 10) / 10;
    return {
      ...placed,
      name,
      unit,
      quantity: taken,
      unitPrice: Math.round(part.unitPrice / Number(amount)),
      ...massTimes(part, surface),
    };
  }
  if (part.unit === 'sheet')
    return {
      ...placed,
      name: part.name.replace(/, \d+ sheets$/, ''),
      quantity: Math.ceil(part.quantity * surface),
      ...massTimes(part, Math.ceil(part.quantity * surface) / part.quantity),
    };
  return placed;
}

function massTimes({ mass }: CataloguePart, by: number): { mass?: number } {
  return mass === undefined ? {} : { mass: Math.round(mass * by) };
}

/** Parts used by one task and needed in hand by one are bought together: all of them wanted, no price confirmed. */
export function purchasesOf(parts: readonly CataloguePart[], phaseOf: (task: string) => string): Purchase[] {
  const together = new Map<string, CataloguePart[]>();
  for (const part of parts) {
    const name = `${part.usedIn} ${part.inHandBy}`;
    together.set(name, [...(together.get(name) ?? []), part]);
  }
  return [...together.values()].map((group) => {
    const [first] = group as [CataloguePart];
    const early = first.inHandBy === first.usedIn ? '' : `-by-${first.inHandBy}`;
    const key = group.length > 1 ? `for-${first.usedIn}${early}` : first.key;
    return purchaseOf(
      key,
      Math.max(...group.map(({ lead }) => lead)),
      group.map((part) => lineOf(part, phaseOf(part.usedIn))),
    );
  });
}

/** A purchase nobody has asked a price for yet. Leads run late by three fifths: invented. */
export function purchaseOf(key: string, lead: number, lines: PurchaseLine[]): Purchase {
  return {
    key,
    supplier: '',
    state: 'wanted',
    leadDays: lead,
    leadDaysBad: Math.ceil(lead * 1.6),
    orderedOn: null,
    promisedOn: null,
    currency: null,
    rate: 1,
    shipping: 0,
    shippingTaxPercent: 0,
    shippingTaxIncluded: true,
    charges: [],
    discount: 0,
    lines,
    quotes: [],
    deliveries: [],
    returns: [],
    payments: [],
    receipts: [],
  };
}

/** A part as a line, its price a guess. */
export function lineOf(part: CataloguePart, phase: string | null): PurchaseLine {
  const [x, y, z] = part.at ?? [null, null, null];
  return {
    key: part.key,
    name: part.name,
    category: part.category,
    phase,
    neededBy: [...new Set([part.inHandBy, part.usedIn])].sort(),
    quantity: part.quantity,
    unit: part.unit,
    unitPrice: part.unitPrice,
    priceLow: null,
    priceHigh: null,
    priceConfirmed: false,
    taxPercent: TAX,
    taxIncluded: true,
    shelfLifeDays: part.shelfLife ?? null,
    returnDays: part.returnDays,
    mass: part.mass ?? (part.category === 'material' ? null : 0),
    massWeighed: false,
    fittedShare: part.fittedShare ?? (part.category === 'material' ? 1 : 0),
    x,
    y,
    z,
    size: null,
    serial: null,
  };
}
