/** The levers beside a first finish date, and the single changes they are made of. */
import { describe, expect, it } from 'vitest';
import { withRows } from '#shared/changes/apply.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { readBuild } from '#shared/contract/read.ts';
import type { Change } from '#shared/levers/change.ts';
import {
  freeDate,
  haveSooner,
  helperEvery,
  helperForMonth,
  helperOnWeekend,
  oneMoreEvening,
  onePersonMore,
  orderNow,
  swapInOrder,
} from '#shared/levers/changes.ts';
import { firstLevers } from '#shared/levers/first-levers.ts';
import { leaveOut, optionsOf } from '#shared/levers/leave-out.ts';
import { computePlan } from '#shared/plan.ts';
import { EVENINGS, link, makeBuild, NOW, task } from '../support/builds.ts';

const RACK = { option: 'the roof rack' };
const parts = {
  people: [
    { key: 'ines', name: 'Ines', week: EVENINGS },
    { key: 'tor', name: 'Tor', week: EVENINGS },
    { key: 'electrician', name: 'the electrician', byNameOnly: true, week: { fri: ['14:00-18:00'] } },
  ],
  tasks: [
    task('cut', 600),
    task('mount', 900, RACK),
    task('seal', 300, { ...RACK, waitMinutes: 1440 }),
    task('line', 600, { fixedStart: '2026-08-01T09:00', fixedWhy: 'the hall is free' }),
    task('paint', 300),
  ],
  links: [
    link('cut', 'mount', { lagMinutes: 60 }),
    link('mount', 'seal'),
    link('seal', 'line', { lagMinutes: 30 }),
  ],
  order: ['cut', 'mount', 'seal', 'line', 'paint'],
  decisions: [{ key: 'd', question: 'Which rack?', locksTasks: ['mount'], locksPurchases: ['rack'] }],
  purchases: [
    {
      key: 'rack',
      state: 'wanted',
      leadDays: 20,
      lines: [{ key: 'r', name: 'rack', quantity: 1, unitPrice: 50_000, neededBy: ['mount', 'seal'] }],
    },
    {
      key: 'sealant',
      state: 'wanted',
      lines: [
        { key: 's', name: 'sealant', quantity: 2, unitPrice: 1000, neededBy: ['seal', 'paint'] },
        { key: 't', name: 'tape', quantity: 1, unitPrice: 500, neededBy: ['seal'] },
      ],
    },
  ],
};
const build = makeBuild(parts);

describe('the first levers', () => {
  it('should be an evening, something left out and a helper, each with what its plan says', () => {
    const levers = firstLevers(build, NOW);
    expect(levers.map(({ change }) => change.kind)).toEqual(['evening', 'leave-out', 'helper']);
    const before = computePlan(build, { now: NOW }).finish.dates!;
    for (const { change, finish, daysWon } of levers) {
      expect(finish).toBe(computePlan(change.file, { now: NOW }).finish.dates);
      const days = (Date.parse(before.slice(0, 10)) - Date.parse(finish!.slice(0, 10))) / 86_400_000;
      expect(daysWon).toBe(days);
    }
  });

  it('should say nothing of what there is not', () => {
    const week = Object.fromEntries(['mon', 'tue', 'wed', 'thu', 'fri'].map((day) => [day, ['18:30-21:00']]));
    const full = makeBuild({ people: [{ key: 'a', name: 'A', week }], tasks: [task('cut', 60)] });
    expect(firstLevers(full, NOW).map(({ change }) => change.kind)).toEqual(['helper']);
  });

  it('should give no days where there is no finish to compare with', () => {
    const heavy = makeBuild({
      people: [{ key: 'a', name: 'A', week: EVENINGS }],
      tasks: [task('lift', 60, { people: 2 })],
    });
    const helper = firstLevers(heavy, NOW).at(-1)!;
    expect(helper.change.kind).toBe('helper');
    expect(helper.finish).not.toBeNull();
    expect(helper.daysWon).toBeNull();
    expect(helper.weeksWon).toBeNull();
  });
});

