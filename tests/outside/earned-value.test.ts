/**
 * Earned value against published worked examples; the source of each stands beside its figures in the data. Where a
 * source rounds an index before it goes on, or cuts digits off, the exact figure is expected and the printed one named.
 */
import { describe, expect, it } from 'vitest';
import { earnedValue } from '#shared/money/earned-value.ts';
import { shareDone } from '#shared/progress/remaining.ts';
import { makeBuild, task } from '../support/builds.ts';
import data from './data/worked-examples.json' with { type: 'json' };

const fence = data.evm.find(({ id }) => id === 'fence')!;
const one = data.evm.find(({ id }) => id === 'one-task')!;

describe('earned value as published', () => {
  it(`should give the fence of four sides (${fence.source})`, () => {
    const { BAC, PV, EV, AC } = fence.in as Record<string, number>;
    const found = earnedValue({ bac: BAC!, pv: PV!, ev: EV!, ac: AC! });
    expect(found).toMatchObject({ sv: fence.out.SV, cv: fence.out.CV });
    expect(found.spi).toBeCloseTo(fence.out.SPI, 3);
    expect(found.cpi).toBeCloseTo(fence.out.CPI, 3);
    // Printed 4,479 and −479, of the index rounded to 0.893.
    expect([found.eac, found.vac]).toEqual([4480, -480]);
    expect(Math.round(BAC! / 0.893)).toBe(fence.out.EAC);
  });

  it(`should give the task of 8 hours that took 11 and needs one more (${one.source})`, () => {
    const { BAC, PV, AC } = one.in as Record<string, number>;
    const [started] = makeBuild({
      tasks: [task('task', 480, { state: 'started', startedAt: '2026-05-31T08:00', remainingMinutes: 60 })],
    }).tasks;
    const ev = BAC! * shareDone(started!, 660, 60);
    expect(ev).toBeCloseTo(733.33, 2); // printed 734
    const found = earnedValue({ bac: BAC!, pv: PV!, ev, ac: AC! });
    expect(found.eac).toBeCloseTo(one.out.EAC, 6);
    expect(found.vac).toBeCloseTo(one.out.VAC, 6);
    expect(found.sv).toBeCloseTo(-66.67, 2); // printed −66
    expect(found.cv).toBeCloseTo(-366.67, 2); // printed −366
    // Printed cut off: 0.91 and 0.66.
    expect(Math.trunc(found.spi! * 100) / 100).toBe(one.out.SPI);
    expect(Math.trunc(found.cpi! * 100) / 100).toBe(one.out.CPI);
  });

  it('should have no figure where a source would divide by nothing', () => {
    expect(earnedValue({ bac: 100, pv: 0, ev: 0, ac: 0 })).toMatchObject({
      spi: null,
      cpi: null,
      eac: null,
      vac: null,
    });
    expect(earnedValue({ bac: 100, pv: 50, ev: 60, ac: 100 }).tcpi).toBeNull();
  });
});
