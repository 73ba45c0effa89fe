/** The three vans one can begin with: bays, how much of everything, limits of the plate. All values are invented. */
import type { Limits, Load } from '../contract/build.ts';
import type { Facts } from './facts.ts';
import type { Bays } from './van.ts';

interface Size {
  readonly words: string;
  readonly bays: Bays;
  /** Of the surfaces of the medium van, and so of the work on them and what covers them. */
  readonly surface: number;
  readonly plate: Omit<Limits, 'loads'>;
  /** Grams: bulkhead and cargo linings. */
  readonly takenOut: number;
}

const TRACK = 1730;

export const SIZES: Readonly<Record<Facts['van'], Size>> = {
  short: {
    words: 'short-wheelbase panel van',
    bays: 2,
    surface: 0.85,
    plate: {
      grossMass: 3_300_000,
      frontAxle: 1_750_000,
      rearAxle: 1_900_000,
      wheelbase: 3000,
      track: TRACK,
      kerbMass: 1_960_000,
      kerbFront: 1_220_000,
    },
    takenOut: 44_000,
  },
  medium: {
    words: 'high-roof, medium-wheelbase panel van',
    bays: 3,
    surface: 1,
    plate: {
      grossMass: 3_500_000,
      frontAxle: 1_850_000,
      rearAxle: 2_120_000,
      wheelbase: 3640,
      track: TRACK,
      kerbMass: 2_140_000,
      kerbFront: 1_310_000,
    },
    takenOut: 52_000,
  },
  long: {
    words: 'high-roof, long-wheelbase panel van',
    bays: 4,
    surface: 1.2,
    plate: {
      grossMass: 4_250_000,
      frontAxle: 2_100_000,
      rearAxle: 2_500_000,
      wheelbase: 4040,
      track: TRACK,
      kerbMass: 2_330_000,
      kerbFront: 1_390_000,
    },
    takenOut: 58_000,
  },
};

/** Positions of the catalogue are those of its own van; along another they keep their share of the wheelbase. */
export function alongVan(x: number, van: Facts['van']): number {
  return Math.round((x * SIZES[van].plate.wheelbase!) / SIZES.medium.plate.wheelbase!);
}

/** Limits of the plate with what rides along beside the parts. */
export function limitsFor(facts: Facts): Limits {
  const { van, freshWater, seats } = facts;
  const { plate, takenOut } = SIZES[van];
  const at = (name: string, mass: number, x: number, y: number): Load => ({
    name,
    mass,
    x: alongVan(x, van),
    y,
  });
  return {
    ...plate,
    loads: [
      at('bulkhead, cargo linings and lashing rings taken out', -takenOut, 1600, 0),
      at('passenger', 75_000, 450, -400),
      ...(seats === 'belted' ? [at('two people behind', 150_000, 1900, -150)] : []),
      ...(freshWater === 'none' ? [at('water in canisters, 20 l', 20_000, 2400, 300)] : []),
      ...(freshWater === 'inside' ? [at('fresh water, 85 l', 85_000, 3640, -640)] : []),
      ...(freshWater === 'below' ? [at('fresh water, 90 l', 90_000, 2700, -300)] : []),
      at('food, clothes, bedding', 90_000, 3200, 0),
      at('dishes and tools', 35_000, 2400, 300),
    ],
  };
}
