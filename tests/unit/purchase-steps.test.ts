import { describe, expect, it } from 'vitest';
import { referenceFaults } from '#shared/contract/references.ts';
import { computePlan } from '#shared/plan.ts';
import { toLookAt } from '#shared/purchases/look-at.ts';
import { purchaseOfReceipt } from '#shared/purchases/receipt.ts';
import {
  addPayment,
  chooseQuote,
  markCame,
  markIn,
  markOrdered,
  markRefunded,
  sendBack,
} from '#shared/purchases/steps.ts';
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

describe('a delivery in parts', () => {
  const order = () =>
    makeBuild({ purchases: [{ key: 'p', state: 'ordered', orderedOn: '2026-05-01', lines: LINES }] });

  it('should be in part until the last of it is here, and take price and mass from what came', () => {
    const build = order();
    const part = markCame(build.purchases[0]!, '2026-05-05', [{ line: 'a', quantity: 5.6 }]);
    expect(part).toMatchObject({ state: 'part-received' });
    const whole = markCame(part, '2026-05-09', [{ line: 'b', quantity: 4, unitPrice: 410, mass: 900 }]);
    expect(whole).toMatchObject({ state: 'received' });
    expect(whole.lines[1]).toMatchObject({ unitPrice: 410, priceConfirmed: true, mass: 900 });
    expect(whole.lines[0]).toMatchObject({ unitPrice: 100, priceConfirmed: false, mass: null });
    expect(referenceFaults({ ...build, purchases: [whole] })).toEqual([]);
  });

  it('should stay here in part when some goes back, and be returned when all of it has', () => {
    const build = order();
    const here = markIn(build.purchases[0]!, '2026-05-05');
    const some = sendBack(here, { on: '2026-05-07', line: 'b', quantity: 1, refund: 390 });
    expect(some.state).toBe('received');
    const rest = sendBack(some, { on: '2026-05-08', line: 'b', quantity: 3, refund: 1170 });
    const all = sendBack(rest, { on: '2026-05-08', line: 'a', quantity: 5.6, refund: 560 });
    expect([rest.state, all.state]).toEqual(['received', 'returned']);
    expect(all.returns).toHaveLength(3);
    expect(referenceFaults({ ...build, purchases: [all] })).toEqual([]);
  });

  it('should keep payments beside each other and one quote at most chosen', () => {
    const quotes = [
      { supplier: 'one', amount: 100, on: '2026-05-01', chosen: true },
      { supplier: 'two', amount: 90, on: '2026-05-01', chosen: false },
    ];
    const [wanted] = makeBuild({ purchases: [{ key: 'p', lines: LINES, quotes }] }).purchases;
    const chosen = chooseQuote(wanted!, 1);
    expect([chosen.state, ...chosen.quotes.map((quote) => quote.chosen)]).toEqual(['quoted', false, true]);
    expect(chooseQuote(chosen, 1).quotes.some((quote) => quote.chosen)).toBe(false);
    const payment = { on: '2026-05-02', amount: 50, by: null, kind: 'deposit' as const };
    expect(addPayment(addPayment(wanted!, payment), payment).payments).toHaveLength(2);
  });
});

describe('a receipt', () => {
  it('should be one purchase, here and paid, that a build takes as it is', () => {
    const build = makeBuild({
      phases: [{ key: 'floor', name: 'Floor' }],
      people: [{ key: 'ines', name: 'Ines' }],
    });
    const rows = [
      { name: 'screws', quantity: 2, unitPrice: 395, phase: 'floor', mass: 400 },
      { name: 'tape', quantity: 1, unitPrice: 649, phase: null, mass: null },
    ];
    const bought = purchaseOfReceipt(
      { shop: 'corner shop', on: '2026-05-30', by: 'ines', rows, file: null },
      'trip',
    );
    expect(bought).toMatchObject({
      state: 'received',
      payments: [{ on: '2026-05-30', amount: 1439, by: 'ines', kind: 'full' }],
    });
    const after = { ...build, purchases: [bought] };
    expect(referenceFaults(after)).toEqual([]);
    const { money } = computePlan(after, { now: NOW });
    expect(money.total).toMatchObject({ paid: 1439, ordered: 0, toBuy: 0, unconfirmed: 0 });
    expect(money.phases['floor']!.paid).toBe(790);
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
          payments: [{ on: '2026-05-02', amount: 2120 }],
        },
        { key: 'unpaid', state: 'received', orderedOn: '2026-05-30', lines: LINES },
        {
          key: 'balance',
          state: 'ordered',
          orderedOn: '2026-05-01',
          promisedOn: '2026-08-01',
          lines: LINES,
          payments: [
            { on: '2026-06-10', amount: 1000 },
            { on: '2026-12-10', amount: 1120 },
          ],
        },
      ],
    });
    const found = toLookAt(build, computePlan(build, { now: NOW }));
    expect(found.map(({ why, purchase, on }) => `${why} ${purchase.key} ${on}`)).toEqual([
      'refund back 2026-05-05',
      'unpaid unpaid 2026-05-30',
      'order order 2026-06-05',
      'due due 2026-06-08',
      'payment balance 2026-06-10',
    ]);
  });
});
