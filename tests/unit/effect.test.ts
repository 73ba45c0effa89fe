/** What a change does to the plan, before it is saved. */
import { describe, expect, it } from 'vitest';
import { effectOf, isQuiet } from '#shared/changes/effect.ts';
import { withRows } from '#shared/changes/apply.ts';
import { applyRepair } from '#shared/covers/apply-repair.ts';
import { readBuild } from '#shared/contract/read.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import type { Closing } from '#shared/contract/plan.ts';
import { computePlan } from '#shared/plan.ts';
import { closingWords } from '../../web/src/state/effect-words.ts';

const NOW = '2027-03-09T19:00';
const file = readBuild(wagtail());
const before = computePlan(file, { now: NOW });

describe('the effect of a change', () => {
  it('should be quiet when nothing changes', () => {
    expect(isQuiet(effectOf(before, computePlan({ ...file }, { now: NOW })))).toBe(true);
  });

  it('should tell that the wrong order goes, the dates stop being provisional, and which closings move', () => {
    const error = before.errors.find(({ rule }) => rule === 'wrong-order')!;
    const after = computePlan(applyRepair(file, error.repair!, { at: NOW, by: 'ines', reason: 'x' }), {
      now: NOW,
    });
    const effect = effectOf(before, after);
    expect(effect.provisional).toEqual({ from: true, to: false });
    expect(effect.goneErrors.map(({ rule }) => rule)).toContain('wrong-order');
    expect(effect.newErrors).toEqual([]);
    for (const { zone, by, from, to } of effect.closings) {
      expect(before.closings.find((one) => one.zone === zone && one.by === by)?.on ?? null).toBe(from);
      expect(after.closings.find((one) => one.zone === zone && one.by === by)?.on ?? null).toBe(to);
      expect(from).not.toBe(to);
    }
  });

  it('should count the days the finish moves', () => {
    const last = Object.entries(before.tasks).find(
      ([, task]) => task.dates?.finish === before.finish.dates,
    )![0];
    const task = file.tasks.find(({ key }) => key === last)!;
    const fixedStart = `${Number(before.finish.dates!.slice(0, 4)) + 1}${before.finish.dates!.slice(4, 10)}T09:00`;
    const after = computePlan(withRows(file, [{ noun: 'tasks', id: last, value: { ...task, fixedStart } }]), {
      now: NOW,
    });
    const { days, finish } = effectOf(before, after);
    expect(days).toBeGreaterThan(300);
    expect(finish.to).toBe(after.finish.dates);
  });

  it('should tell of a closing that closes another depth as one closing, and of a lost date as such', () => {
    const one = before.closings.find(
      ({ on, by, zone }) =>
        on !== null && before.closings.filter((other) => other.by === by && other.zone === zone).length === 1,
    );
    const others = before.closings.filter((closing) => closing !== one);
    const withOne = (part: Partial<Closing>) =>
      effectOf(before, { ...before, closings: [...others, { ...one!, ...part }] }).closings;
    const { zone, by, on } = one!;
    expect(withOne({ depth: 'elsewhere' })).toEqual([
      { zone, by, depth: 'elsewhere', from: on, to: on, is: 'at another depth' },
    ]);
    expect(withOne({ on: null, at: null })).toEqual([
      { zone, by, depth: one!.depth, from: on, to: null, is: 'moved' },
    ]);
    expect(
      withOne({ by: 'somebody-else' })
        .map(({ is }) => is)
        .sort(),
    ).toEqual(['gone', 'new']);
    expect(withOne({ depth: 'elsewhere' }).map((closing) => closingWords(closing, NOW))[0]).toMatch(
      /^closes at another depth, still \w+ \d+ \w+/,
    );
    expect(withOne({ on: null, at: null }).map((closing) => closingWords(closing, NOW))).toEqual([
      'closes, its date is lost',
    ]);
  });
});
