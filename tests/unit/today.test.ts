/** Three hours tonight: which ready tasks make the evening, in which order, by whom, and why the others do not. */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import type { Ask } from '#shared/today/ask.ts';
import { todayOf } from '#shared/today/today.ts';
import { holdingAt, nextTimes } from '#shared/today/when.ts';
import { EVENINGS, link, makeBuild, NOW, task, type BuildParts } from '../support/builds.ts';

const A = { key: 'a', name: 'A', week: EVENINGS };
const B = { key: 'b', name: 'B', week: EVENINGS };
/** Tuesday, as the evening begins. */
const TONIGHT = '2026-06-02T18:30';
const DEPTHS = ['metal', 'wires', 'panel'];
const ZONES = { depths: DEPTHS, zones: ['L', 'R'].map((key) => ({ key, name: key, depths: DEPTHS })) };
const inZone = (zone: string) => ({ places: [{ zone, depth: 'wires' }] });
const DONE = { state: 'finished', startedAt: '2026-06-01T08:00', finishedAt: '2026-06-01T10:00' };

describe('a task can be done now', () => {
  it('should ask that what comes before it is finished, hard and signed', () => {
    expect(lacks([task('x', 60), task('y', 60)], [link('x', 'y')], 'y')).toEqual(['before x']);
    expect(lacks([task('x', 60, DONE), task('y', 60)], [link('x', 'y')], 'y')).toEqual([]);
    expect(
      lacks([task('x', 60, { ...DONE, waitMinutes: 2880 }), task('y', 60)], [link('x', 'y')], 'y'),
    ).toEqual(['wait until 2026-06-03T10:00']);
    const leak = { key: 'leak', name: 'leak test', when: 'exit' };
    expect(
      lacks([task('x', 60, { ...DONE, holdPoints: [leak] }), task('y', 60)], [link('x', 'y')], 'y'),
    ).toEqual(['check x/leak']);
  });

  it('should ask the same of what it would hide', () => {
    const cable = task('cable', 60, inZone('L'));
    const panel = task('panel', 60, { places: [{ zone: 'L', depth: 'panel', hides: 'wires' }] });
    expect(lacks([cable, panel], [], 'panel', ZONES)).toEqual(['before cable']);
    expect(lacks([{ ...cable, ...DONE }, panel], [], 'panel', ZONES)).toEqual([]);
  });

  it('should take each kind of link at its word', () => {
    const begun = { state: 'started', startedAt: '2026-06-02T08:00' };
    const of = (kind: string, first: object, minutes = 60) =>
      lacks([task('x', 600, first), task('y', minutes)], [link('x', 'y', { kind })], 'y');
    expect(of('SS', {})).toEqual(['before x']);
    expect(of('SS', begun)).toEqual([]);
    // It may begin, but not be finished: a short one waits, a long one is begun.
    expect(of('FF', begun, 45)).toEqual(['before x']);
    expect(of('FF', begun, 600)).toEqual([]);
    expect(of('SF', begun, 45)).toEqual([]);
    expect(
      lacks([task('x', 600, begun), task('y', 60)], [link('x', 'y', { kind: 'SS', lagMinutes: 660 })], 'y'),
    ).toEqual(['wait until 2026-06-02T19:00']);
  });

  it('should ask for its parts, its first check, its date, and the answer to the question that locks it', () => {
    const more = (state: string): BuildParts => ({
      purchases: [
        {
          key: 'p',
          state,
          orderedOn: state === 'wanted' ? null : '2026-06-01',
          leadDays: 3,
          lines: [{ key: 'l', name: 'foam', quantity: 1, neededBy: ['x'] }],
        },
      ],
    });
    expect(lacks([task('x', 60)], [], 'x', more('wanted'))).toEqual(['part p, not ordered']);
    expect(lacks([task('x', 60)], [], 'x', more('ordered'))).toEqual(['part p, 2026-06-04']);
    expect(lacks([task('x', 60)], [], 'x', more('received'))).toEqual([]);
    const first = { key: 'dry', name: 'dry inside', when: 'entry' };
    expect(lacks([task('x', 60, { holdPoints: [first] })], [], 'x')).toEqual(['check x/dry']);
    expect(lacks([task('x', 60, { fixedStart: '2026-06-06T09:00' })], [], 'x')).toEqual([
      'fixed 2026-06-06T09:00',
    ]);
    const decisions = [{ key: 'd', question: 'Which?', locksTasks: ['x'] }];
    expect(lacks([task('x', 60)], [], 'x', { decisions })).toEqual(['decision d']);
  });

  it('should ask for people, tools, conditions and enough time', () => {
    expect(lacks([task('x', 60, { people: 2 })], [], 'x', {}, { people: ['a'] })).toEqual(['people 2']);
    expect(lacks([task('x', 60, { people: 2 })], [], 'x')).toEqual([]);
    const saw = { tools: [{ key: 'saw', name: 'saw', only: [{ from: '2026-06-03', to: '2026-06-04' }] }] };
    expect(lacks([task('x', 60, { tools: ['saw'] })], [], 'x', saw)).toEqual(['tool saw']);
    const dry = { conditions: [{ key: 'dry', name: 'dry' }] };
    expect(lacks([task('x', 60, { conditions: ['dry'] })], [], 'x', dry)).toEqual(['condition dry']);
    expect(lacks([task('x', 60, { conditions: ['dry'] })], [], 'x', dry, { holding: ['dry'] })).toEqual([]);
    expect(lacks([task('x', 600, { shortestSitting: 240 })], [], 'x')).toEqual(['hours 240']);
  });

  it('should ask for room: what is under way keeps its zone, unless it cannot go on', () => {
    const there = task('there', 300, { ...inZone('L'), state: 'started', startedAt: '2026-06-02T08:00' });
    const mine = task('mine', 60, inZone('L'));
    expect(lacks([there, mine], [], 'mine', ZONES)).toEqual(['room L: there']);
    // Begun out of turn: it has to wait for this one, and bars nobody.
    expect(lacks([there, mine], [link('mine', 'there')], 'mine', ZONES)).toEqual([]);
    const floor = task('floor', 60, { ...DONE, ...inZone('L'), waitMinutes: 4000, waitHoldsZones: true });
    expect(lacks([floor, mine], [], 'mine', ZONES)).toEqual(['room L: floor']);
  });
});

