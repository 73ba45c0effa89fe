/** Errors as the Sequence sheet shows them: their chain laid out, their names, and what a repair says and does. */
import { describe, expect, it } from 'vitest';
import type { OrderError, Repair } from '#shared/contract/plan.ts';
import { computePlan } from '#shared/plan.ts';
import { layChain } from '../../../web/src/views/sequence/chain-layout.ts';
import { shapeOf } from '../../../web/src/views/sequence/chain-shape.ts';
import { named } from '../../../web/src/views/sequence/error-words.ts';
import { repaired, repairWords } from '../../../web/src/views/sequence/repair-words.ts';
import { errorCounts } from '../../../web/src/state/error-counts.ts';
import { link, makeBuild, NOW, task, type BuildParts } from '../../support/builds.ts';

const DEPTHS = ['metal', 'wires', 'panel', 'cupboard'];
const wall: BuildParts = {
  depths: DEPTHS,
  zones: [{ key: 'L', name: 'left wall', depths: DEPTHS }],
  tasks: [
    task('cable', 60, { places: [{ zone: 'L', depth: 'wires' }] }),
    task('panel', 120, { places: [{ zone: 'L', depth: 'panel', hides: 'wires' }] }),
    task('cupboard', 240, { places: [{ zone: 'L', depth: 'cupboard', hides: 'panel' }] }),
  ],
};
const build = (parts: BuildParts) => makeBuild({ ...wall, ...parts });
const errorsOf = (parts: BuildParts) => computePlan(build(parts), { now: NOW }).errors;
const begun = { state: 'started', startedAt: '2026-06-01T00:00' };

describe('a chain', () => {
  it('should be opened at the wrong link, which then runs back from the last task to the first', () => {
    const [error] = errorsOf({ links: [link('panel', 'cable')] });
    const { kind, tasks, back } = shapeOf(error!);
    expect(kind).toBe('line');
    expect(tasks).toEqual(['cable', 'panel']);
    expect(back).toMatchObject({ from: 'panel', to: 'cable', by: 'link' });
  });

  it('should fan out from a task that several covers have closed up', () => {
    const tasks = wall.tasks!.map((one) =>
      'key' in one && one.key !== 'cable' ? { ...one, ...begun } : one,
    );
    const error = errorsOf({ build: { asOf: '2026-06-02T00:00' }, tasks }).find(
      ({ rule, tasks: [first] }) => rule === 'closed-too-early' && first === 'cable',
    )!;
    const shape = shapeOf(error);
    expect(shape.kind).toBe('fan');
    expect(shape.tasks[0]).toBe('cable');
    expect(shape.tasks.slice(1).toSorted()).toEqual(['cupboard', 'panel']);
    expect(shape.back).toBeNull();
  });

  it('should open a circle of covers at its last step, none being more wrong than another', () => {
    const chain = ['a', 'b', 'c'].map((from, i) => ({
      from,
      to: ['b', 'c', 'a'][i]!,
      by: 'cover' as const,
      kind: null,
      zone: 'L',
      depth: 'x',
      reason: '',
    }));
    const error: OrderError = {
      rule: 'covers-in-a-circle',
      tasks: ['a', 'b', 'c'],
      zone: 'L',
      depth: 'x',
      sentence: '',
      chain,
      repair: null,
      otherRepairs: [],
    };
    const shape = shapeOf(error);
    expect(shape.tasks).toEqual(['a', 'b', 'c']);
    expect(shape.back).toMatchObject({ from: 'c', to: 'a' });
  });

  it('should be one box where an error has no chain', () => {
    const error: OrderError = {
      rule: 'never-runs',
      tasks: ['a'],
      zone: null,
      depth: null,
      sentence: '',
      chain: [],
      repair: null,
      otherRepairs: [],
    };
    expect(shapeOf(error)).toEqual({ kind: 'line', tasks: ['a'], steps: [], back: null });
  });
});

