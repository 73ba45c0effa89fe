/** A what-if over a plan that moved on, what it does not take, and two plans side by side: examples by hand. */
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Task } from '#shared/contract/task.ts';
import { computePlan } from '#shared/plan.ts';
import { compare } from '#shared/whatif/compare.ts';
import { deedIn } from '#shared/whatif/deeds.ts';
import { layOver, rowIn, settle } from '#shared/whatif/lay.ts';
import { readWhatIf, type WhatIfEdit, type WhatIfStep } from '#shared/whatif/what-if.ts';
import { fullDocument } from '../support/full-document.ts';
import { link, makeBuild, task } from '../support/builds.ts';
import { readBuild } from '#shared/contract/read.ts';

const PLAN = makeBuild({ tasks: [task('a', 60), task('b', 60)], links: [link('a', 'b')] });

describe('a what-if over a plan that moved on', () => {
  it('should take over what only the plan changed', () => {
    const steps = [step(PLAN, set('a', { note: 'tried' }))];
    const { file, clashes } = layOver(moved({ name: 'Renamed' }), steps);
    expect(rowOf(file, 'a')).toMatchObject({ name: 'Renamed', note: 'tried' });
    expect(clashes).toEqual([]);
  });

  it('should name the fields both changed, let what was tried stand, and ask for one word on it', () => {
    const steps = [step(PLAN, set('a', { name: 'Tried', note: 'tried' }))];
    const plan = moved({ name: 'Renamed' });
    const { file, clashes } = layOver(plan, steps);
    expect(clashes.map(({ id, fields }) => [id, fields])).toEqual([['a', ['name']]]);
    expect(rowOf(file, 'a').name).toBe('Tried');

    const mine = settle(steps, clashes[0]!, 'what-if');
    expect(layOver(plan, mine)).toMatchObject({ clashes: [], misfits: [] });
    expect(rowOf(layOver(plan, mine).file, 'a')).toMatchObject({ name: 'Tried', note: 'tried' });

    const theirs = settle(steps, clashes[0]!, 'plan');
    expect(rowOf(layOver(plan, theirs).file, 'a')).toMatchObject({ name: 'Renamed', note: 'tried' });
    // The plan changes it once more: what follows the plan follows, what was insisted on is asked about again.
    const later = moved({ name: 'Renamed again' });
    expect(rowOf(layOver(later, theirs).file, 'a').name).toBe('Renamed again');
    expect(layOver(later, mine).clashes).toHaveLength(1);
  });

  it('should ask whether to take out what the plan has changed', () => {
    const free = makeBuild({ tasks: [task('a', 60), task('b', 60)] });
    const steps = [step(free, { noun: 'tasks', id: 'a', after: null })];
    const plan = { ...free, tasks: free.tasks.map((one) => ({ ...one, note: 'new' })) };
    const { clashes } = layOver(plan, steps);
    expect(clashes.map(({ fields, tried }) => [fields, tried])).toEqual([[[], null]]);
    expect(layOver(plan, settle(steps, clashes[0]!, 'plan')).file.tasks).toHaveLength(2);
    expect(layOver(plan, settle(steps, clashes[0]!, 'what-if')).file.tasks).toHaveLength(1);
  });

  it('should leave out and name what changes something that is gone, and what would point at nothing', () => {
    const gone = { ...PLAN, tasks: PLAN.tasks.slice(1), links: [] };
    const steps = [
      step(PLAN, set('a', { name: 'Tried' })),
      step(PLAN, {
        noun: 'links',
        id: 'b~a~SS',
        after: { ...PLAN.links[0]!, from: 'b', to: 'a', kind: 'SS' },
      }),
      step(PLAN, set('b', { name: 'Still there' })),
    ];
    const { file, misfits } = layOver(gone, steps);
    expect(misfits.map(({ step: at, is }) => [at, is])).toEqual([
      [0, 'gone'],
      [1, 'faulty'],
    ]);
    expect(file.tasks.map(({ name }) => name)).toEqual(['Still there']);
    expect(file.links).toEqual([]);
  });

  it('should be read back as it was kept, and not at all where it was mangled', () => {
    const whatIf = {
      id: 'x',
      name: 'Try',
      madeAt: '2027-03-09T19:00',
      steps: [step(PLAN, set('a', { name: 'Tried' }))],
    };
    expect(readWhatIf(JSON.stringify(whatIf))).toEqual(whatIf);
    expect(readWhatIf('{"id"')).toBeNull();
    expect(readWhatIf('[]')).toBeNull();
    expect(readWhatIf(JSON.stringify({ ...whatIf, steps: [{ label: 'Empty', edits: [] }] }))).toBeNull();
  });
});