describe('the evening', () => {
  it('should take the driving chain first, then what the next closing misses, then what can wait least', () => {
    // A guest goes on for a month with what follows the chain, so that nothing of A’s own drives the finish.
    const guest = { key: 'g', name: 'G', byNameOnly: true, week: EVENINGS };
    const guests = (key: string, minutes: number) => task(key, minutes, { who: ['g'] });
    const tasks = [
      task('chain', 60),
      guests('end', 6000),
      task('cable', 60, inZone('L')),
      task('panel', 60, { places: [{ zone: 'L', depth: 'panel', hides: 'wires' }] }),
      task('loose', 60),
      task('tight', 60),
      guests('after-tight', 3000),
    ];
    const links = [link('chain', 'end'), link('tight', 'after-tight')];
    const { set } = evening({ ...ZONES, people: [A, guest], tasks, links }, { people: ['a'], minutes: 240 });
    expect(set.map(({ ranked }) => ranked.task.key)).toEqual(['chain', 'cable', 'tight', 'loose']);
    expect(set[0]!.ranked.chain).toBe(true);
    expect(set[1]!.ranked.closing?.by).toBe('panel');
  });

  it('should finish what it can and cut only the last, never below its shortest sitting', () => {
    const tasks = [task('long', 600, { shortestSitting: 90 }), task('short', 75)];
    expect(pieces({ people: [A], tasks }, 180)).toEqual(['short 0-75 a', 'long 75-180 a, cut']);
    expect(pieces({ people: [A], tasks }, 150)).toEqual(['long 0-150 a, cut']);
    expect(pieces({ people: [A], tasks: [task('long', 600, { shortestSitting: 90 })] }, 80)).toEqual([]);
  });

  it('should pack the hours rather than take the first that comes', () => {
    // First come, first served would take 100 and leave 80 idle.
    const tasks = [
      task('a-100', 100, { shortestSitting: 100 }),
      task('b-90', 90, { shortestSitting: 90 }),
      task('c-90', 90, { shortestSitting: 90 }),
    ];
    const { set, exact } = evening({ people: [A], tasks }, { people: ['a'], minutes: 180 });
    expect(set.map(({ ranked }) => ranked.task.key)).toEqual(['b-90', 'c-90']);
    expect(exact).toBe(true);
  });

  it('should give two people places of their own, or one task together', () => {
    const tasks = [task('l', 60, inZone('L')), task('l2', 60, inZone('L')), task('r', 60, inZone('R'))];
    expect(pieces({ ...ZONES, people: [A, B], tasks }, 120, ['a', 'b'])).toEqual([
      'l 0-60 a',
      'r 0-60 b',
      'l2 60-120 a',
    ]);
    expect(pieces({ people: [A, B], tasks: [task('lift', 60, { people: 2 })] }, 120, ['a', 'b'])).toEqual([
      'lift 0-60 a+b',
    ]);
  });

  it('should keep the one saw in one hand, and whoever is asked for by name free for it', () => {
    const saw = { tools: [{ key: 'saw', name: 'saw' }] };
    const sawing = [task('x', 60, { tools: ['saw'] }), task('y', 60, { tools: ['saw'] })];
    expect(pieces({ ...saw, people: [A, B], tasks: sawing }, 120, ['a', 'b'])).toEqual([
      'x 0-60 a',
      'y 60-120 a',
    ]);
    const named = [task('anyone', 120), task('only-a', 120, { who: ['a'] })];
    expect(pieces({ people: [A, B], tasks: named }, 120, ['a', 'b'])).toEqual([
      'anyone 0-120 b',
      'only-a 0-120 a',
    ]);
  });

  it('should give a task to whoever has worked on it', () => {
    const begun = task('begun', 120, { state: 'started', startedAt: '2026-06-01T08:00' });
    const hours = [{ key: 'h', task: 'begun', person: 'b', on: '2026-06-01', minutes: 60 }];
    expect(pieces({ people: [A, B], tasks: [begun], hours }, 120, ['a', 'b'])).toEqual(['begun 0-60 b']);
  });

  it('should leave a room to what was cut in it', () => {
    const tasks = [task('x', 400, inZone('L')), task('y', 400, inZone('L'))];
    expect(pieces({ ...ZONES, people: [A, B], tasks }, 180, ['a', 'b'])).toEqual(['x 0-180 a, cut']);
  });

  it('should keep what runs on top and count its time', () => {
    const running = task('running', 90, { state: 'started', startedAt: '2026-06-02T18:00' });
    const timers = [{ key: 't', person: 'a', task: 'running', startedAt: '2026-06-02T18:00' }];
    const { set, gone } = evening(
      { people: [A, B], tasks: [running, task('x', 60), task('y', 600)], timers },
      { people: ['a', 'b'], minutes: 180 },
    );
    expect(gone).toBe(30);
    expect(set.map(written)).toEqual(['running 0-90 a', 'y 30-180 b, cut', 'x 90-150 a']);
    expect(set[0]!.running?.spent).toBe(30);
    const forgotten = evening(
      {
        people: [A],
        tasks: [running, task('x', 60)],
        timers: [{ ...timers[0], startedAt: '2026-06-01T18:00' }],
      },
      { people: ['a'], minutes: 180 },
    );
    expect(forgotten.gone).toBe(0);
    expect(forgotten.set[0]!.ranked.task.key).toBe('running');
  });

  it('should put in what the builder swaps in and leave out what he leaves out', () => {
    const parts = { people: [A], tasks: [task('x', 120), task('y', 120), task('z', 120)] };
    const keys = (more: Partial<Ask>) =>
      evening(parts, { people: ['a'], minutes: 120, ...more }).set.map(({ ranked }) => ranked.task.key);
    expect(keys({})).toEqual(['x']);
    expect(keys({ wanted: ['z'] })).toEqual(['z']);
    expect(keys({ without: ['x'] })).toEqual(['y']);
  });

  it('should offer the rest instead, and nothing where nobody is there', () => {
    const parts = { people: [A], tasks: [task('x', 120), task('y', 120)] };
    expect(evening(parts, { people: ['a'], minutes: 120 }).alternatives.map((one) => one.task.key)).toEqual([
      'y',
    ]);
    const nobody = evening(parts, { people: [], minutes: 120 });
    expect(nobody.set).toEqual([]);
    expect(nobody.held).toHaveLength(2);
  });

  it('should be there at once for a thousand tasks that could all be done', () => {
    const tasks = Array.from({ length: 1000 }, (_, i) =>
      task(`t${i}`, 25 + ((i * 37) % 300), { shortestSitting: 20 + ((i * 13) % 60) }),
    );
    const file = makeBuild({ people: [A, B], tasks, build: { asOf: TONIGHT } });
    const plan = computePlan(file, { now: NOW });
    const before = performance.now();
    const { set } = todayOf(file, plan, { people: ['a', 'b'], minutes: 200, holding: [], at: TONIGHT });
    expect(performance.now() - before).toBeLessThan(3000);
    expect(set.reduce((sum, { piece }) => sum + piece.to - piece.from, 0)).toBeGreaterThan(390);
  });
});

