import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { readBuild } from '#shared/contract/read.ts';
import { stacksOf } from '#shared/covers/stacks.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { computePlan } from '#shared/plan.ts';
import {
  bandsOf,
  bandWords,
  closeDay,
  closesWords,
  shellIndex,
  tallyWords,
  type ZoneBands,
} from '../../../web/src/views/shell/bands.ts';
import { calloutsOf, slotsOf } from '../../../web/src/views/shell/callouts.ts';
import { joined, reopenLater } from '../../../web/src/views/shell/reopen.ts';
import {
  missesWords,
  rowWords,
  runOf,
  sectionIndex,
  taskLines,
} from '../../../web/src/views/shell/section.ts';
import { shellLayout } from '../../../web/src/drawing/shell-layout.ts';
import { makeBuild, NOW, task } from '../../support/builds.ts';

const DEPTHS = ['metal', 'wires', 'fill', 'lining'];
const DONE = { state: 'finished', startedAt: NOW, finishedAt: NOW };

describe('the bands of a zone', () => {
  it('should say of each depth whether it is in, partly in or planned, and which lid comes next', () => {
    const { bands, closing } = bandsIn([
      task('clean', 60, { places: [place('metal')], ...DONE }),
      task('cable', 60, { places: [place('wires')], ...DONE }),
      task('hose', 60, { places: [place('wires')] }),
      task('fill', 60, { places: [place('fill', 'wires')] }),
      task('line', 60, { places: [place('lining', 'fill')] }),
    ]);
    expect(bands.map(({ state }) => state)).toEqual(['in', 'part', 'planned', 'planned']);
    expect(bands.map(({ lid }) => lid)).toEqual([null, null, 'next', 'later']);
    expect([bands[1]!.done, bands[1]!.tasks.length, bands[1]!.share]).toEqual([1, 2, 0.5]);
    expect(closing!.by).toBe('fill');
  });

  it('should call a depth covered once a cover over it has begun and all of it is in', () => {
    const { bands } = bandsIn([
      task('cable', 60, { places: [place('wires')], ...DONE }),
      task('fill', 60, { places: [place('fill', 'wires')], ...DONE }),
    ]);
    expect(bands.map(({ state }) => state)).toEqual(['empty', 'covered', 'in', 'empty']);
    expect(bands[2]!.lid).toBe('shut');
  });

  it('should draw both halves of what was closed too early, and only those', () => {
    const { bands, wrong } = bandsIn([
      task('cable', 60, { places: [place('wires')] }),
      task('fill', 60, { places: [place('fill', 'wires')], ...DONE }),
    ]);
    expect(wrong).toBe(true);
    expect(bands.map((band) => band.wrong?.half ?? null)).toEqual([null, 'inner', 'cover', null]);
    expect(bands[1]!.wrong!.words).toBe('CABLE not in');
    expect(bands[2]!.wrong!.words).toBe('begun 1 Jun');
  });

  it('should show no date where there is none, and never an instant', () => {
    const { bands } = bandsIn([task('cable', 60, { places: [place('wires')], who: ['b'] })], {
      people: [{ key: 'b', name: 'B', week: {} }],
    });
    expect(bandWords(bands[1]!, NOW)).toBe('no date');
    expect(rowWords(bands[1]!, planOf(build([])).plan).words).toBe('no date');
  });

  it('should word closings by their start', () => {
    const zone = bandsIn([
      task('cable', 60, { places: [place('wires')] }),
      task('fill', 60, { places: [place('fill', 'wires')] }),
    ]);
    expect(closesWords(zone, NOW)).toBe('closes 1 Jun');
    expect(tallyWords(zone)).toBe('0 of 1 in');
    expect(closesWords(bandsIn([]), NOW)).toBe('stays open');
    expect(closeDay('2027-02-03', NOW)).toBe('3 Feb 2027');
    expect(closeDay('2027-08-03', NOW)).toBe('Aug 2027');
  });

  it('should count in the demo what its plan counts', () => {
    const file = readBuild(wagtail());
    const { plan, index } = planOf(file);
    for (const zone of file.zones) {
      const { bands, closing } = bandsOf(index, zone);
      expect(bands.map(({ depth }) => depth)).toEqual(zone.depths);
      expect(closing).toEqual(plan.closings.find((one) => one.zone === zone.key) ?? null);
      for (const band of bands) expect(bandWords(band, plan.asOf)).not.toMatch(/NaN|undefined|null|T\d\d:/);
    }
    const wrong = file.zones.filter((zone) => bandsOf(index, zone).wrong).map(({ key }) => key);
    expect(wrong).toEqual(['R2', 'R3']);
  });
});

