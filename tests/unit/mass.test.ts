/** Mass by small examples: what counts when, what a weighing changes, what is said to be lacking. */
import { describe, expect, it } from 'vitest';
import type { Limits } from '#shared/contract/build.ts';
import { planMass } from '#shared/mass/plan-mass.ts';
import { document, task } from '../support/builds.ts';
import { readBuild } from '#shared/contract/read.ts';

const LIMITS: Limits = {
  grossMass: 3_000_000,
  frontAxle: 1_600_000,
  rearAxle: 1_800_000,
  wheelbase: 4000,
  track: 1600,
  kerbMass: 2_000_000,
  kerbFront: 1_200_000,
  loads: [],
};
const done = { state: 'finished', startedAt: '2026-06-02T09:00', finishedAt: '2026-06-05T10:00' };

interface Given {
  readonly limits?: Partial<Limits> | null;
  readonly lines?: readonly object[];
  readonly purchase?: object;
  readonly tasks?: readonly object[];
  readonly weighings?: readonly object[];
}

describe('mass', () => {
  it('should count the bare van, what was taken out, what is aboard and what was bought', () => {
    const { vehicle, takenOut, aboard, planned } = mass({
      limits: {
        loads: [
          { name: 'bulkhead', mass: -50_000, x: 2000, y: 0 },
          { name: 'passenger', mass: 75_000, x: 500, y: 0 },
        ],
      },
      lines: [{ mass: 200_000, x: 4000, y: 0 }],
    });
    expect({ vehicle, takenOut, aboard }).toEqual({ vehicle: 2_000_000, takenOut: -50_000, aboard: 75_000 });
    expect(planned.gross).toEqual({
      load: 2_225_000,
      limit: 3_000_000,
      left: 775_000,
      share: 2_225_000 / 3_000_000,
      level: 'fine',
    });
    // Rear: 800 − 25 + 75 × 500 / 4,000 + 200 = 984.375 kg.
    expect(planned.rear.load).toBe(984_375);
  });

  it('should let only the fitted share drive along', () => {
    expect(mass({ lines: [{ mass: 40_000, fittedShare: 0.75 }] }).planned.parts).toBe(30_000);
  });

  it('should count a part now once it is in hand and the tasks that need it are finished', () => {
    const lines = [{ mass: 10_000, neededBy: ['t'] }];
    const received = { state: 'received', deliveries: [{ on: '2026-06-03', line: 'l0', quantity: 1 }] };
    const parts = (given: Given) => {
      const { now, planned, toFit } = mass(given);
      return [now.parts, toFit, planned.parts];
    };
    expect(parts({ lines, tasks: [task('t', 60)] })).toEqual([0, 0, 10_000]);
    expect(parts({ lines, tasks: [task('t', 60)], purchase: received })).toEqual([0, 10_000, 10_000]);
    expect(parts({ lines, tasks: [task('t', 60, done)], purchase: received })).toEqual([10_000, 0, 10_000]);
    expect(parts({ lines: [{ mass: 10_000 }], purchase: received })).toEqual([10_000, 0, 10_000]);
  });

  it('should count what came of a part delivery, less what went back', () => {
    const { now, planned } = mass({
      lines: [{ mass: 10_000, quantity: 10 }],
      purchase: {
        state: 'part-received',
        orderedOn: '2026-06-01',
        deliveries: [{ on: '2026-06-03', line: 'l0', quantity: 6 }],
        returns: [{ on: '2026-06-04', line: 'l0', quantity: 1, refund: 0, refundedOn: null }],
      },
    });
    expect([now.parts, planned.parts]).toEqual([5_000, 9_000]);
  });

  it('should leave out a purchase that went back', () => {
    expect(mass({ lines: [{ mass: 10_000 }], purchase: { state: 'returned' } }).planned.parts).toBe(0);
  });

  it('should warn from nine tenths of a limit, and call it over from the limit on', () => {
    const level = (grams: number) => mass({ lines: [{ mass: grams, x: 2000 }] }).planned.gross.level;
    expect([699_999, 700_000, 999_999, 1_000_000].map(level)).toEqual(['fine', 'near', 'near', 'over']);
    expect(mass({ lines: [{ mass: 1_100_000, x: 2000 }] }).planned.gross.left).toBe(-100_000);
  });

  it('should say "not known", never zero, where the papers are silent', () => {
    const nothing = { load: null, limit: null, left: null, share: null, level: null };
    const none = mass({ limits: null, lines: [{ mass: 5_000 }] });
    expect(none.planned).toEqual({
      gross: nothing,
      front: nothing,
      rear: nothing,
      leftSide: null,
      rightSide: null,
      parts: 5_000,
    });
    expect(none.vehicle).toBeNull();
    const noBase = mass({ limits: { wheelbase: null, track: null } }).planned;
    expect([noBase.gross.load, noBase.front.load, noBase.leftSide]).toEqual([2_000_000, null, null]);
    expect(mass({ limits: { kerbFront: null } }).planned.rear.load).toBeNull();
    expect(mass({ limits: { grossMass: null } }).planned.gross).toEqual({ ...nothing, load: 2_000_000 });
    expect(mass({ limits: { grossMass: 0 } }).planned.gross.share).toBeNull();
  });

  it('should put a part without a place at the middle between the axles, and say so', () => {
    const { planned, withoutPosition } = mass({
      lines: [{ mass: 10_000 }, { mass: 90_000 }, { mass: 5_000, x: 100, y: 0 }],
    });
    expect(planned.rear.load).toBe(800_000 + 50_000 + 125);
    expect(withoutPosition.map(({ line, effect }) => [line, effect])).toEqual([
      ['l1', 90_000],
      ['l0', 10_000],
    ]);
  });

  it('should rank parts without a mass by what their like weigh for the price, and sum none of the guesses', () => {
    const { withoutMass, shareWithoutMass, lines, planned } = mass({
      lines: [
        { mass: 10_000, unitPrice: 1000 },
        { unitPrice: 500 },
        { unitPrice: 4000 },
        {},
        { unitPrice: 9000, category: 'tool' },
        { unitPrice: 9000, fittedShare: 0 },
      ],
    });
    expect(withoutMass.map(({ line, effect }) => [line, effect])).toEqual([
      ['l2', 40_000],
      ['l1', 5_000],
      ['l3', null],
    ]);
    expect([lines, shareWithoutMass, planned.parts]).toEqual([4, 0.75, 10_000]);
    expect(mass({}).shareWithoutMass).toBeNull();
  });
});

