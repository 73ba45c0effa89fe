/** One task made two by hours: nothing of it is lost, and the second part follows the first. */
import { describe, expect, it } from 'vitest';
import { splitByHours } from '#shared/changes/split-hours.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { readBuild } from '#shared/contract/read.ts';
import { applyRepair } from '#shared/covers/apply-repair.ts';
import { computePlan } from '#shared/plan.ts';
import { link, makeBuild, NOW, task } from '../support/builds.ts';

const signed = { at: '2026-05-31T10:00', by: 'a', pass: true };
const failed = { at: '2026-05-31T10:00', by: 'a', pass: false, reading: 'damp' };

describe('a task split by hours', () => {
  it('should share hours, checks and steps, and keep what was done with the first part', () => {
    const { first, second } = split({
      minutes: { low: 90, likely: 180, high: 300 },
      state: 'started',
      startedAt: '2026-05-31T10:00',
      remainingMinutes: 150,
      reopenMinutes: 90,
      waitMinutes: 600,
      steps: ['a', 'b', 'c', 'd'].map((text, i) => ({ text, done: i < 2 })),
      holdPoints: [
        { key: 'dry', name: 'Dry', when: 'entry', attempts: [signed] },
        { key: 'leak', name: 'Leak', when: 'exit', attempts: [failed] },
        { key: 'pull', name: 'Pull', when: 'exit' },
      ],
    });
    expect(first).toMatchObject({
      minutes: { low: 30, likely: 60, high: 100 },
      state: 'started',
      remainingMinutes: 30,
      reopenMinutes: 30,
      waitMinutes: 0,
    });
    expect(second).toMatchObject({
      name: 'X, second part',
      minutes: { low: 60, likely: 120, high: 200 },
      state: 'not-started',
      startedAt: null,
      remainingMinutes: null,
      reopenMinutes: 60,
      waitMinutes: 600,
    });
    expect([first.steps, second.steps].map((steps) => steps.map(({ text }) => text))).toEqual([
      ['a', 'b'],
      ['c', 'd'],
    ]);
    expect(first.holdPoints.map(({ key }) => key)).toEqual(['dry']);
    expect(second.holdPoints).toMatchObject([{ key: 'leak', attempts: [failed] }, { key: 'pull' }]);
  });

  it('should neither make nor lose hours of a task under way, however much is left', () => {
    for (const left of [0, 40, 120, 150, 500]) {
      const { first, second } = split({
        minutes: { low: 90, likely: 180, high: 300 },
        state: 'started',
        startedAt: '2026-05-31T10:00',
        remainingMinutes: left,
      });
      expect([left, first.remainingMinutes! + second.minutes.likely]).toEqual([left, left]);
      const { low, likely, high } = second.minutes;
      expect([low <= likely, likely <= high]).toEqual([true, true]);
    }
  });

  it('should come after all that came before and before all that follows, with its parts and places', () => {
    const { file, first, second } = split({ places: [{ zone: 'z', depth: 'panel', hides: 'metal' }] });
    expect(first.places).toEqual(second.places);
    expect(file.links.map(({ from, to, kind }) => [from, to, kind])).toEqual([
      ['before', 'x', 'FS'],
      ['x-2', 'after', 'FS'],
      ['x', 'beside', 'SS'],
      ['beside', 'x-2', 'FF'],
      ['x', 'x-2', 'FS'],
    ]);
    expect(file.purchases[0]!.lines[0]!.neededBy).toEqual(['x', 'x-2']);
    expect(file.order).toEqual(['before', 'x', 'x-2']);
    const plan = computePlan(file, { now: NOW });
    expect(plan.errors).toEqual([]);
    expect(plan.finish).toEqual(computePlan(whole({}), { now: NOW }).finish);
  });

  it('should be refused for what is finished, and for no hours at all', () => {
    const file = whole({ state: 'finished', startedAt: '2026-05-31T10:00', finishedAt: '2026-05-31T11:00' });
    expect(() => splitByHours(file, { task: 'x', first: 60 })).toThrow(RangeError);
    for (const first of [0, 180, NaN])
      expect(() => splitByHours(whole({}), { task: 'x', first })).toThrow(RangeError);
  });
});

describe('a task split by zone', () => {
  it('should share what is left to do and what taking off would cost, so that the sums stay', () => {
    const file = whole({
      places: [
        { zone: 'z', depth: 'panel' },
        { zone: 'y', depth: 'panel' },
      ],
      state: 'started',
      startedAt: '2026-05-31T10:00',
      remainingMinutes: 101,
      reopenMinutes: 60,
    });
    const after = applyRepair(
      file,
      { kind: 'split', task: 'x', zone: 'y' },
      { at: NOW, by: 'a', reason: '' },
    );
    const parts = after.tasks.filter(({ key }) => key.startsWith('x'));
    expect(
      parts.map(({ remainingMinutes, reopenMinutes, minutes }) => [
        remainingMinutes,
        reopenMinutes,
        minutes.likely,
      ]),
    ).toEqual([
      [50, 30, 90],
      [51, 30, 90],
    ]);
  });
});

// Helpers

function whole(more: object): BuildFile {
  return makeBuild({
    build: { startOn: '2026-05-30' },
    depths: ['metal', 'panel'],
    zones: ['y', 'z'].map((key) => ({ key, name: key, depths: ['metal', 'panel'] })),
    tasks: [task('before', 30), task('x', 180, more), task('after', 30), task('beside', 30)],
    links: [
      link('before', 'x'),
      link('x', 'after'),
      link('x', 'beside', { kind: 'SS' }),
      link('beside', 'x', { kind: 'FF' }),
    ],
    order: ['before', 'x'],
    purchases: [{ key: 'p', lines: [{ key: 'l', name: 'L', quantity: 1, unitPrice: 1, neededBy: ['x'] }] }],
  });
}

function split(more: object) {
  const { file, second: key } = splitByHours(whole(more), { task: 'x', first: 60 });
  expect(readBuild(JSON.parse(JSON.stringify(file)))).toEqual(file);
  const [first, second] = ['x', key].map((one) => file.tasks.find((found) => found.key === one)!);
  return { file, first: first!, second: second! };
}
