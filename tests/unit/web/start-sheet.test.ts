/** The start sheet: what the address asks of an evening, closings that are one event, what to order, why not, and effects in a sentence. */
import { describe, expect, it } from 'vitest';
import { effectOf } from '#shared/changes/effect.ts';
import { computePlan } from '#shared/plan.ts';
import { priceOf } from '#shared/purchases/price.ts';
import { closingGroups } from '#shared/today/closing-groups.ts';
import type { Lack } from '#shared/today/lacks.ts';
import { toOrder } from '#shared/today/to-order.ts';
import { effectWords } from '../../../web/src/state/effect-words.ts';
import { indexesOf } from '../../../web/src/state/indexes.ts';
import { askingOf } from '../../../web/src/views/today/asking.ts';
import { heldWords, lackWords } from '../../../web/src/views/today/row-words.ts';
import { zoneWords } from '../../../web/src/views/today/zone-words.ts';
import { EVENINGS, link, makeBuild, NOW, task, type BuildParts } from '../../support/builds.ts';

const DEPTHS = ['metal', 'wires', 'panel'];
const parts: BuildParts = {
  people: [{ key: 'a', name: 'A', week: EVENINGS }],
  depths: DEPTHS,
  zones: ['L', 'R'].map((key) => ({ key, name: key, depths: DEPTHS })),
  tasks: [
    task('cable', 180, { places: [{ zone: 'L', depth: 'wires' }] }),
    task('panel', 60, {
      places: [
        { zone: 'L', depth: 'panel', hides: 'wires' },
        { zone: 'R', depth: 'panel', hides: 'wires' },
      ],
    }),
  ],
  links: [link('cable', 'panel')],
};
const file = makeBuild(parts);
const plan = computePlan(file, { now: NOW });

describe('what the address asks of an evening', () => {
  const evening = makeBuild({ ...parts, build: { asOf: '2026-06-02T18:30' } });
  const asking = (query: string, now = '2026-06-02T18:30') =>
    askingOf(evening, computePlan(evening, { now: NOW }), new URLSearchParams(query), 'a', now);

  it('should start from the people whose week has something today, and from what is left of it', () => {
    expect(asking('').ask).toMatchObject({ people: ['a'], minutes: 150, at: '2026-06-02T18:30' });
    expect(asking('').times.map(({ at }) => at.slice(0, 10))).toEqual([
      '2026-06-02',
      '2026-06-04',
      '2026-06-06',
    ]);
  });

  it('should take what it says, in quarters of an hour within the ruler', () => {
    expect(asking('hours=3&with=x,y&without=z').ask).toMatchObject({
      minutes: 180,
      wanted: ['x', 'y'],
      without: ['z'],
    });
    expect(asking('hours=0.3').ask.minutes).toBe(15);
    expect(asking('hours=99').ask.minutes).toBe(480);
    expect(asking('hours=soon&who=nobody').ask).toMatchObject({ minutes: 150, people: ['a'] });
  });

  it('should look at another day from the beginning of its window', () => {
    expect(asking('on=2026-06-06')).toMatchObject({
      isNow: false,
      ask: { at: '2026-06-06T09:00', minutes: 420 },
    });
    expect(asking('on=2026-06-07').isNow).toBe(true);
  });

  it('should go with the clock on the plan’s own day', () => {
    expect(asking('', '2026-06-02T19:10').ask.at).toBe('2026-06-02T19:10');
    expect(asking('', '2026-06-03T19:10').ask.at).toBe('2026-06-02T18:30');
  });
});

