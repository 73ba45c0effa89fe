/**
 * What the fields of a build file say about each other: references that lead somewhere, keys given once, estimates and
 * days in order, a state that agrees with its dates (the rules: shared/contract). Each refusal names the one place.
 */
import { describe, expect, it } from 'vitest';
import { readBuild } from '#shared/contract/read.ts';
import { changed, expectRefusal, pointersIn, valueAt } from '../support/contract-faults.ts';
import { fullDocument, type Loose } from '../support/full-document.ts';

describe('a reference', () => {
  it.each([
    ['/tasks/0/phase', 'phase'],
    ['/tasks/0/who/0', 'person'],
    ['/tasks/0/tools/0', 'tool'],
    ['/tasks/0/conditions/0', 'condition'],
    ['/tasks/0/waitConditions/0', 'condition'],
    ['/tasks/0/places/0/zone', 'zone'],
    ['/tasks/0/places/0/depth', 'depth in L2 called'],
    ['/tasks/2/places/0/hides', 'depth in L2 called'],
    ['/tasks/0/holdPoints/0/attempts/0/by', 'person'],
    ['/zones/0/depths/2', 'depth'],
    ['/zoneGroups/0/zones/0', 'zone'],
    ['/links/0/from', 'task'],
    ['/links/0/to', 'task'],
    ['/exceptions/0/inner', 'task'],
    ['/exceptions/0/cover', 'task'],
    ['/order/0', 'task'],
    ['/decisions/0/chosen', 'option'],
    ['/decisions/0/by', 'person'],
    ['/decisions/0/locksTasks/0', 'task'],
    ['/decisions/0/locksPurchases/0', 'purchase'],
    ['/purchases/0/lines/0/phase', 'phase'],
    ['/purchases/0/lines/0/neededBy/0', 'task'],
    ['/purchases/0/returns/0/line', 'line'],
    ['/purchases/0/payments/0/by', 'person'],
    ['/hours/0/task', 'task'],
    ['/hours/0/phase', 'phase'],
    ['/hours/0/person', 'person'],
    ['/timers/0/task', 'task'],
    ['/timers/0/phase', 'phase'],
    ['/timers/0/person', 'person'],
    ['/records/0/zone', 'zone'],
    ['/records/0/depth', 'depth in L2 called'],
    ['/records/0/task', 'task'],
  ])('should be refused at %s when there is no such %s', (at, what) => {
    // Another place that speaks of the same record would be refused as well: leave only the one.
    const document = at === '/zones/0/depths/2' ? withoutTheWall(at) : changed(at, 'nobody');
    expectRefusal(document, at, `there is no ${what} "nobody"; it must be `);
  });

  it('should be refused when a delivery names a line that was never ordered', () => {
    const document = changed('/purchases/0/deliveries/0/line', 'nobody');
    expect(pointersIn(() => readBuild(document))).toContain('/purchases/0/deliveries/0/line');
  });

  it('should say which keys there are when they are few', () => {
    expectRefusal(changed('/records/0/zone', 'L9'), '/records/0/zone', 'such as L2, T');
  });

  it('should not lead to a depth that another zone has but this one lacks', () => {
    expectRefusal(
      changed('/records/0/zone', 'T'),
      '/records/0/depth',
      'there is no depth in T called "services"; it must be one there is, such as metal',
    );
  });

  it('should be told of in one go with whatever else contradicts itself', () => {
    const document = changed('/tasks/0/minutes/low', 181);
    document['order'] = ['nobody'];
    const faulty = pointersIn(() => readBuild(document));
    expect(faulty).toEqual(['/order/0', '/tasks/0/minutes/low']);
  });

  it('should not be satisfied by a word that every object of a program knows', () => {
    expectRefusal(changed('/tasks/0/phase', 'constructor'), '/tasks/0/phase', 'there is no phase');
  });
});

describe('a key', () => {
  it.each([
    '/people',
    '/tools',
    '/conditions',
    '/depths',
    '/zones',
    '/zoneGroups',
    '/phases',
    '/tasks',
    '/decisions',
    '/purchases',
    '/purchases/0/lines',
    '/tasks/0/holdPoints',
    '/baselines',
  ])('should be given once in %s', (list) => {
    const records = valueAt(fullDocument(), list) as Loose[];
    const at = `${list}/${records.length}/key`;
    expectRefusal(changed(list, [...records, records[0]]), at, 'each needs a key of its own');
  });

  it('should be free to stand in two lists, and in two purchases, at once', () => {
    const document = changed('/phases/1', { key: 'ines', name: 'What only Ines does' });
    const [purchase] = document['purchases'] as Loose[];
    document['purchases'] = [purchase, { ...purchase, key: 'second-shop' }];
    expect(readBuild(document).purchases).toHaveLength(2);
  });
});