describe('a single change', () => {
  it.each([
    ['evening for all', oneMoreEvening(build)],
    ['evening for one', oneMoreEvening(build, ['tor'])],
    ['helper on a weekend', helperOnWeekend(build, '2026-06-06')],
    ['helper for a month', helperForMonth(build, '2026-06-06')],
    ['helper every week', helperEvery(build, 'sat')],
    ['one more', onePersonMore(build)],
    ['ordered', orderNow(build, 'rack', '2026-06-01')],
    ['sooner', haveSooner(build, 'rack', 7, '2026-06-01')],
    ['swapped', swapInOrder(build, build.order, 'line', 'paint')],
    ['freed', freeDate(build, 'line')],
    ['left out', leaveOut(build, 'the roof rack')],
  ])('should be a valid build that its edits lead to: %s', (_, change) => {
    expectWhole(build, change!);
  });

  it('should take the evening furthest from those that are worked, at the usual hours', () => {
    expect(oneMoreEvening(build, ['tor'])).toMatchObject({
      key: 'evening~mon~tor',
      label: 'Work Mondays 18:30 to 21:00 as well: Tor',
      asks: { weekly: 150, once: 0 },
    });
    expect(oneMoreEvening(build, ['electrician'])!.key).toBe('evening~mon~electrician');
  });

  it('should be none where nothing changes', () => {
    expect(orderNow(orderNow(build, 'rack', '2026-06-01')!.file, 'rack', '2026-06-02')).toBeNull();
    expect(orderNow(build, 'no such', '2026-06-01')).toBeNull();
    expect(haveSooner(build, 'sealant', 7, '2026-06-01')).toBeNull();
    expect(swapInOrder(build, build.order, 'cut', 'cut')).toBeNull();
    expect(freeDate(build, 'cut')).toBeNull();
    expect(leaveOut(build, 'an awning')).toBeNull();
    expect(oneMoreEvening({ ...build, people: [] })).toBeNull();
  });

  it('should not bring a promised part before today', () => {
    const ordered = orderNow(build, 'rack', '2026-06-01')!.file;
    const [rack, ...rest] = ordered.purchases;
    const promised = { ...ordered, purchases: [{ ...rack!, promisedOn: '2026-06-05' }, ...rest] };
    const sooner = haveSooner(promised, 'rack', 14, '2026-06-03')!;
    expect(sooner.file.purchases[0]!.promisedOn).toBe('2026-06-03');
  });
});

describe('leaving an option out', () => {
  const { file } = leaveOut(build, 'the roof rack')!;

  it('should keep the order that ran through it, with its lags', () => {
    expect(file.links).toEqual([
      expect.objectContaining({ from: 'cut', to: 'line', kind: 'FS', lagMinutes: 90, lagOn: 'clock' }),
    ]);
    expect(file.order).toEqual(['cut', 'line', 'paint']);
  });

  it('should take what only it needs off the list of what is to buy, and what points there', () => {
    expect(file.purchases.map(({ key, lines }) => [key, lines.map((line) => line.key)])).toEqual([
      ['sealant', ['s']],
    ]);
    expect(file.purchases[0]!.lines[0]!.neededBy).toEqual(['paint']);
    expect(file.decisions[0]).toMatchObject({ locksTasks: [], locksPurchases: [] });
  });

  it('should keep what is ordered or has a price for the whole', () => {
    const ordered = orderNow(build, 'rack', '2026-06-01')!.file;
    expect(leaveOut(ordered, 'the roof rack')!.file.purchases[0]!.lines[0]!.neededBy).toEqual([]);
    const quoted = makeBuild({
      ...parts,
      purchases: [
        {
          ...parts.purchases[1],
          state: 'quoted',
          quotes: [{ supplier: 'x', amount: 900, on: '2026-06-01' }],
        },
      ],
      decisions: [],
    });
    expect(leaveOut(quoted, 'the roof rack')!.file.purchases[0]!.lines).toHaveLength(2);
  });

  it.each([
    ['started', { tasks: { state: 'started', startedAt: NOW } }],
    ['worked on', { hours: [{ key: 'h', task: 'mount', person: 'tor', on: '2026-06-01', minutes: 60 }] }],
    ['timed', { timers: [{ key: 't', task: 'mount', person: 'tor', startedAt: NOW }] }],
  ])('should be refused once it is %s', (_, { tasks: begun, ...more }: Record<string, object>) => {
    const with_ = makeBuild({
      ...parts,
      ...more,
      tasks: parts.tasks.map((one) => ('key' in one && one.key === 'mount' ? { ...one, ...begun } : one)),
    });
    expect(optionsOf(with_)).toMatchObject([{ name: 'the roof rack', begun: true }]);
    expect(leaveOut(with_, 'the roof rack')).toBeNull();
  });

  it.each([
    ['SS', 'SS', 'SS'],
    ['FS', 'FF', 'FF'],
    ['SF', 'FS', 'SS'],
    ['SS', 'SF', 'SF'],
    ['FF', 'SS', null],
  ])('should join a link %s and a link %s to %s', (first, second, joined) => {
    const three = makeBuild({
      tasks: [task('a', 60), task('x', 60, RACK), task('b', 60)],
      links: [link('a', 'x', { kind: first }), link('x', 'b', { kind: second })],
    });
    const kinds = leaveOut(three, 'the roof rack')!.file.links.map(({ kind }) => kind);
    expect(kinds).toEqual(joined === null ? [] : [joined]);
  });
});

// Helpers

/** Its edits lead to exactly its build, which is one that could be stored. */
function expectWhole(before: BuildFile, { edits, file }: Change): void {
  expect(withRows(before, edits)).toEqual(file);
  expect(readBuild(structuredClone(file))).toEqual(file);
  expect(edits.length).toBeGreaterThan(0);
}
