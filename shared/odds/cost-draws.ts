/**
 * What is not certain of the cost: what is not ordered yet. Its price lies between the lowest and the highest the builder
 * gives, else within 15 % of the price there is. All the rest is as the forecast has it.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { OddsDistribution } from '../contract/plan-odds.ts';
import type { PurchaseLine } from '../contract/purchase.ts';
import type { Booked, Share } from '../money/booked.ts';
import { inBuildCurrency, withTax } from '../money/cost.ts';
import { ledgerOf } from '../money/ledger.ts';
import { drawOf, stream, type Draw, type Points } from './draws.ts';

/** How far a price nobody bounds may be off. */
const PRICE_SPREAD = 0.15;

export interface CostDraws {
  /** Minor units: the forecast of the plan. */
  readonly forecast: number;
  /** What the forecast has of the lines drawn; the rest of it is certain. */
  readonly certain: number;
  readonly draws: readonly Draw[];
  /** Lines without price and range: they count as nothing, here as in the forecast. */
  readonly unpricedLines: number;
}

/** @param on the as-of day */
export function costDrawsOf(file: BuildFile, on: string, seed: number, kind: OddsDistribution): CostDraws {
  const { booked, total } = ledgerOf(file, on);
  const draws: Draw[] = [];
  let drawn = 0;
  let unpricedLines = 0;
  for (const one of booked) {
    if (!one.toBuy) continue;
    one.shares.forEach((share) => {
      const points = pointsOf(share, one, file.build.currency);
      if (points === null) {
        if (share.unpriced) unpricedLines++;
        return;
      }
      drawn += share.open;
      draws.push(drawOf(kind, points, stream(seed, `price ${one.purchase.key} ${share.line?.key ?? ''}`)));
    });
  }
  return { forecast: total.forecast, certain: total.forecast - drawn, draws, unpricedLines };
}

/** What a share may still cost, minor units of the build's currency; null while nobody knows anything of its price. */
function pointsOf({ line, open, unpriced }: Share, { purchase }: Booked, own: string): Points | null {
  if (unpriced && line !== null) {
    const between = boundsOf(line);
    if (between === null) return null;
    const amount = (unitPrice: number) =>
      inBuildCurrency(withTax(line.quantity * unitPrice, line), purchase, own);
    const [low, high] = between.map(amount) as [number, number];
    // What is on no line, shipping for one, is known all the same.
    return { low: open + low, likely: open + (low + high) / 2, high: open + high };
  }
  if (open === 0) return null;
  const price = line?.unitPrice ?? null;
  if (line === null || price === null || price === 0) return around(open, 1 - PRICE_SPREAD, 1 + PRICE_SPREAD);
  return around(
    open,
    line.priceLow === null ? 1 - PRICE_SPREAD : line.priceLow / price,
    line.priceHigh === null ? 1 + PRICE_SPREAD : line.priceHigh / price,
  );
}

function around(likely: number, low: number, high: number): Points {
  return { low: likely * Math.min(1, low), likely, high: likely * Math.max(1, high) };
}

/** The range of a price nobody knows. */
function boundsOf({ priceLow, priceHigh }: PurchaseLine): [number, number] | null {
  const one = priceLow ?? priceHigh;
  if (one === null) return null;
  const other = priceHigh ?? one;
  return [Math.min(one, other), Math.max(one, other)];
}