describe('what is due today', () => {
  it('should name waits that end today and what goes on then', () => {
    const glue = task('glue', 60, { ...DONE, finishedAt: '2026-06-02T12:00', waitMinutes: 480 });
    const { waits } = evening({
      people: [A],
      tasks: [glue, task('next', 60)],
      links: [link('glue', 'next')],
    });
    expect(waits.map((one) => [one.task.key, one.until, one.frees])).toEqual([
      ['glue', '2026-06-02T20:00', ['next']],
    ]);
  });

  it('should name checks that are due, or the last thing before a start', () => {
    const exit = { key: 'out', name: 'pull test', when: 'exit' };
    const entry = { key: 'in', name: 'dry inside', when: 'entry' };
    const { checks } = evening({
      people: [A],
      tasks: [
        task('x', 60, { ...DONE, holdPoints: [exit] }),
        task('y', 60, { holdPoints: [entry] }),
        task('z', 60, { holdPoints: [entry] }),
        task('w', 60, { holdPoints: [exit] }),
        // It needs three, and still its check can be signed.
        task('v', 60, { holdPoints: [entry], people: 3 }),
      ],
      links: [link('x', 'z')],
    });
    expect(checks.map(({ task: { key }, check, holds }) => [key, check.key, holds])).toEqual([
      ['v', 'in', ['v']],
      ['x', 'out', ['z']],
      ['y', 'in', ['y']],
    ]);
  });

  it('should name questions of the next fortnight', () => {
    const decisions = [
      { key: 'soon', question: 'Where?', locksTasks: ['x'] },
      { key: 'settled', question: 'Which?', locksTasks: ['x'], options: ['this'], chosen: 'this' },
      { key: 'idle', question: 'Ever?' },
    ];
    const { decisions: open } = evening({ people: [A], tasks: [task('x', 60)], decisions });
    expect(open.map(({ decision: { key }, inDays }) => [key, inDays])).toEqual([['soon', 0]]);
  });
});