describe('a weighing', () => {
  it('should be the truth: the difference is shown, and every sum goes by it', () => {
    const weighings = [{ on: '2026-06-08', front: 1_230_000, rear: 790_000 }];
    const { weighing, vehicle, planned } = mass({ weighings, lines: [{ mass: 100_000, x: 4000, y: 0 }] });
    expect(weighing).toMatchObject({
      readAs: 'as-delivered',
      difference: { gross: 20_000, front: 30_000, rear: -10_000 },
    });
    expect([vehicle, planned.front.load, planned.rear.load]).toEqual([2_020_000, 1_230_000, 890_000]);
  });

  it('should take off what was fitted by its day, and nothing fitted later', () => {
    const weighings = [{ on: '2026-06-04', front: 1_200_000, rear: 900_000 }];
    const part = (on: string) =>
      mass({
        weighings,
        lines: [{ mass: 100_000, x: 4000, y: 0 }],
        purchase: { state: 'received', deliveries: [{ on, line: 'l0', quantity: 1 }] },
      });
    expect(part('2026-06-03')).toMatchObject({ vehicle: 2_000_000, now: { rear: { load: 900_000 } } });
    expect(part('2026-06-05')).toMatchObject({ vehicle: 2_100_000, now: { rear: { load: 1_000_000 } } });
  });

  it('should be read as the sum that comes nearest: as delivered, empty, or loaded', () => {
    const limits = {
      loads: [
        { name: 'bulkhead', mass: -50_000, x: 2000, y: 0 },
        { name: 'passenger and water', mass: 200_000, x: 2000, y: 0 },
      ],
    };
    const read = (gross: number) =>
      mass({ limits, weighings: [{ on: '2026-06-02', front: gross - 800_000, rear: 800_000 }] }).weighing!;
    expect(read(2_003_000)).toMatchObject({ readAs: 'as-delivered', difference: { gross: 3_000 } });
    expect(read(1_957_000)).toMatchObject({ readAs: 'empty', difference: { gross: 7_000 } });
    expect(read(2_140_000)).toMatchObject({ readAs: 'loaded', difference: { gross: -10_000 } });
  });

  it('should go by what it says was aboard, however near another sum comes', () => {
    const limits = {
      loads: [
        { name: 'bulkhead', mass: -50_000, x: 2000, y: 0 },
        { name: 'passenger and water', mass: 200_000, x: 2000, y: 0 },
      ],
    };
    const read = (aboard: string | null) =>
      mass({ limits, weighings: [{ on: '2026-06-02', front: 1_203_000, rear: 800_000, aboard }] });
    expect(read(null).weighing).toMatchObject({ readAs: 'as-delivered', told: false });
    for (const [aboard, vehicle, gross] of [
      ['as-delivered', 2_003_000, 3_000],
      ['empty', 2_053_000, 53_000],
      ['loaded', 1_853_000, -147_000],
    ] as const)
      expect(read(aboard)).toMatchObject({
        vehicle,
        weighing: { readAs: aboard, told: true, difference: { gross } },
      });
  });

  it('should stand in for papers that do not say what the van weighs', () => {
    const { weighing, planned } = mass({
      limits: { kerbMass: null, kerbFront: null },
      weighings: [{ on: '2026-06-02', front: 1_200_000, rear: 800_000 }],
    });
    expect(weighing!.difference).toBeNull();
    expect([planned.gross.load, planned.front.load]).toEqual([2_000_000, 1_200_000]);
  });

  it('should be the latest one up to the day that is looked at', () => {
    const weighings = [
      { key: 'b', on: '2026-06-05', front: 1_300_000, rear: 800_000 },
      { key: 'a', on: '2026-06-02', front: 1_250_000, rear: 800_000 },
      { key: 'c', on: '2026-07-05', front: 1_400_000, rear: 800_000 },
    ];
    expect(mass({ weighings }).weighing?.key).toBe('b');
  });
});

// Helpers

function mass({ limits = {}, lines = [], purchase = {}, tasks = [], weighings = [] }: Given) {
  const file = readBuild({
    ...document({
      build: { asOf: '2026-06-10T00:00', limits: limits === null ? null : { ...LIMITS, ...limits } },
      tasks,
      purchases:
        lines.length === 0
          ? []
          : [
              {
                key: 'p',
                ...purchase,
                lines: lines.map((line, i) => ({ key: `l${i}`, name: `L${i}`, quantity: 1, ...line })),
              },
            ],
    }),
    weighings,
  });
  return planMass(file, '2026-06-10');
}