describe('why a task cannot be done now', () => {
  const by = indexesOf(file);
  const says = (lack: Lack) => lackWords(lack, by, 'panel', NOW);

  it('should be said with the names of what is missing', () => {
    expect(says({ kind: 'before', task: 'cable', hidden: true, starts: false })).toBe(
      'it would hide “CABLE”, which is not in',
    );
    expect(says({ kind: 'wait', task: 'cable', until: '2026-06-03T10:00' })).toBe(
      '“CABLE” hardens or waits until Wed 3 Jun, 10:00',
    );
    expect(says({ kind: 'part', purchase: 'p', name: 'foam', ordered: false, comes: '2026-06-04' })).toBe(
      'foam is not here: not ordered',
    );
    expect(says({ kind: 'people', need: 2, there: ['a'] })).toBe('it needs 2 people who may do it; 1 there');
    expect(says({ kind: 'hours', need: 240 })).toBe('it needs a sitting of 4 h');
  });

  it('should be counted, most first', () => {
    const kinds = new Map<Lack['kind'], number>([
      ['part', 1],
      ['before', 62],
    ]);
    expect(heldWords(kinds)).toBe('62 wait for something to be in and 1 waits for a part');
  });
});

describe('closings', () => {
  it('should be one event where one task closes several zones', () => {
    const groups = closingGroups(plan.closings);
    expect(groups).toHaveLength(1);
    expect(groups[0]!.closings.map(({ zone }) => zone)).toEqual(['L', 'R']);
    expect(groups[0]!.missing).toEqual(['cable']);
  });
});

describe('names of zones', () => {
  it('should say a face once', () => {
    expect(zoneWords(['floor, front', 'floor, middle', 'floor, rear'])).toBe('floor, front, middle and rear');
    expect(zoneWords(['bulkhead'])).toBe('bulkhead');
    expect(zoneWords(['bulkhead', 'left wall, rear'])).toBe('bulkhead and left wall, rear');
  });
});

describe('what to order', () => {
  const purchase = (key: string, leadDays: number, more: object = {}) => ({
    key,
    leadDays,
    lines: [{ key: 'x', name: key, neededBy: ['panel'], quantity: 2, unitPrice: 1000 }],
    ...more,
  });
  const bought = makeBuild({
    ...parts,
    purchases: [purchase('soon', 1), purchase('late', 9), purchase('came', 5, { state: 'received' })],
  });

  it('should come soonest first, with the task that needs it and how many days are left', () => {
    const orders = toOrder(bought, computePlan(bought, { now: NOW }));
    expect(orders.map(({ purchase: { key } }) => key)).toEqual(['late', 'soon']);
    expect(orders[0]).toMatchObject({ task: 'panel' });
    expect(orders[0]!.inDays).toBeLessThan(orders[1]!.inDays);
  });

  it('should cost its lines with tax, charges and shipping, less the discount', () => {
    const [one] = makeBuild({
      ...parts,
      purchases: [
        purchase('x', 1, {
          shipping: 500,
          discount: 100,
          rate: 2,
          currency: 'CHF',
          charges: [{ name: 'duty', amount: 100, taxPercent: 0, taxIncluded: true }],
          lines: [
            { key: 'a', name: 'a', quantity: 2, unitPrice: 1000, taxPercent: 20, taxIncluded: false },
            { key: 'b', name: 'b', quantity: 1 },
          ],
        }),
      ],
    }).purchases;
    expect(priceOf(one!, 'EUR')).toEqual({ amount: 2 * (2400 + 100 + 500 - 100), unpriced: 1 });
  });
});

describe('an effect', () => {
  it('should say that nothing moves', () => {
    expect(effectWords(effectOf(plan, plan), NOW)).toBe('Neither the finish nor a closing moves.');
  });

  it('should say where the finish and the first closing go', () => {
    const longer = {
      ...file,
      tasks: file.tasks.map((one) =>
        one.key === 'cable' ? { ...one, minutes: { low: 600, likely: 600, high: 600 } } : one,
      ),
    };
    const words = effectWords(effectOf(plan, computePlan(longer, { now: NOW })), NOW);
    expect(words).toMatch(
      /^The finish moves to \w{3} \d+ Jun, \d+ d later\. L closes \w{3} \d+ Jun, \d+ d later and 1 more closing moves\.$/,
    );
  });
});
