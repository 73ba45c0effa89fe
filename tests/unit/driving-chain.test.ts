/** The driving chain by example: what cannot be put off to another sitting without moving the plan's end. */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { EVENINGS, link, makeBuild, NOW, task, type BuildParts } from '../support/builds.ts';

const ada = { key: 'a', name: 'Ada', week: EVENINGS };
const ben = { key: 'b', name: 'Ben', week: EVENINGS };

function chainOf(parts: BuildParts): string[] {
  const { tasks } = computePlan(makeBuild(parts), { now: NOW });
  return Object.keys(tasks).filter((key) => tasks[key]!.chain);
}

describe('the driving chain', () => {
  it('should hold tasks without a link between them that one person does one after the other', () => {
    const parts = {
      people: [ada, ben],
      tasks: [
        task('long', 600, { who: ['a'] }),
        task('more', 300, { who: ['a'] }),
        task('aside', 60, { who: ['b'] }),
      ],
    };
    const { tasks } = computePlan(makeBuild(parts), { now: NOW });
    expect(chainOf(parts)).toEqual(['long', 'more']);
    // By logic alone only the longer one is critical.
    expect(tasks['more']!.critical).toBe(false);
  });

  it('should hold what goes before a wait, and not what only fills it', () => {
    const parts = {
      people: [ada],
      tasks: [task('glue', 60, { waitMinutes: 3000 }), task('sand', 60), task('paint', 120)],
      links: [link('glue', 'paint')],
      order: ['glue', 'sand', 'paint'],
    };
    expect(chainOf(parts)).toEqual(['glue', 'paint']);
  });

  it('should hold what keeps a zone shut, a tool busy or a wet floor closed for the next', () => {
    const depths = ['d0', 'd1'];
    const floor = { places: [{ zone: 'floor', depth: 'd0' }] };
    const twoPeople = {
      people: [ada, ben],
      depths,
      zones: [{ key: 'floor', name: 'floor', depths }],
      tools: [{ key: 'saw', name: 'saw' }],
      order: ['first', 'second'],
    };
    const pair = (more: object, first = {}) => ({
      ...twoPeople,
      tasks: [
        task('first', 120, { ...more, ...first, who: ['a'] }),
        task('second', 120, { ...more, who: ['b'] }),
      ],
    });
    expect(chainOf(pair({}))).toEqual(['first', 'second']);
    expect(chainOf(pair({}, { minutes: { low: 30, likely: 30, high: 30 } }))).toEqual(['first', 'second']);
    expect(chainOf({ ...pair({ tools: ['saw'] }) })).toEqual(['first', 'second']);
    expect(chainOf({ ...pair(floor, { waitMinutes: 1440, waitHoldsZones: true }) })).toEqual([
      'first',
      'second',
    ]);
  });

  it('should leave out what could as well be done another evening', () => {
    const parts = {
      people: [ada, ben],
      tasks: [task('short', 60, { who: ['b'] }), task('long', 300, { who: ['a'] })],
    };
    expect(chainOf(parts)).toEqual(['long']);
  });

  it('should leave out what waits for a part that what comes after it waits for longer', () => {
    const purchases = [
      {
        key: 'shop',
        state: 'wanted',
        leadDays: 12,
        lines: [{ key: 'part', name: 'part', quantity: 1, neededBy: ['fit'] }],
      },
    ];
    const parts = {
      people: [ada],
      purchases,
      tasks: [task('cut', 60), task('fit', 60)],
      links: [link('cut', 'fit')],
    };
    expect(chainOf(parts)).toEqual(['fit']);
  });

  it('should not be known while a task has no dates', () => {
    const { tasks } = computePlan(makeBuild({ tasks: [task('t', 60, { people: 2 }), task('u', 60)] }), {
      now: NOW,
    });
    expect([tasks['t']!.chain, tasks['u']!.chain]).toEqual([null, null]);
  });
});
