/**
 * The search for a good list. Small populations are bred until nothing gets better, then two of one age are united and
 * bred on, as a binary counter counts; so the effort goes into few schedules at first and into ever wider ones the
 * longer it may last. Nothing depends on how long that will be: a search of n schedules is the beginning of every longer
 * one, the result is fixed by (seed, schedules), and more schedules are never worse.
 */
import type { Decoder } from './decoder.ts';
import { Breeder, unite, type Island } from './island.ts';
import { Ledger, type Best, type Limits } from './ledger.ts';
import type { Random } from './random.ts';
import { samplerOf } from './sampling.ts';

/** Members of a new population. */
const FRESH = 20;
/** Generations without anything better before it is united with another. */
const PATIENCE = 3;

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
  const settled: { readonly age: number; readonly island: Island }[] = [];
  const lists = [start.slice(), ...Array.from({ length: FRESH - 1 }, sampled)];
  let age = 0;
  let island = breeder.settle(lists);
  while (!ledger.isOver) {
    breedOut(island);
    const other = settled.at(-1);
    if (other !== undefined && other.age === age) {
      settled.pop();
      island = unite(other.island, island);
      age++;
    } else {
      settled.push({ age, island });
      age = 0;
      island = breeder.settle(Array.from({ length: FRESH }, sampled));
    }
  }
  return { ...ledger.best, schedules: ledger.done };

  function breedOut(island: Island): void {
    for (let idle = 0; idle < PATIENCE && !ledger.isOver;) idle = breeder.breed(island) > 0 ? 0 : idle + 1;
  }
}
