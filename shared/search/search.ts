/**
 * The search for a good list. A small population is bred until hardly anything gets better, then a fresh one of twice its
 * size; when that too has come to rest the two are united and bred on, and so again: little is spent on much while there
 * may be little to spend, and the longer it lasts the wider it looks. Nothing depends on how long that will be, so a
 * search of n schedules is the beginning of every longer one, and more schedules are never worse.
 */
import type { Decoder } from './decoder.ts';
import { Breeder, unite, type Island } from './island.ts';
import { Ledger, type Best, type Limits } from './ledger.ts';
import type { Random } from './random.ts';
import { samplerOf } from './sampling.ts';

/** Members of the first population. */
const FIRST = 20;
const GROWTH = 2;
/** At rest: so many generations of which in each at most this share of the members got better. */
const PATIENCE = 3;
const REST = 0.1;

export interface Search extends Limits {
  /** Decoded first: the result is never worse. Keeps the decoder's arcs. */
  readonly start: Int32Array;
  readonly random: Random;
}

export interface Found extends Best {
  /** Schedules made: with the same seed, as many lead to the same result. */
  readonly schedules: number;
}

export function search(decoder: Decoder, { start, random, ...limits }: Search): Found {
  const ledger = new Ledger(decoder, limits);
  const breeder = new Breeder(decoder, ledger, random);
  const sample = samplerOf(decoder, random);
  const sampled = () => {
    const list = new Int32Array(decoder.size);
    sample(list);
    return list;
  };
  let size = FIRST;
  let old: Island | null = null;
  let island = breeder.settle([start.slice(), ...Array.from({ length: FIRST - 1 }, sampled)]);
  while (!ledger.isOver) {
    breedToRest(island);
    if (old !== null) {
      island = unite(old, island);
      breedToRest(island);
    }
    old = island;
    size *= GROWTH;
    island = breeder.settle(Array.from({ length: size }, sampled));
  }
  return { ...ledger.best, schedules: ledger.done };

  function breedToRest(island: Island): void {
    const few = REST * island.forward.length;
    for (let idle = 0; idle < PATIENCE && !ledger.isOver;) idle = breeder.breed(island) > few ? 0 : idle + 1;
  }
}