describe('wrong orders beside the drawing', () => {
  it('should stand one below the other, with leaders that keep out of the bands of other zones', () => {
    const file = readBuild(wagtail());
    const { index } = planOf(file);
    const stacks = new Map(stacksOf(file).map((stack) => [stack.zone, stack]));
    const callouts = calloutsOf(index, stacks);
    expect(callouts.map(({ title }) => title).sort()).toEqual(['Wrong order in R2.', 'Wrong order in R3.']);
    expect(callouts.find(({ zone }) => zone === 'R2')!.text).toMatch(/Off and back: 9 h now, [\d.]+ h once/);
    const layout = shellLayout(file.zones, file.depths, {
      width: 950,
      height: 776,
      title: 38,
      callouts: true,
    });
    const slots = slotsOf(layout, callouts);
    expect(slots[1]!.y).toBeGreaterThanOrEqual(slots[0]!.y + slots[0]!.h);
    for (const { leader } of slots) expect(leader).not.toBeNull();
  });
});

describe('reopening later', () => {
  const tasks = [
    task('cable', 60, { places: [place('wires')], reopenMinutes: 30 }),
    task('fill', 60, { places: [place('fill', 'wires')], reopenMinutes: 60 }),
    task('line', 60, { places: [place('lining', 'fill')], reopenMinutes: 240 }),
    task('shelf', 60, { places: [place('lining')], reopenMinutes: 500 }),
  ];

  it('should add what stands in front by the time the last cover does, from the inside out', () => {
    const file = build(tasks, { links: [{ from: 'line', to: 'shelf' }] });
    const later = reopenLater(stacksOf(file)[0]!, 'wires', planOf(file).plan)!;
    expect(later.stands.key).toBe('line');
    expect(later.parts).toEqual([
      { depth: 'fill', personMinutes: 60 },
      { depth: 'lining', personMinutes: 240 },
    ]);
    expect(later.personMinutes).toBe(300);
  });

  it('should say nothing of a depth that nothing covers', () => {
    const file = build(tasks);
    expect(reopenLater(stacksOf(file)[0]!, 'lining', planOf(file).plan)).toBeNull();
  });

  it('should join stretches that are too short for their words and lose no minute', () => {
    const parts = [5, 5, 100, 3].map((personMinutes, i) => ({ depth: `d${i}`, personMinutes }));
    expect(joined(parts, 0.1)).toEqual([{ names: ['d0', 'd1', 'd2', 'd3'], personMinutes: 113 }]);
    expect(joined([], 0.1)).toEqual([]);
  });
});

describe('the section of a zone', () => {
  it('should number the runs and word checks, dates and parts still to come', () => {
    const file = build(
      [
        task('cable', 60, {
          places: [place('wires')],
          kinds: ['cable'],
          holdPoints: [{ key: 'h', kind: 'photo', name: 'photo of the run' }],
        }),
        task('label', 60, { places: [place('wires')], kinds: ['label'] }),
        task('hose', 60, { places: [place('wires')], kinds: ['hose'] }),
      ],
      {
        purchases: [
          {
            key: 'p',
            supplier: 'x',
            leadDays: 3,
            lines: [{ key: 'l', name: 'twin cable', quantity: 1, neededBy: ['cable'] }],
          },
        ],
      },
    );
    const wires = { ...file, depths: file.depths.map((depth) => ({ ...depth, hatch: 'wire' as const })) };
    const { plan, index } = planOf(wires);
    const lines = taskLines(sectionIndex(wires, plan), bandsOf(index, wires.zones[0]!).bands[1]!);
    expect(lines.map(({ task: { key }, number }) => [key, number]).sort()).toEqual([
      ['cable', expect.any(Number)],
      ['hose', expect.any(Number)],
      ['label', null],
    ]);
    const cable = lines.find(({ task: { key } }) => key === 'cable')!;
    expect(cable.checks.map(({ code, words, signed }) => [code, words, signed])).toEqual([
      ['photo', 'unsigned', false],
    ]);
    expect(cable.parts[0]!.words).toMatch(/^order (by|now)\b.*: twin cable$/);
    expect(runOf(cable.task)).toBe('cable');
  });

  it('should say what a closing misses', () => {
    const file = build([
      task('cable', 60, { places: [place('wires')] }),
      task('fill', 60, { places: [place('fill', 'wires')] }),
    ]);
    const { plan, index } = planOf(file);
    expect(missesWords(plan.closings[0]!, index.taskOf)).toBe('Misses “CABLE”.');
    expect(missesWords(plan.closings[0]!, index.taskOf, 0)).toBe('Misses 1 task.');
    expect(missesWords({ ...plan.closings[0]!, missing: [] }, index.taskOf)).toBe('All is in.');
  });
});

// Helpers

function place(depth: string, hides: string | null = null) {
  return { zone: 'L1', depth, hides };
}

function build(tasks: readonly object[], more: object = {}): BuildFile {
  return makeBuild({
    ...more,
    depths: DEPTHS,
    zones: [{ key: 'L1', name: 'left wall', face: 'left', bay: 1, capacity: 9, depths: DEPTHS }],
    tasks,
  });
}

function planOf(file: BuildFile) {
  const plan = computePlan(file, { now: file.build.asOf ?? NOW });
  return { plan, index: shellIndex(file, plan) };
}

function bandsIn(tasks: readonly object[], more: object = {}): ZoneBands {
  const file = build(tasks, more);
  return bandsOf(planOf(file).index, file.zones[0]!);
}
