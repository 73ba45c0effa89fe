/** What copied tasks need: tools serve them too, and materials can be wanted once more. */
import type { BuildFile } from '../contract/build-file.ts';
import type { Purchase, PurchaseLine } from '../contract/purchase.ts';
import { wanted } from './copy-build.ts';
import { numbered } from './free-key.ts';

/**
 * @param keys of the copies, by the key of what was copied
 * @param named the name of a line for the copies
 * @returns the build, and the keys of purchases that are new in it
 */
export function withPartsFor(
  file: BuildFile,
  keys: ReadonlyMap<string, string>,
  parts: 'none' | 'again',
  named: (name: string) => string,
): { readonly file: BuildFile; readonly purchases: readonly string[] } {
  const isNeeded = ({ neededBy }: PurchaseLine) => neededBy.some((key) => keys.has(key));
  const taken = new Set(file.purchases.map(({ key }) => key));
  const fresh: Purchase[] = [];
  const zonesOf = new Map(
    file.tasks.map(({ key, places }) => [key, new Set(places.map(({ zone }) => zone)).size]),
  );
  const purchases = file.purchases.map((purchase) => {
    const lines = purchase.lines.filter(isNeeded);
    if (lines.length === 0) return purchase;
    const once = lines.filter(({ category }) => category !== 'tool');
    if (parts === 'again' && once.length > 0 && purchase.state !== 'returned')
      fresh.push(again(purchase, once, keys, taken, zonesOf, named));
    if (once.length === lines.length) return purchase;
    // One tool serves both bays.
    return {
      ...purchase,
      lines: purchase.lines.map((line) =>
        line.category === 'tool' && isNeeded(line)
          ? {
              ...line,
              neededBy: line.neededBy.flatMap((key) => (keys.has(key) ? [key, keys.get(key)!] : [key])),
            }
          : line,
      ),
    };
  });
  return { file: { ...file, purchases: [...purchases, ...fresh] }, purchases: fresh.map(({ key }) => key) };
}

/** What comes with the whole order (shipping, duties, discount) is asked for when it is ordered. */
function again(
  purchase: Purchase,
  lines: readonly PurchaseLine[],
  keys: ReadonlyMap<string, string>,
  taken: Set<string>,
  zonesOf: ReadonlyMap<string, number>,
  named: (name: string) => string,
): Purchase {
  const key = numbered(`${purchase.key}-again`, taken);
  taken.add(key);
  return {
    ...wanted(purchase),
    key,
    shipping: 0,
    charges: [],
    discount: 0,
    lines: lines.map((line) => {
      const needing = line.neededBy.filter((one) => keys.has(one));
      // What is in hand for a task without a place (a list, a layout) is used up elsewhere.
      const using = line.neededBy.filter((one) => (zonesOf.get(one) ?? 0) > 0);
      const share = needing.reduce((sum, one) => sum + 1 / Math.max(1, zonesOf.get(one) ?? 0), 0);
      const quantity = shareOf(line.quantity, Math.min(1, share / Math.max(1, using.length)));
      return {
        ...line,
        name: named(line.name),
        neededBy: needing.map((one) => keys.get(one)!),
        quantity,
        priceConfirmed: false,
        mass: line.mass === null ? null : Math.round((line.mass * quantity) / line.quantity),
        massWeighed: false,
        // Where it lies in the other bay is not known.
        x: null,
        y: null,
        z: null,
        serial: null,
      };
    }),
  };
}

/** Pieces are bought whole: of seven for two tasks, four for one. */
function shareOf(quantity: number, share: number): number {
  const part = quantity * share;
  return Number.isInteger(quantity) ? Math.ceil(part) : Math.round(part * 1000) / 1000 || quantity;
}