describe('a chain drawn', () => {
  const line = (count: number) => {
    const tasks = Array.from({ length: count }, (_, i) => `t${i}`);
    const steps = tasks.slice(1).map((to, i) => ({
      from: tasks[i]!,
      to,
      by: 'link' as const,
      kind: 'FS' as const,
      zone: null,
      depth: null,
      reason: '',
    }));
    return { kind: 'line' as const, tasks, steps, back: null };
  };

  it.each([358, 600, 760, 1040, 1600])('should keep every box and word within %i px', (width) => {
    for (const count of [1, 2, 3, 4, 7, 12]) {
      const laid = layChain(line(count), width, true);
      expect(laid.boxes).toHaveLength(count);
      for (const { x, y, w } of laid.boxes) {
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x + w).toBeLessThanOrEqual(width);
        expect(y + laid.box.h).toBeLessThanOrEqual(laid.height);
      }
      for (const { words } of laid.arrows) {
        expect(words.w).toBeGreaterThan(90);
        expect(words.x + words.w).toBeLessThanOrEqual(width);
      }
      expect(laid.width).toBeLessThanOrEqual(width);
    }
  });

  it('should never lay one box over another', () => {
    for (const width of [358, 1040]) {
      const { boxes, box } = layChain(line(9), width, true);
      for (const a of boxes)
        for (const b of boxes)
          if (a !== b)
            expect(a.x + a.w <= b.x || b.x + b.w <= a.x || a.y + box.h <= b.y || b.y + box.h <= a.y).toBe(
              true,
            );
    }
  });

  it('should stand under each other on a phone', () => {
    const { boxes } = layChain(line(3), 358, true);
    expect(new Set(boxes.map(({ x }) => x)).size).toBe(1);
  });

  it('should draw nothing back where nothing is wrong', () => {
    expect(layChain(line(3), 1040, false).back).toBeNull();
  });
});

describe('the name of an error', () => {
  it('should stay when other errors go, and tell apart those about the same tasks', () => {
    const of = (rule: OrderError['rule'], ...tasks: string[]): OrderError => ({
      rule,
      tasks,
      zone: null,
      depth: null,
      sentence: '',
      chain: [],
      repair: null,
      otherRepairs: [],
    });
    const all = [
      of('covered-unchecked', 'a', 'b'),
      of('wrong-order', 'a', 'b'),
      of('covered-unchecked', 'a', 'b'),
    ];
    expect(named(all).map(({ name }) => name)).toEqual([
      'covered-unchecked.a.b',
      'wrong-order.a.b',
      'covered-unchecked.a.b.2',
    ]);
    expect(named(all.slice(1, 2))[0]!.name).toBe('wrong-order.a.b');
  });
});

describe('a count of errors', () => {
  it('should be said by kind, and be empty when there are none', () => {
    const errors = errorsOf({ links: [link('panel', 'cable')] });
    expect(errorCounts(errors)).toBe('1 wrong order');
    expect(errorCounts([...errors, ...errors])).toBe('2 wrong orders');
    expect(errorCounts([])).toBe('');
  });
});

describe('a repair', () => {
  const file = build({ links: [link('panel', 'cable')] });

  it('should say what it does in the names of the tasks', () => {
    const drop: Repair = {
      kind: 'drop-links',
      links: [{ from: 'panel', to: 'cable', kind: 'FS' }],
      exact: true,
    };
    expect(repairWords(file, drop).does).toBe('Drop the link from “PANEL” to “CABLE”');
    const reopen: Repair = { kind: 'reopen', tasks: ['panel'], personMinutes: 150 };
    expect(repairWords(file, reopen).does).toBe('Take “PANEL” off again: 2 h 30 off and back');
  });

  it('should ask for a reason before a pair is freed, and for a signature before a check is signed', () => {
    expect(repairWords(file, { kind: 'exception', inner: 'cable', cover: 'panel' }).asks).toBe('reason');
    expect(repairWords(file, { kind: 'sign', task: 'cable', holdPoint: 'x' }).asks).toBe('signature');
  });

  it('should keep the reading of a check it signs', () => {
    const checked = build({
      tasks: [
        task('cable', 60, {
          places: [{ zone: 'L', depth: 'wires' }],
          holdPoints: [{ key: 'ohm', name: 'insulation', when: 'exit', kind: 'insulation-resistance' }],
        }),
      ],
    });
    const after = repaired(
      checked,
      { kind: 'sign', task: 'cable', holdPoint: 'ohm' },
      { at: '2026-06-01T00:00', by: 'a', reason: '', reading: ' 200 MΩ ' },
    );
    expect(after.tasks[0]!.holdPoints[0]!.attempts).toEqual([
      { at: '2026-06-01T00:00', by: 'a', pass: true, reading: '200 MΩ', photo: null },
    ]);
  });
});
