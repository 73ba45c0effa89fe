/** Arrivals and order-by days, day by day on a calendar. */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { link, makeBuild, NOW, task, type BuildParts } from '../support/builds.ts';

/** As of Monday 1 June 2026, 00:00, by people who are always there. */
const plan = (purchase: object, parts: BuildParts = {}, line: object = {}) => {
  const file = makeBuild({
    tasks: [task('use', 60)],
    ...parts,
    purchases: [
      {
        key: 'shop',
        leadDays: 5,
        leadDaysBad: 9,
        ...purchase,
        lines: [{ key: 'part', name: 'part', quantity: 2, neededBy: ['use'], ...line }],
      },
    ],
  });
  const { tasks, purchases } = computePlan(file, { now: NOW });
  return { start: tasks['use']!.dates!.start, shop: purchases['shop']! };
};

describe('a part', () => {
  it('should hold its task until 00:00 on the day after it comes', () => {
    expect(plan({}).start).toBe('2026-06-07T00:00');
    expect(plan({}).shop).toMatchObject({ arrives: '2026-06-06', late: true, holds: ['use'] });
  });

  it('should come on the promised day once ordered, else after the lead days, never before today', () => {
    expect(plan({ state: 'ordered', orderedOn: '2026-05-30' }).shop.arrives).toBe('2026-06-04');
    expect(plan({ state: 'ordered', orderedOn: '2026-05-30', promisedOn: '2026-06-20' }).shop.arrives).toBe(
      '2026-06-20',
    );
    expect(plan({ state: 'ordered', orderedOn: '2026-04-01', promisedOn: '2026-04-05' })).toMatchObject({
      start: '2026-06-02T00:00',
      shop: { arrives: '2026-06-01' },
    });
  });

  it('should hold nothing once it is in hand, the same day', () => {
    const came = (on: string) =>
      plan({ state: 'received', orderedOn: '2026-05-01', deliveries: [{ on, line: 'part', quantity: 2 }] });
    expect(came('2026-05-20')).toMatchObject({
      start: '2026-06-01T00:00',
      shop: { arrives: '2026-05-20', late: false },
    });
    expect(came('2026-06-01').start).toBe('2026-06-01T00:00');
  });

  it('should be waited for by its open line when only part has come', () => {
    const came = (quantity: number) =>
      plan({
        state: 'part-received',
        orderedOn: '2026-05-20',
        promisedOn: '2026-06-10',
        deliveries: [{ on: '2026-05-30', line: 'part', quantity }],
      });
    expect(came(1)).toMatchObject({ start: '2026-06-11T00:00', shop: { arrives: '2026-06-10' } });
    expect(came(2)).toMatchObject({ start: '2026-06-01T00:00', shop: { arrives: '2026-05-30' } });
  });

  it('should be wanted again when it went back and is still needed', () => {
    const deliveries = [{ on: '2026-05-20', line: 'part', quantity: 2 }];
    const back = plan({
      state: 'returned',
      deliveries,
      returns: [{ on: '2026-05-25', line: 'part', quantity: 2 }],
    });
    expect(back).toMatchObject({ start: '2026-06-07T00:00', shop: { arrives: '2026-06-06' } });
  });
});

describe('order-by days', () => {
  // Sixty days of work come first, so the part is needed on 31 July; the target gives ten days more.
  const later: BuildParts = {
    build: { targetFinishOn: '2026-08-09' },
    tasks: [task('before', 60 * 1440), task('use', 1440)],
    links: [link('before', 'use')],
  };

  it('should leave the bad lead time and a day before the planned start, the usual one before the late start', () => {
    expect(plan({}, later)).toMatchObject({
      start: '2026-07-31T00:00',
      shop: { orderBy: '2026-07-21', orderByLatest: '2026-08-03', late: false },
    });
  });

  it('should not be so early that shelf life or the return window runs out first', () => {
    expect(plan({}, later).shop.orderEarliest).toBeNull();
    expect(plan({}, later, { returnDays: 14 }).shop.orderEarliest).toBe('2026-07-12');
    expect(plan({}, later, { returnDays: 14, shelfLifeDays: 10 }).shop.orderEarliest).toBe('2026-07-17');
    expect(plan({}, later, { returnDays: 0 }).shop.orderEarliest).toBeNull();
  });

  it('should be over once it is ordered', () => {
    const { shop } = plan({ state: 'ordered', orderedOn: '2026-05-30' }, later);
    expect([shop.orderBy, shop.orderByLatest, shop.orderEarliest]).toEqual([null, null, null]);
  });

  it('should not call a part late that another thing holds back longer', () => {
    expect(plan({ leadDays: 59, leadDaysBad: null }, later).shop.late).toBe(false);
    expect(plan({ leadDays: 60, leadDaysBad: null }, later).shop.late).toBe(true);
  });
});

