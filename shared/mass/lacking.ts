/**
 * Lines that stay in the van and lack their mass or their place, the one that matters most first. An unknown mass is
 * only guessed to rank it: at what the others of its phase weigh for their price, else all others. It is never summed.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { LackingLine } from '../contract/plan-mass.ts';
import type { Purchase, PurchaseLine } from '../contract/purchase.ts';
import type { MassItem } from './items.ts';

/** Grams of known mass and what it cost, minor units. */
interface Known {
  grams: number;
  price: number;
}

export function withoutMass({ purchases }: Pick<BuildFile, 'purchases'>): LackingLine[] {
  const known = new Map<string | null, Known>();
  const all: Known = { grams: 0, price: 0 };
  for (const line of purchases.flatMap(({ lines }) => lines)) {
    const price = priceOf(line);
    if (line.mass === null || price === 0 || !canStay(line)) continue;
    const phase = known.get(line.phase) ?? { grams: 0, price: 0 };
    known.set(line.phase, phase);
    for (const sum of [phase, all]) {
      sum.grams += line.mass * line.fittedShare;
      sum.price += price;
    }
  }
  const guess = (line: PurchaseLine) => {
    const like = known.get(line.phase) ?? all;
    const price = priceOf(line);
    return price === 0 || like.price === 0 ? null : Math.round((price * like.grams) / like.price);
  };
  return staying(purchases)
    .filter(({ line }) => line.mass === null)
    .map(({ purchase, line }) => ({
      purchase: purchase.key,
      line: line.key,
      name: line.name,
      effect: guess(line),
    }))
    .toSorted(byEffect);
}

export function withoutPosition(items: readonly MassItem[]): LackingLine[] {
  return items
    .flatMap(({ purchase, line, name, planned, x, y }): LackingLine[] =>
      purchase === null || line === null || (x !== null && y !== null)
        ? []
        : [{ purchase, line, name, effect: planned }],
    )
    .toSorted(byEffect);
}

/** Lines of material that are kept: tools, fees and hire do not drive along unless somebody gives them a mass. */
export function staying(
  purchases: readonly Purchase[],
): { readonly purchase: Purchase; readonly line: PurchaseLine }[] {
  return purchases
    .filter(({ state }) => state !== 'returned')
    .flatMap((purchase) => purchase.lines.filter(canStay).map((line) => ({ purchase, line })));
}

function canStay({ category, fittedShare, mass }: PurchaseLine): boolean {
  return fittedShare > 0 && (mass === null ? category === 'material' : mass > 0);
}

function priceOf({ unitPrice, priceLow, priceHigh, quantity }: PurchaseLine): number {
  return (unitPrice ?? priceHigh ?? priceLow ?? 0) * quantity;
}

function byEffect(a: LackingLine, b: LackingLine): number {
  if (a.effect !== b.effect) return (b.effect ?? -1) - (a.effect ?? -1);
  const [one, other] = [`${a.purchase}/${a.line}`, `${b.purchase}/${b.line}`];
  return one < other ? -1 : one > other ? 1 : 0;
}
