/**
 * Lines nobody has put a price to, the one that matters most first. An unknown price is only guessed to rank it: between
 * what it was guessed, else as much as a line of its phase, else of all, costs on average. It is never summed.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Purchase, PurchaseLine } from '../contract/purchase.ts';
import { costOf } from '../money/cost.ts';
import { rounded } from '../money/rounding.ts';

export interface Priceless {
  readonly purchase: string;
  readonly line: string;
  readonly name: string;
  /** Minor units of the build's currency; null: nothing else has a price either. */
  readonly effect: number | null;
}

export function withoutPrice({ build, purchases }: Pick<BuildFile, 'build' | 'purchases'>): Priceless[] {
  const kept = purchases
    .filter(({ state }) => state !== 'returned')
    .map((purchase) => ({ purchase, cost: costOf(purchase, build.currency) }));
  const phases = new Map<string | null, { sum: number; lines: number }>();
  const all = { sum: 0, lines: 0 };
  for (const { purchase, cost } of kept)
    purchase.lines.forEach((line, i) => {
      if (line.unitPrice === null) return;
      const phase = phases.get(line.phase) ?? { sum: 0, lines: 0 };
      phases.set(line.phase, phase);
      for (const into of [phase, all]) {
        into.sum += cost.lines[i]!;
        into.lines++;
      }
    });
  const guess = (line: PurchaseLine): number | null => {
    const between = guessedBetween(line);
    if (between !== null) return between;
    const like = phases.get(line.phase) ?? all;
    return like.lines === 0 ? null : rounded(like.sum / like.lines);
  };
  return kept
    .filter(({ cost }) => cost.unpriced > 0)
    .flatMap(({ purchase }) => priceless(purchase, guess))
    .toSorted((a, b) => (b.effect ?? 0) - (a.effect ?? 0) || (id(a) < id(b) ? -1 : 1));
}

export interface Unconfirmed extends Priceless {
  /** Minor units of the purchase's own currency. */
  readonly unitPrice: number;
}

/** Lines still to pay whose price nobody has confirmed, the dearest first. @param open what is still to pay, by purchase */
export function unconfirmedPrices(
  { build, purchases }: Pick<BuildFile, 'build' | 'purchases'>,
  open: (purchase: string) => number,
): Unconfirmed[] {
  return purchases
    .filter(({ key }) => open(key) > 0)
    .flatMap((purchase) => {
      const cost = costOf(purchase, build.currency);
      if (cost.byQuote) return [];
      return purchase.lines.flatMap((line, i): Unconfirmed[] =>
        line.priceConfirmed || line.unitPrice === null
          ? []
          : [
              {
                purchase: purchase.key,
                line: line.key,
                name: line.name,
                effect: cost.lines[i]!,
                unitPrice: line.unitPrice,
              },
            ],
      );
    })
    .toSorted((a, b) => b.effect! - a.effect! || (id(a) < id(b) ? -1 : 1));
}

function priceless({ key, lines }: Purchase, guess: (line: PurchaseLine) => number | null): Priceless[] {
  return lines
    .filter(({ unitPrice }) => unitPrice === null)
    .map((line) => ({ purchase: key, line: line.key, name: line.name, effect: guess(line) }));
}

function guessedBetween({ priceLow, priceHigh, quantity }: PurchaseLine): number | null {
  if (priceLow === null && priceHigh === null) return null;
  return rounded((quantity * ((priceLow ?? priceHigh)! + (priceHigh ?? priceLow)!)) / 2);
}

function id({ purchase, line }: Priceless): string {
  return `${purchase}/${line}`;
}