describe('a part that might be late', () => {
  const later: BuildParts = {
    build: { targetFinishOn: '2026-08-09' },
    tasks: [task('before', 10 * 1440), task('use', 1440)],
    links: [link('before', 'use')],
  };

  it('should name the tasks its bad lead time would push, and not those it holds back already', () => {
    // Needed on 11 June: in nine days it is there in time, in ten it is not.
    expect(plan({ leadDaysBad: 9 }, later).shop).toMatchObject({ late: false, risks: [] });
    expect(plan({ leadDaysBad: 10 }, later).shop).toMatchObject({ late: false, risks: ['use'] });
    expect(plan({ leadDays: 10, leadDaysBad: 12 }, later).shop).toMatchObject({ holds: ['use'], risks: [] });
  });

  it('should be told from the promised day once it is ordered, and be over once it is in', () => {
    const ordered = { state: 'ordered', orderedOn: '2026-05-30', promisedOn: '2026-06-07' };
    expect(plan({ ...ordered, leadDaysBad: 8 }, later).shop.risks).toEqual([]);
    expect(plan({ ...ordered, leadDaysBad: 9 }, later).shop.risks).toEqual(['use']);
    const came = [{ on: '2026-05-31', line: 'part', quantity: 2 }];
    expect(plan({ ...ordered, state: 'received', deliveries: came }, later).shop.risks).toEqual([]);
  });

  it('should name the closings that wait for it', () => {
    const closing: BuildParts = {
      depths: ['metal', 'services', 'finish'],
      zones: [{ key: 'L', name: 'left wall', depths: ['metal', 'services', 'finish'] }],
      tasks: [
        task('use', 60, { places: [{ zone: 'L', depth: 'services', hides: null }] }),
        task('close', 60, { places: [{ zone: 'L', depth: 'finish', hides: 'services' }] }),
      ],
    };
    expect(plan({}, closing).shop.closings).toEqual([{ zone: 'L', by: 'close' }]);
    const came = [{ on: '2026-05-31', line: 'part', quantity: 2 }];
    expect(plan({ state: 'received', deliveries: came }, closing).shop.closings).toEqual([]);
  });
});

describe('a part that waits in the shed', () => {
  const later: BuildParts = {
    tasks: [task('before', 10 * 1440), task('use', 1440), task('after', 1440)],
    links: [link('before', 'use'), link('use', 'after')],
  };
  const inHand = (line: object, deliveries = [{ on: '2026-05-25', line: 'part', quantity: 2 }], more = {}) =>
    plan({ state: 'received', deliveries, ...more }, later, { neededBy: ['use', 'after'], ...line }).shop
      .keeping;

  it('should say until when it can go back, and that nobody tries it before', () => {
    expect(inHand({ returnDays: 14 })).toEqual([
      {
        line: 'part',
        returnBy: '2026-06-08',
        goesOff: null,
        usedFrom: '2026-06-11',
        usedUp: '2026-06-13',
        untried: true,
        spoils: false,
      },
    ]);
    expect(inHand({ returnDays: 30 })).toMatchObject([{ returnBy: '2026-06-24', untried: false }]);
    expect(inHand({ returnDays: 5 })).toEqual([]);
    expect(inHand({ returnDays: 0 })).toEqual([]);
  });

  it('should say when it goes off, and that it is not used up by then', () => {
    expect(inHand({ shelfLifeDays: 18 })).toMatchObject([{ goesOff: '2026-06-12', spoils: true }]);
    expect(inHand({ shelfLifeDays: 20 })).toMatchObject([{ goesOff: '2026-06-14', spoils: false }]);
  });

  it('should say nothing of what is not here, or went back', () => {
    expect(inHand({ returnDays: 14 }, [])).toEqual([]);
    const returns = [{ on: '2026-05-28', line: 'part', quantity: 2 }];
    expect(inHand({ returnDays: 14 }, undefined, { returns })).toEqual([]);
  });
});