describe('a list that names things', () => {
  it.each([
    ['/order', 'task'],
    ['/tasks/0/who', 'person'],
    ['/tasks/0/tools', 'tool'],
    ['/tasks/0/places', 'place'],
    ['/zones/0/depths', 'depth'],
    ['/zoneGroups/0/zones', 'zone'],
    ['/exceptions', 'pair'],
    ['/decisions/0/options', 'option'],
    ['/purchases/0/lines/0/neededBy', 'task'],
    ['/conditions/0/overrides', 'day'],
  ])('should name nothing twice: %s', (list, what) => {
    const names = valueAt(fullDocument(), list) as unknown[];
    const at = `${list}/${names.length}`;
    expectRefusal(changed(list, [...names, names[0]]), at, `stands twice: name each ${what} once`);
  });
});

describe('a timer', () => {
  it('should run once a person: nobody works at two things at once', () => {
    const second = { person: 'ines', startedAt: '2027-03-09T18:45' };
    const detail = '"ines" has a timer running already (/timers/0): stop that one first';
    expectRefusal(changed('/timers/1', second), '/timers/1/person', detail);
    expect(readBuild(changed('/timers/1', { ...second, person: 'bea' })).timers).toHaveLength(2);
  });
});

describe('a link', () => {
  const stated = { from: 'hose-test', to: 'pull-cables', kind: 'FS' };

  it('should be refused from a task to itself, whatever its kind', () => {
    for (const kind of ['FS', 'SS', 'FF', 'SF'])
      expectRefusal(
        changed('/links/0', { from: 'hose-test', to: 'hose-test', kind }),
        '/links/0/to',
        'a task cannot wait for itself, name another',
      );
  });

  it('should be refused when the same is stated again', () => {
    const again = { ...stated, lagMinutes: 60, reason: 'another' };
    expectRefusal(changed('/links', [stated, again]), '/links/1', 'state each link once');
  });

  it('should be accepted beside one of another kind or direction between the same tasks', () => {
    const links = [stated, { ...stated, kind: 'SS' }, { from: 'pull-cables', to: 'hose-test', kind: 'FS' }];
    expect(readBuild(changed('/links', links)).links).toHaveLength(3);
  });
});

describe('an exception', () => {
  it('should be refused for a task behind itself', () => {
    const at = '/exceptions/0/cover';
    expectRefusal(changed(at, 'pull-cables'), at, 'is the task itself: name the task that covers it');
  });

  it('should be refused without a reason', () => {
    for (const reason of ['', '  \n'])
      expectRefusal(
        changed('/exceptions/0/reason', reason),
        '/exceptions/0/reason',
        'it must be the reason why it can still be reached, not blank',
      );
  });
});

describe('an estimate or a price', () => {
  it.each([
    ['/tasks/0/minutes/low', 181, '181 is more than likely (180): it must be 180 or less'],
    ['/tasks/0/minutes/high', 179, '179 is less than likely (180): it must be 180 or more'],
    ['/purchases/0/leadDaysBad', 5, 'is 5, less than leadDays: it must be 6 or more'],
    ['/purchases/0/lines/0/priceLow', 391, 'is 391, more than the unit price: it must be 390 or less'],
    ['/purchases/0/lines/0/priceHigh', 389, 'is 389, less than the unit price: it must be 390 or more'],
  ])('should have its best and its worst on either side: %s', (at, value, detail) => {
    expectRefusal(changed(at, value), at, detail);
  });

  it('should have its best below its worst when nothing stands between', () => {
    const line = { key: 'elbow', name: 'Elbow', quantity: 4, unitPrice: null, priceLow: 500, priceHigh: 300 };
    expect(pointersIn(() => readBuild(changed('/purchases/0/lines', [line])))).toHaveLength(1);
  });

  it('should be accepted where its three points are one', () => {
    const minutes = { low: 180, likely: 180, high: 180 };
    expect(readBuild(changed('/tasks/0/minutes', minutes)).tasks[0]!.minutes).toEqual(minutes);
  });
});

