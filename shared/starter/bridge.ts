/**
 * Takes tasks out of an order without losing any of it: what came before a task left out still comes before what came
 * after it. A new link is drawn only where nothing else says so already.
 */
import type { CatalogueLink } from './catalogue.ts';

export interface Bridged {
  readonly from: string;
  readonly to: string;
  /** The first task left out between them. */
  readonly over: string;
}

/**
 * @param keys every task of the links; an acyclic order
 * @returns the links between tasks that stay, and those that bridge what is left out. Linear in links, times the tasks
 *   that stay, by 32
 * @throws RangeError if the links go in a circle
 */
export function bridge(
  keys: readonly string[],
  links: readonly CatalogueLink[],
  stays: (key: string) => boolean,
): { kept: CatalogueLink[]; bridged: Bridged[] } {
  const next = new Map<string, string[]>(keys.map((key) => [key, []]));
  for (const { from, to } of links) next.get(from)!.push(to);
  const order = orderOf(keys, next);
  const place = new Map(order.map((key, i) => [key, i]));
  const words = Math.ceil(order.length / 32);
  // Tasks that stay and can be reached, one bit each; of a task that stays, itself included.
  const reach = new Map<string, Uint32Array>();
  // Of a task left out: the tasks that stay and follow with nothing that stays between.
  const beyond = new Map<string, Set<string>>();
  const kept = links.filter(({ from, to }) => stays(from) && stays(to));
  const bridged: Bridged[] = [];
  for (const key of order.toReversed()) {
    const bits = new Uint32Array(words);
    reach.set(key, bits);
    const after = next.get(key)!;
    if (!stays(key)) {
      beyond.set(key, new Set(after.flatMap((to) => (stays(to) ? [to] : [...beyond.get(to)!]))));
      continue;
    }
    set(bits, place.get(key)!);
    for (const to of after) if (stays(to)) union(bits, reach.get(to)!);
    const candidates = after
      .filter((to) => !stays(to))
      .flatMap((over) => [...beyond.get(over)!].map((to) => ({ from: key, to, over })))
      .sort((a, b) => place.get(a.to)! - place.get(b.to)!);
    for (const link of candidates) {
      if (holds(bits, place.get(link.to)!)) continue;
      union(bits, reach.get(link.to)!);
      bridged.push(link);
    }
  }
  return { kept, bridged: bridged.toReversed() };
}

/** Kahn's order: CACM 5:11, 1962. */
function orderOf(keys: readonly string[], next: ReadonlyMap<string, readonly string[]>): string[] {
  const waitsFor = new Map(keys.map((key) => [key, 0]));
  for (const after of next.values()) for (const to of after) waitsFor.set(to, waitsFor.get(to)! + 1);
  const order = keys.filter((key) => waitsFor.get(key) === 0);
  for (const key of order)
    for (const to of next.get(key)!) {
      const left = waitsFor.get(to)! - 1;
      waitsFor.set(to, left);
      if (left === 0) order.push(to);
    }
  if (order.length < keys.length) throw new RangeError('the links go in a circle');
  return order;
}

function set(bits: Uint32Array, i: number): void {
  bits[i >>> 5]! |= 1 << (i & 31);
}

function holds(bits: Uint32Array, i: number): boolean {
  return (bits[i >>> 5]! & (1 << (i & 31))) !== 0;
}

function union(bits: Uint32Array, more: Uint32Array): void {
  for (let w = 0; w < bits.length; w++) bits[w]! |= more[w]!;
}
