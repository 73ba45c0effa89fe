/** The money of a plan: figures, contingency, cash, partners. As of Monday 1 June 2026. */
import { describe, expect, it } from 'vitest';
import type { PlanMoney } from '#shared/contract/plan-money.ts';
import { computePlan } from '#shared/plan.ts';
import { link, makeBuild, NOW, task, type BuildParts } from '../support/builds.ts';

const PHASES = [
  { key: 'floor', name: 'Floor', budget: 10_000 },
  { key: 'walls', name: 'Walls', budget: 5000 },
];

describe('the ledger', () => {
  it('should book what is wanted, ordered, in and paid, and sum it per phase', () => {
    const { total, phases } = moneyOf({
      purchases: [
        { key: 'wanted', lines: [part('a', 4000, { phase: 'floor' })] },
        ordered('ordered', [part('a', 3000, { phase: 'walls' })], {
          payments: [{ on: '2026-05-20', amount: 1000, kind: 'deposit' }],
        }),
        {
          key: 'in',
          state: 'received',
          lines: [part('a', 2500, { phase: 'walls', priceConfirmed: true })],
          payments: [{ on: '2026-05-20', amount: 2500 }],
        },
      ],
    });
    expect(total).toEqual({
      plan: 15_000,
      paid: 3500,
      ordered: 2000,
      toBuy: 4000,
      forecast: 9500,
      over: -5500,
      unconfirmed: 6000,
      unconfirmedLines: 2,
      unpricedLines: 0,
    });
    expect(phases['walls']).toMatchObject({
      plan: 5000,
      paid: 3500,
      ordered: 2000,
      forecast: 5500,
      over: 500,
    });
  });

  it('should count what is in but not paid as still to pay', () => {
    const { total } = moneyOf({ purchases: [{ key: 'p', state: 'received', lines: [part('a', 700)] }] });
    expect(total).toMatchObject({ paid: 0, ordered: 700, toBuy: 0 });
  });

  it('should keep a payment dated after today as still to come', () => {
    const payments = [
      { on: '2026-05-20', amount: 300, kind: 'deposit' },
      { on: '2026-11-30', amount: 700, kind: 'balance' },
    ];
    const { total, cash } = moneyOf({ purchases: [ordered('p', [part('a', 1000)], { payments })] });
    expect(total).toMatchObject({ paid: 300, ordered: 700 });
    expect(cash.months.map(({ month, forecast }) => [month, forecast]).slice(-2)).toEqual([
      ['2026-10', 300],
      ['2026-11', 1000],
    ]);
  });

  it('should take a refund off once it is in, of the phase of its line, and not before', () => {
    const back = (refundedOn: string | null) => ({
      key: 'p',
      state: 'received',
      lines: [part('a', 1000, { phase: 'floor' }), part('b', 500, { phase: 'walls' })],
      deliveries: [{ on: '2026-05-05', line: 'b', quantity: 1 }],
      returns: [{ on: '2026-05-09', line: 'b', quantity: 1, refund: 400, refundedOn }],
      payments: [{ on: '2026-05-01', amount: 1500 }],
    });
    const waiting = moneyOf({ purchases: [back(null)] });
    expect(waiting.total.paid).toBe(1500);
    expect(waiting.purchases['p']!.refundsOut).toBe(400);
    const refunded = moneyOf({ purchases: [back('2026-05-12')] });
    expect([refunded.phases['floor']!.paid, refunded.phases['walls']!.paid]).toEqual([1000, 100]);
    expect(refunded.purchases['p']).toMatchObject({ paid: 1100, open: 0, refundsOut: 0 });
  });

  it('should have paid nothing for what was refunded whole, with both rows kept', () => {
    const { total, purchases } = moneyOf({ purchases: [returned([])] });
    expect(total).toMatchObject({ paid: 0, ordered: 0, toBuy: 0, forecast: 0 });
    expect(purchases['back']).toMatchObject({ total: 900, paid: 0, open: 0 });
  });

  it('should have to buy again what went back while a task still needs it', () => {
    const { total } = moneyOf({ tasks: [task('use', 60)], purchases: [returned(['use'])] });
    expect(total).toMatchObject({ paid: 0, toBuy: 900 });
  });

  it('should give a line in equal parts to the tasks that need it', () => {
    const { tasks } = moneyOf({
      tasks: [task('a', 60), task('b', 60), task('c', 60)],
      purchases: [{ key: 'p', lines: [part('x', 100, { neededBy: ['a', 'b', 'c'] })] }],
    });
    expect([tasks['a'], tasks['b'], tasks['c']].map((one) => one!.toBuy)).toEqual([33, 33, 34]);
  });

  it('should sum what was bought by category, and count what has no price', () => {
    const { categories, total } = moneyOf({
      purchases: [{ key: 'p', lines: [part('a', 100, { category: 'tool' }), part('b', null)] }],
    });
    expect(categories['tool']).toMatchObject({ toBuy: 100, plan: null, over: null });
    expect(total.unpricedLines).toBe(1);
  });
});