describe('days', () => {
  it.each([
    ['/build/targetFinishOn', '2026-06-05', 'it must be 2026-06-06 or later'],
    ['/people/0/exceptions/0/to', '2026-12-23', 'it must be 2026-12-24 or later'],
    ['/tools/0/only/0/to', '2026-06-05', 'it must be 2026-06-06 or later'],
    ['/conditions/0/not/0/to', '2026-06-30', 'it must be 2026-07-01 or later'],
    ['/purchases/0/promisedOn', '2027-02-23', 'it must be 2027-02-24 or later'],
    ['/tasks/0/finishedAt', '2026-09-12T08:59', 'it must be 2026-09-12T09:00 or later'],
    ['/tasks/0/finishedAt', '2027-03-09T19:01', 'it must be 2027-03-09T19:00 or before'],
    ['/tasks/1/startedAt', '2027-03-09T19:01', 'it must be 2027-03-09T19:00 or before'],
    ['/baselines/0/tasks/hose-test/finish', '2026-09-12T08:59', 'it must be 2026-09-12T09:00 or later'],
  ])('should not run backwards: %s on %s', (at, value, detail) => {
    expectRefusal(changed(at, value), at, detail);
  });

  it('should not let the as-of date lie before the build begins', () => {
    const document = changed('/build/asOf', '2026-06-05T23:59');
    document['tasks'] = [];
    for (const list of 'links exceptions order decisions purchases hours timers records'.split(' '))
      document[list] = [];
    expectRefusal(document, '/build/asOf', 'it must be 2026-06-06 or later');
  });

  it('should be accepted when both ends are the same', () => {
    expect(readBuild(changed('/people/0/exceptions/0/to', '2026-12-24')).people).toHaveLength(2);
    expect(readBuild(changed('/tasks/0/finishedAt', '2026-09-12T09:00')).tasks).toHaveLength(3);
    expect(readBuild(changed('/tasks/1/startedAt', '2027-03-09T19:00')).tasks).toHaveLength(3);
  });

  it('should not be held against an as-of date that is left to the reader', () => {
    const document = changed('/build/asOf', null);
    (document['tasks'] as Loose[])[1]!['startedAt'] = '2029-01-01T09:00';
    expect(readBuild(document).tasks[1]!.startedAt).toBe('2029-01-01T09:00');
  });
});

describe('the state of a task', () => {
  const at = '2027-03-04T18:30';

  it.each([
    ['not started, and begun', 2, { startedAt: at }, 'startedAt', 'set state to started'],
    ['not started, and finished', 2, { finishedAt: at }, 'finishedAt', 'set state to finished'],
    ['not started, with some left', 2, { remainingMinutes: 9 }, 'remainingMinutes', 'leave it null'],
    ['started, nobody knows when', 1, { startedAt: null }, 'startedAt', 'must say when it began'],
    ['started, and finished', 1, { finishedAt: at }, 'finishedAt', 'set state to finished'],
    ['finished, nobody knows when', 0, { finishedAt: null }, 'finishedAt', 'it must say when'],
    ['finished, never begun', 0, { startedAt: null }, 'startedAt', 'must say when it began'],
    ['finished, with some left', 0, { remainingMinutes: 9 }, 'remainingMinutes', 'leave it null'],
  ])('should agree with its dates: %s', (_, index, change, field, detail) => {
    const task = (fullDocument()['tasks'] as Loose[])[index]!;
    expectRefusal(changed(`/tasks/${index}`, { ...task, ...change }), `/tasks/${index}/${field}`, detail);
  });
});

describe('a purchase', () => {
  it('should say on which day it was ordered when it is', () => {
    const [purchase] = fullDocument()['purchases'] as Loose[];
    expectRefusal(
      changed('/purchases/0', { ...purchase, state: 'ordered', orderedOn: null, promisedOn: null }),
      '/purchases/0/orderedOn',
      'it must say on which day',
    );
  });

  it('should not send back more of a line than came', () => {
    expectRefusal(
      changed('/purchases/0/returns/0/quantity', 3),
      '/purchases/0/returns',
      'give back 3 of "elbow", but only 2 came: it must be 2 or less',
    );
  });

  it('should be able to send back all that came in several parcels, parts of a metre too', () => {
    const document = changed('/purchases/0/deliveries', parcels(0.1, 0.2));
    (document['purchases'] as Loose[])[0]!['returns'] = parcels(0.3);
    expect(readBuild(document).purchases[0]!.returns).toHaveLength(1);
  });
});

describe('hours', () => {
  const one = { person: 'ines', on: '2027-03-04' };
  const day = (minutes: number, more: Loose = {}) => ({ ...one, minutes, ...more });

  it('should not be more than 24 for one person on one day', () => {
    expectRefusal(
      changed('/hours', [day(1440), day(1), day(60)]),
      '/hours/1/minutes',
      'brings ines to 1441 minutes on 2027-03-04: a day has 1440',
    );
  });

  it('should be counted for each person and each day apart', () => {
    const document = changed('/hours', [
      day(1440),
      day(1440, { on: '2027-03-05' }),
      day(1440, { person: 'tor' }),
    ]);
    document['people'] = [...(document['people'] as Loose[]), { key: 'tor', name: 'Tor' }];
    expect(readBuild(document).hours).toHaveLength(3);
  });
});

// Helpers

/** The full document without the task that works at the depth in question. */
function withoutTheWall(at: string): Loose {
  const document = changed(at, 'nobody');
  document['tasks'] = (document['tasks'] as Loose[]).slice(0, 2);
  for (const list of 'exceptions order decisions purchases'.split(' ')) document[list] = [];
  return document;
}

function parcels(...quantities: readonly number[]): Loose[] {
  return quantities.map((quantity) => ({ on: '2027-03-03', line: 'elbow', quantity }));
}
