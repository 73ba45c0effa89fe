import { describe, expect, it } from 'vitest';
import { referenceFaults } from '#shared/contract/references.ts';
import { purseByMonth } from '#shared/money/purse.ts';
import { computePlan } from '#shared/plan.ts';
import { toLookAt } from '#shared/purchases/look-at.ts';
import { markIn, markOrdered, markRefunded } from '#shared/purchases/steps.ts';
import { makeBuild, NOW, task } from '../support/builds.ts';

const LINES = [
  { key: 'a', name: 'hose', quantity: 5.6, unitPrice: 100 },
  { key: 'b', name: 'elbow', quantity: 4, unitPrice: 390 },
];

describe('the steps of a purchase', () => {
  it('should be ordered on a day, and forget a promise from before it', () => {
    const [bought] = makeBuild({
      purchases: [{ key: 'p', lines: LINES, promisedOn: '2026-06-01' }],
    }).purchases;
    expect(markOrdered(bought!, '2026-06-03')).toMatchObject({
      state: 'ordered',
      orderedOn: '2026-06-03',
      promisedOn: null,
    });
  });

  it('should come in with what had not come yet, and stay a right build', () => {
    const part = {
      key: 'p',
      state: 'part-received',
      orderedOn: '2026-06-01',
      lines: LINES,
      deliveries: [{ on: '2026-06-02', line: 'a', quantity: 2.3 }],
    };
    const build = makeBuild({ purchases: [part] });
    const after = markIn(build.purchases[0]!, '2026-06-04');
    expect(after.state).toBe('received');
    expect(after.deliveries.slice(1)).toEqual([
      { on: '2026-06-04', line: 'a', quantity: 3.3 },
      { on: '2026-06-04', line: 'b', quantity: 4 },
    ]);
    expect(referenceFaults({ ...build, purchases: [after] })).toEqual([]);
    expect(markIn(after, '2026-06-09').deliveries).toHaveLength(3);
  });

  it('should have its refund marked', () => {
    const returns = [{ on: '2026-06-05', line: 'b', quantity: 1, refund: 390 }];
    const deliveries = [{ on: '2026-06-02', line: 'b', quantity: 4 }];
    const [bought] = makeBuild({
      purchases: [{ key: 'p', state: 'received', lines: LINES, deliveries, returns }],
    }).purchases;
    expect(markRefunded(bought!, 0, '2026-06-09').returns[0]!.refundedOn).toBe('2026-06-09');
  });
});

describe('the purchases to look at', () => {
  it('should name what to order, what comes and what is not refunded, soonest first', () => {
    const needed = [{ ...LINES[0], neededBy: ['t'] }];
    const build = makeBuild({
      tasks: [task('t', 60)],
      purchases: [
        { key: 'order', leadDays: 3, lines: needed },
        { key: 'due', state: 'ordered', orderedOn: '2026-06-01', promisedOn: '2026-06-08', lines: needed },
        { key: 'far', state: 'ordered', orderedOn: '2026-06-01', promisedOn: '2026-09-08', lines: LINES },
        {
          key: 'back',
          state: 'received',
          lines: LINES,
          deliveries: [{ on: '2026-05-02', line: 'b', quantity: 4 }],
          returns: [{ on: '2026-05-05', line: 'b', quantity: 1, refund: 390 }],
        },
      ],
    });
    const found = toLookAt(build, computePlan(build, { now: NOW }));
    expect(found.map(({ why, purchase, on }) => `${why} ${purchase.key} ${on}`)).toEqual([
      'refund back 2026-05-05',
      'order order 2026-06-05',
      'due due 2026-06-08',
    ]);
  });
});

describe('the purse by month', () => {
  it('should sum what was put in, every month and once, and what was paid, up to today', () => {
    const build = makeBuild({
      build: {
        moneyIn: [
          { on: '2026-06-01', amount: 450_000 },
          { from: '2026-07', monthly: 80_000 },
        ],
      },
      purchases: [{ key: 'p', lines: LINES, payments: [{ on: '2026-06-20', amount: 2120 }] }],
    });
    expect(purseByMonth(build, '2026-07-02', '2026-09-30')).toEqual([
      { month: '2026-06', moneyIn: 450_000, paid: 2120 },
      { month: '2026-07', moneyIn: 530_000, paid: 2120 },
      { month: '2026-08', moneyIn: 610_000, paid: null },
      { month: '2026-09', moneyIn: 690_000, paid: null },
    ]);
  });
});