describe('contingency', () => {
  it('should come on top of the phases where no budget is set', () => {
    const { contingency } = moneyOf({ build: { contingencyPercent: 20 } });
    expect(contingency).toEqual({
      percent: 20,
      ceiling: 18_000,
      forParts: 15_000,
      amount: 3000,
      used: 0,
      usedByPlan: 0,
      left: 3000,
    });
  });

  it('should be within the budget where one is set, with what the plan and the forecast take of it', () => {
    const { contingency } = moneyOf({
      build: { budget: 15_600, contingencyPercent: 20 },
      purchases: [{ key: 'p', lines: [part('a', 14_500)] }],
    });
    expect(contingency).toMatchObject({
      forParts: 13_000,
      amount: 2600,
      used: 1500,
      usedByPlan: 2000,
      left: 1100,
    });
  });

  it('should be less than nothing when the forecast is over the ceiling', () => {
    const { contingency } = moneyOf({
      build: { budget: 12_000 },
      purchases: [{ key: 'p', lines: [part('a', 13_000)] }],
    });
    expect(contingency).toMatchObject({ used: 3000, left: -1000 });
  });
});

describe('cash by month', () => {
  const IN = [
    { on: '2026-06-01', amount: 450_000 },
    { from: '2026-07', monthly: 80_000 },
  ];

  it('should sum what was put in, and pay what is wanted on its order-by day', () => {
    // Sixty days of work come first: needed on 31 July, so ordered by 24 July; the end is on 1 August.
    const { cash, total } = moneyOf({
      build: { moneyIn: IN },
      tasks: [task('before', 60 * 1440), task('use', 1440)],
      links: [link('before', 'use')],
      purchases: [
        { key: 'p', leadDays: 6, lines: [part('a', 2120, { neededBy: ['use'] })] },
        { key: 'q', lines: [part('a', 55)] },
      ],
    });
    expect(cash.months).toEqual([
      { month: '2026-06', moneyIn: 450_000, paid: 0, forecast: 0, plan: null },
      { month: '2026-07', moneyIn: 530_000, paid: null, forecast: 2120, plan: null },
      { month: '2026-08', moneyIn: 610_000, paid: null, forecast: total.forecast, plan: null },
    ]);
    expect(cash).toMatchObject({ moneyIn: 450_000, undated: 55, empty: null });
  });

  it('should name the month in which the purse runs empty, by how much, and when it is level again', () => {
    const payments = [{ on: '2026-08-10', amount: 100_000 }];
    const { cash } = moneyOf({
      build: { moneyIn: [{ from: '2026-06', monthly: 20_000 }], targetFinishOn: '2026-12-20' },
      purchases: [ordered('p', [part('a', 100_000)], { payments })],
    });
    // 60,000 are in by the end of August, 100,000 only in October.
    expect(cash.empty).toEqual({ month: '2026-08', short: 40_000, level: '2026-10' });
  });

  it('should not call a purse empty that nobody said anything about', () => {
    expect(moneyOf({ purchases: [ordered('p', [part('a', 100)])] }).cash.empty).toBeNull();
  });
});

