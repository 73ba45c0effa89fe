/** What the first run says in words and shapes: the stops of the tour, taps in an address, phases on the time ahead. */
import { describe, expect, it } from 'vitest';
import { wagtail } from '#shared/demo/wagtail.ts';
import { computePlan } from '#shared/plan.ts';
import { whereAreYou } from '#shared/progress/where-are-you.ts';
import { stopsOf } from '../../../web/src/frame/tour-stops.ts';
import { monthTicks, phaseSpans } from '../../../web/src/views/start/phase-spans.ts';
import { changedWords, costWords, hoursWords } from '../../../web/src/views/starter/tally-words.ts';
import {
  bandState,
  otherBays,
  readTaps,
  tapped,
  whereZones,
  writeTaps,
} from '../../../web/src/views/where/where-bands.ts';
import { makeBuild, NOW, task } from '../../support/builds.ts';

const file = wagtail();
const plan = computePlan(file, { now: '2027-03-09T19:00' });

describe('the tour', () => {
  it('should lead to six real sheets, and at each name a thing of the build at hand', () => {
    const stops = stopsOf(file, plan);
    expect(stops.map(({ at }) => at[0])).toEqual([
      'shell',
      'shell',
      'schedule',
      'today',
      'purchases',
      'history',
    ]);
    const next = plan.closings.find(({ at }) => at !== null)!;
    expect(stops[1]!.at[1]).toBe(next.zone);
    expect(stops[2]!.query).toBe(`?task=${next.by}`);
    expect(stops[2]!.words).toContain(plan.tasks[next.by]!.because!.words);
    const bought = file.purchases.find(({ key }) => key === stops[4]!.at[1])!;
    expect(['wanted', 'quoted']).toContain(bought.state);
    for (const { words } of stops) expect(words).not.toMatch(/undefined|null|NaN|\d{4}-\d{2}-\d{2}/);
  });

  it('should still speak where there is nothing to point at', () => {
    const bare = makeBuild({});
    const stops = stopsOf(bare, computePlan(bare, { now: NOW }));
    expect(stops).toHaveLength(6);
    for (const { words } of stops) expect(words.length).toBeGreaterThan(60);
  });
});

describe('bands that are tapped', () => {
  it('should stand in an address and come back, without what the van has not', () => {
    const taps = [
      { zone: 'L1', depth: 'insulation' },
      { zone: 'F2', depth: 'fixing' },
    ];
    expect(readTaps(writeTaps(taps), file.zones)).toEqual(taps);
    expect(readTaps('X9:metal,L1:nothing,,L1', file.zones)).toEqual([]);
    expect(readTaps(null, file.zones)).toEqual([]);
  });

  it('should say one depth a zone, the later tap in place of the earlier, the same one again as nothing', () => {
    const one = tapped([], 'L1', 'insulation');
    expect(tapped(one, 'L1', 'fixing')).toEqual([{ zone: 'L1', depth: 'fixing' }]);
    expect(tapped(one, 'L1', 'insulation')).toEqual([]);
  });

  it('should offer the other bays of the same face that have the depth', () => {
    const zone = (key: string) => file.zones.find((one) => one.key === key)!;
    expect(otherBays(zone('L1'), 'insulation', file.zones).map(({ key }) => key)).toEqual(['L2', 'L3']);
    expect(otherBays(zone('B'), 'damping', file.zones)).toEqual([]);
  });

  it('should draw solid what was in, hatched what is said now', () => {
    const depths = ['metal', 'lining'];
    const van = makeBuild({
      depths,
      zones: [{ key: 'L', name: 'L', depths }],
      tasks: [
        {
          ...task('a', 60, { places: [{ zone: 'L', depth: 'metal', hides: null }] }),
          state: 'finished',
          startedAt: NOW,
          finishedAt: NOW,
        },
        task('b', 60, { places: [{ zone: 'L', depth: 'lining', hides: 'metal' }] }),
        task('c', 60, { places: [{ zone: 'L', depth: 'lining', hides: null }] }),
      ],
    });
    const { after } = whereAreYou(van, [{ zone: 'L', depth: 'lining' }], { asOf: NOW, stillToDo: ['c'] });
    expect(whereZones(van, van)[0]!.bands.map(bandState)).toEqual(['covered', 'planned']);
    expect(whereZones(van, after)[0]!.bands.map(bandState)).toEqual(['covered', 'part']);
  });
});

describe('the phases of a plan', () => {
  const spans = phaseSpans(file, plan);

  it('should hold every task and every dated closing once', () => {
    expect(spans.reduce((sum, { tasks }) => sum + tasks, 0)).toBe(file.tasks.length);
    expect(spans.reduce((sum, { closings }) => sum + closings.length, 0)).toBe(
      plan.closings.filter(({ at }) => at !== null).length,
    );
    expect(spans.reduce((sum, { remaining }) => sum + remaining, 0)).toBe(plan.progress.remaining);
  });

  it('should tell tasks only where the phase is near', () => {
    const asOf = Date.parse(plan.asOf);
    for (const { next, from } of spans) {
      const days = from === null ? Infinity : (Date.parse(from) - asOf) / 86_400_000;
      expect(next.length > 0).toBe(days <= 28);
      expect(next.length).toBeLessThanOrEqual(4);
    }
  });

  it('should mark months, fewer where they would crowd', () => {
    expect(monthTicks('2027-03-09', '2027-06-20', 12).map(({ month }) => month)).toEqual([4, 5, 6]);
    const years = monthTicks('2027-03-09', '2031-12-27', 12);
    expect(years.map(({ month, year }) => `${year}-${month}`)).toContain('2030-7');
    expect(years.length).toBeLessThanOrEqual(12);
    expect(monthTicks('2027-03-09', '2027-03-09', 12)).toEqual([]);
  });
});

describe('a tally in words', () => {
  const tally = {
    tasks: 145,
    zones: 19,
    covers: 23,
    hours: { low: 114_345, high: 267_300 },
    week: 720,
    cost: 2_149_413,
    mass: 823_989,
  };

  it('should be rough, because nothing better is known', () => {
    expect(hoursWords(tally)).toBe('1\u2009900 to 4\u2009500 h');
    expect(costWords(tally, 'EUR')).toBe('about €\u200921\u2009000');
  });

  it('should say what an answer changed, and nothing where it changed nothing', () => {
    const more = { ...tally, tasks: 151, cost: 2_249_413, mass: 824_100 };
    expect(changedWords(tally, more, 'EUR')).toBe('That answer: 6 tasks more and €\u20091\u2009000 more.');
    expect(changedWords(more, tally, 'EUR')).toBe('That answer: 6 tasks fewer and €\u20091\u2009000 less.');
    expect(changedWords(tally, tally, 'EUR')).toBe('');
  });
});