describe('what a what-if takes', () => {
  const file = readBuild(fullDocument());
  const held = file.tasks.find(({ holdPoints }) => holdPoints.length > 0)!;
  const bought = file.purchases[0]!;
  const taskWith = (part: object) => [{ noun: 'tasks' as const, id: held.key, value: { ...held, ...part } }];
  const buying = (part: object) => [
    { noun: 'purchases' as const, id: bought.key, value: { ...bought, ...part } },
  ];
  const noun = (name: 'hours' | 'timers' | 'records' | 'weighings' | 'baselines') => [
    { noun: name, id: 'x', value: { key: 'x' } },
  ];
  const signed = held.holdPoints.map((one) => ({
    ...one,
    attempts: [...one.attempts, { at: '2027-03-09T19:00', by: 'a', pass: true, reading: null, photo: null }],
  }));

  it.each([
    ['hours', noun('hours'), 'hours'],
    ['a timer, with the hours it brings', [...noun('hours'), ...noun('timers')], 'timer'],
    ['a photo', noun('records'), 'photo'],
    ['a weighing', noun('weighings'), 'weighing'],
    ['a plan to freeze', noun('baselines'), 'frozen-plan'],
    ['a signed check', taskWith({ holdPoints: signed }), 'signing'],
    ['a task that is begun', taskWith({ state: 'started', startedAt: '2027-03-09T08:00' }), 'progress'],
    ['a step ticked off', taskWith({ steps: [{ text: 'Never said', done: true }] }), 'step-done'],
    ['a payment', buying({ payments: [...bought.payments, { on: '2027-03-09' }] }), 'payment'],
    ['a delivery', buying({ deliveries: [{ on: '2027-03-09', line: 'x', quantity: 9 }] }), 'arrival'],
    ['a receipt', buying({ receipts: ['sha256:0'] }), 'receipt'],
  ])('should not be %s', (_what, edits, deed) => {
    expect(deedIn(file, edits as never)).toBe(deed);
  });

  it.each([
    ['hours, people and places of a task', taskWith({ people: 2, places: [], note: 'x' })],
    [
      'a check by its name',
      taskWith({ holdPoints: held.holdPoints.map((one) => ({ ...one, name: 'Other' })) }),
    ],
    ['a lead time', buying({ leadDays: 99 })],
    ['a person', [{ noun: 'people' as const, id: 'x', value: { key: 'x' } }]],
    ['the budget', [{ noun: 'build' as const, id: 'build', value: { ...file.build, budget: 1 } }]],
  ])('should be %s', (_what, edits) => {
    expect(deedIn(file, edits as never)).toBeNull();
  });

  it('should be the order of something wanted, but not that it came', () => {
    const wanted = { ...bought, state: 'wanted', orderedOn: null, deliveries: [], returns: [] };
    const plan = { ...file, purchases: [wanted as typeof bought] };
    const with_ = (part: object) => [
      { noun: 'purchases' as const, id: bought.key, value: { ...wanted, ...part } },
    ];
    expect(deedIn(plan, with_({ state: 'ordered', orderedOn: '2027-04-01' }))).toBeNull();
    expect(deedIn(plan, with_({ state: 'received', orderedOn: '2027-04-01' }))).toBe('arrival');
  });
});

describe('two plans side by side', () => {
  it('should tell finish, tasks and work that differ', () => {
    // All day long; a of a day and b of two, then b of one and c new behind it, of three.
    const one = makeBuild({ tasks: [task('a', 1440), task('b', 2880)], links: [link('a', 'b')] });
    const other = makeBuild({
      tasks: [task('b', 1440), task('c', 4320)],
      links: [link('b', 'c')],
    });
    const found = compare(side(one), side(other));
    expect(found.finish).toEqual({ from: '2026-06-04T00:00', to: '2026-06-05T00:00', by: 1 });
    expect(found.toWork).toEqual({ from: 4320, to: 5760, by: 1440 });
    expect(found.tasksLeft).toEqual({ from: 2, to: 2, by: 0 });
    expect(found.tasks.map(({ key, is, by }) => [key, is, by])).toEqual([
      ['b', 'moved', -2],
      ['a', 'gone', null],
      ['c', 'new', null],
    ]);
    expect(found.massLeft).toEqual({ from: null, to: null, by: null });
  });
});

// Helpers

function side(file: BuildFile) {
  return { file, plan: computePlan(file, { now: '2026-06-01T00:00' }) };
}

function set(id: string, part: Partial<Task>) {
  return { noun: 'tasks' as const, id, after: { ...rowOf(PLAN, id), ...part } };
}

function step(file: BuildFile, ...edits: readonly Omit<WhatIfEdit, 'before'>[]): WhatIfStep {
  return {
    label: 'Try',
    edits: edits.map((edit) => ({ ...edit, before: rowIn(file, edit.noun, edit.id) })),
  };
}

/** The plan with a changed meanwhile. */
function moved(part: Partial<Task>): BuildFile {
  return { ...PLAN, tasks: PLAN.tasks.map((one) => (one.key === 'a' ? { ...one, ...part } : one)) };
}

function rowOf(file: BuildFile, key: string): Task {
  return file.tasks.find((one) => one.key === key)!;
}