describe('partners', () => {
  const PEOPLE = [
    { key: 'ines', name: 'Ines', week: {} },
    { key: 'tor', name: 'Tor', week: {} },
    { key: 'fitter', name: 'the fitter', byNameOnly: true, week: {} },
  ];
  const paidBy = (key: string, by: string | null, amount: number, on = '2026-05-20') =>
    ordered(key, [part('a', amount)], { payments: [{ on, amount, by }] });

  it('should share in equal parts what any of them paid, and say who owes whom', () => {
    const { partners } = moneyOf({
      people: PEOPLE,
      purchases: [paidBy('a', 'ines', 9000), paidBy('b', 'tor', 2001), paidBy('c', 'fitter', 600)],
    });
    expect(partners.people).toEqual([
      { person: 'fitter', paid: 600, share: 0, balance: 600 },
      { person: 'ines', paid: 9000, share: 5801, balance: 3199 },
      { person: 'tor', paid: 2001, share: 5800, balance: -3799 },
    ]);
    expect(partners.settle).toEqual([
      { from: 'tor', to: 'ines', amount: 3199 },
      { from: 'tor', to: 'fitter', amount: 600 },
    ]);
  });

  it('should put payments into their weeks, and leave out of it what nobody is named for', () => {
    const { partners } = moneyOf({
      people: PEOPLE,
      purchases: [
        paidBy('a', 'ines', 100, '2026-05-18'),
        paidBy('b', 'tor', 200, '2026-05-24'),
        paidBy('c', 'tor', 50, '2026-05-25'),
        paidBy('d', null, 75),
      ],
    });
    expect(partners.weeks).toEqual([
      { monday: '2026-05-18', paid: { ines: 100, tor: 200 } },
      { monday: '2026-05-25', paid: { tor: 50 } },
    ]);
    expect(partners.purse).toBe(75);
  });

  it('should give a refund back to those who had paid', () => {
    const { partners } = moneyOf({ people: PEOPLE, purchases: [returned([], 'tor')] });
    expect(partners.people.map(({ paid, balance }) => [paid, balance])).toEqual([
      [0, 0],
      [0, 0],
    ]);
  });
});

describe('earned value', () => {
  const first = { low: 240, likely: 240, high: 240 };
  const build = (more: BuildParts = {}): BuildParts => ({
    build: { asOf: '2026-06-02T12:00' },
    phases: [{ key: 'floor', name: 'Floor', budget: 9000 }],
    people: [{ key: 'ines', name: 'Ines', week: { mon: ['08:00-12:00'], tue: ['08:00-12:00'] } }],
    tasks: [
      {
        key: 'a',
        name: 'A',
        phase: 'floor',
        minutes: first,
        state: 'finished',
        startedAt: '2026-06-01T08:00',
        finishedAt: '2026-06-01T12:00',
      },
      { key: 'b', name: 'B', phase: 'floor', minutes: { low: 480, likely: 480, high: 480 } },
    ],
    hours: [{ key: 'h', task: 'a', phase: null, person: 'ines', on: '2026-06-01', minutes: 300, note: '' }],
    baselines: [
      {
        key: 'one',
        name: 'one',
        on: '2026-06-01',
        tasks: {
          a: { start: '2026-06-01T08:00', finish: '2026-06-01T12:00', minutes: 240, money: 2000 },
          // Tuesday and the Monday after: half of it is planned by Tuesday noon, however long the week between.
          b: { start: '2026-06-02T08:00', finish: '2026-06-08T12:00', minutes: 480, money: 4000 },
        },
      },
    ],
    ...more,
  });

  it('should accrue what is planned over worked minutes, and take the rest of the figures from it', () => {
    const { earned } = moneyOf(build());
    expect(earned!.hours).toMatchObject({ bac: 720, pv: 480, ev: 240, ac: 300, sv: -240, cv: -60, eac: 900 });
    expect(earned!.hours).toMatchObject({ spi: 0.5, cpi: 0.8, vac: -180, tcpi: 480 / 420 });
  });

  it('should say there is no figure yet where nothing was paid', () => {
    expect(moneyOf(build()).earned!.money).toMatchObject({
      ev: 2000,
      ac: 0,
      cpi: null,
      eac: null,
      vac: null,
    });
  });

  it('should plan a phase by the baseline once there is one, and spend it month by month', () => {
    const { phases, cash } = moneyOf(build());
    expect(phases['floor']!.plan).toBe(6000);
    expect(cash.months.at(-1)!.plan).toBe(6000);
  });

  it('should say nothing without a baseline', () => {
    expect(moneyOf(build({ baselines: [] })).earned).toBeNull();
  });
});

// Helpers

function moneyOf(parts: BuildParts): PlanMoney {
  return computePlan(makeBuild({ phases: PHASES, ...parts }), { now: NOW }).money;
}

function part(key: string, unitPrice: number | null, more: object = {}) {
  return { key, name: key, quantity: 1, unitPrice, ...more };
}

function ordered(key: string, lines: readonly object[], more: object = {}) {
  return { key, state: 'ordered', orderedOn: '2026-05-18', lines, ...more };
}

function returned(neededBy: readonly string[], by: string | null = null) {
  return {
    key: 'back',
    state: 'returned',
    lines: [part('a', 900, { neededBy })],
    deliveries: [{ on: '2026-05-05', line: 'a', quantity: 1 }],
    returns: [{ on: '2026-05-09', line: 'a', quantity: 1, refund: 900, refundedOn: '2026-05-12' }],
    payments: [{ on: '2026-05-01', amount: 900, by }],
  };
}