describe('before anybody says otherwise', () => {
  it('should know when the people are there next, and for how long', () => {
    const file = makeBuild({ people: [A], tasks: [task('x', 60)], build: { asOf: '2026-06-02T19:00' } });
    const plan = computePlan(file, { now: NOW });
    expect(nextTimes(file, plan, ['a'], 3)).toEqual([
      { at: '2026-06-02T19:00', minutes: 120 },
      { at: '2026-06-04T18:30', minutes: 150 },
      { at: '2026-06-06T09:00', minutes: 420 },
    ]);
    expect(nextTimes(file, plan, [], 3)).toEqual([{ at: '2026-06-02T19:00', minutes: 0 }]);
  });

  it('should know which conditions hold, the builder’s word for the day over the calendar', () => {
    const conditions = [
      { key: 'day', name: 'daylight', hours: '08:00-18:00' },
      { key: 'dry', name: 'dry', not: [{ from: '2026-06-02', to: '2026-06-02' }] },
      {
        key: 'warm',
        name: 'warm',
        not: [{ from: '2026-06-02', to: '2026-06-02' }],
        overrides: [{ on: '2026-06-02', holds: true }],
      },
    ];
    const file = makeBuild({ people: [A], conditions, tasks: [], build: { asOf: TONIGHT } });
    const plan = computePlan(file, { now: NOW });
    expect(holdingAt(file, plan, TONIGHT)).toEqual(['warm']);
    expect(holdingAt(file, plan, '2026-06-03T10:00')).toEqual(['day', 'dry', 'warm']);
  });
});

// Helpers

type More = BuildParts & { readonly timers?: readonly object[] };

function evening(parts: More, asked: Partial<Ask> = {}) {
  const file = makeBuild({ ...parts, build: { asOf: TONIGHT } });
  const plan = computePlan(file, { now: NOW });
  return todayOf(file, plan, { people: ['a'], minutes: 180, holding: [], at: TONIGHT, ...asked });
}

function written({ piece }: ReturnType<typeof evening>['set'][number]): string {
  const { task: of, from, to, people, finishes } = piece;
  return `${of.key} ${from}-${to} ${people.join('+')}${finishes ? '' : ', cut'}`;
}

function pieces(parts: More, minutes: number, people: readonly string[] = ['a']): string[] {
  return evening(parts, { people, minutes }).set.map(written);
}

function lacks(
  tasks: readonly object[],
  links: readonly object[],
  key: string,
  more: BuildParts = {},
  asked: Partial<Ask> = {},
): string[] {
  const { set, alternatives, held } = evening(
    { people: [A, B], ...more, tasks, links },
    { people: ['a', 'b'], ...asked },
  );
  const all = [...set.map(({ ranked }) => ranked), ...alternatives, ...held];
  return all
    .find((one) => one.task.key === key)!
    .lacks.map((lack) => {
      switch (lack.kind) {
        case 'before':
          return `before ${lack.task}`;
        case 'check':
          return `check ${lack.task}/${lack.check.key}`;
        case 'wait':
          return `wait until ${lack.until}`;
        case 'part':
          return `part ${lack.purchase}, ${lack.ordered ? lack.comes : 'not ordered'}`;
        case 'room':
          return `room ${lack.zone}: ${lack.tasks.join()}`;
        case 'people':
          return `people ${lack.need}`;
        case 'hours':
          return `hours ${lack.need}`;
        case 'fixed':
          return `fixed ${lack.at}`;
        default:
          return `${lack.kind} ${'tool' in lack ? lack.tool : 'condition' in lack ? lack.condition : lack.decision}`;
      }
    });
}
