/** The trade check on plans made by hand: what is found, in which words, and what is left alone. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { computePlan } from '#shared/plan.ts';
import { link } from '../../support/builds.ts';
import { untouchedVan } from '../../support/untouched-van.ts';
import { findingsOf, ofRule, van, work } from './van.ts';

const FAN = work('fan', ['cut-opening'], ['C:opening']);
const FOAM = work('sheet', ['insulation'], ['C:insulation>fixing']);
const HOSE_TEST = work('hose-test', ['leak-test'], ['C:opening']);

describe('a plan without a leak test', () => {
  it('should be told, with what goes over the opening and a test to add between them', () => {
    const [finding, ...more] = ofRule(van({ tasks: [FAN, FOAM] }), 'leak-test');
    expect(more).toEqual([]);
    expect(finding).toMatchObject({
      standing: 'missing',
      sentence: '“FAN” gets no leak test before “SHEET” goes over it.',
      zones: ['C'],
      harm: 'hidden-by',
      repair: { kind: 'add-task', entry: 'hose-test-1', after: ['fan'], before: ['sheet'] },
    });
  });

  it('should be quiet once the test is linked in between', () => {
    const linked = van({ tasks: [FAN, FOAM, HOSE_TEST], links: [link('fan', 'hose-test')] });
    // The test works behind the sheet, so the cover rule holds it before that.
    expect(ofRule(linked, 'leak-test')).toEqual([]);
  });

  it('should say so where a test is there and nothing holds it after the cut', () => {
    const [finding] = ofRule(van({ tasks: [FAN, FOAM, HOSE_TEST] }), 'leak-test');
    expect(finding).toMatchObject({
      tasks: ['fan', 'hose-test', 'sheet'],
      repair: { kind: 'link', links: [{ from: 'fan', to: 'hose-test' }], drops: [] },
    });
    expect(finding!.sentence).toContain('between “FAN” and “SHEET”');
  });

  it('should not take a test for one that comes before the cut, nor one that comes after the cover', () => {
    const early = van({ tasks: [FAN, FOAM, HOSE_TEST], links: [link('hose-test', 'fan')] });
    const late = van({
      tasks: [FAN, FOAM, work('hose-test', ['leak-test'])],
      links: [link('fan', 'hose-test'), link('sheet', 'hose-test')],
    });
    for (const file of [early, late])
      expect(ofRule(file, 'leak-test')).toMatchObject([{ standing: 'missing' }]);
  });

  it('should take a check of its own for a test, and one made on the other side of the skin', () => {
    const own = { holdPoints: [{ key: 'h', kind: 'leak', when: 'exit', name: 'no damp strip' }] };
    const checked = van({ tasks: [work('fan', ['cut-opening'], ['C:opening'], own), FOAM] });
    const outside = van({
      tasks: [
        work('fan', ['cut-opening'], ['C:opening', 'K:opening']),
        FOAM,
        work('hose-test', ['leak-test'], ['K:opening']),
      ],
      links: [link('fan', 'hose-test'), link('hose-test', 'sheet')],
    });
    expect(ofRule(checked, 'leak-test')).toEqual([]);
    expect(ofRule(outside, 'leak-test')).toEqual([]);
  });

  it('should ask for no test where nothing goes over the opening', () => {
    expect(ofRule(van({ tasks: [FAN] }), 'leak-test')).toEqual([]);
  });

  it('should tell of an opening that was covered untested, by its dates', () => {
    const done = (day: string) => ({
      state: 'finished',
      startedAt: `${day}T08:00`,
      finishedAt: `${day}T09:00`,
    });
    const file = (test: string | null) =>
      van({
        build: { asOf: '2026-06-20T00:00' },
        tasks: [
          work('fan', ['cut-opening'], ['C:opening'], done('2026-06-02')),
          work('sheet', ['insulation'], ['C:insulation>fixing'], done('2026-06-05')),
          ...(test === null ? [] : [work('hose-test', ['leak-test'], ['C:opening'], done(test))]),
        ],
      });
    expect(ofRule(file(null), 'leak-test')).toMatchObject([
      { standing: 'begun', sentence: '“SHEET” went over “FAN”, which had no leak test.' },
    ]);
    expect(ofRule(file('2026-06-01'), 'leak-test')).toHaveLength(1);
    expect(ofRule(file('2026-06-03'), 'leak-test')).toEqual([]);
  });
});

describe('pillars foamed before the belts are checked', () => {
  const BELTS = work('belts', ['belt-check'], ['L:metal']);
  const PILLARS = work('pillars', ['foam'], ['L:insulation']);

  it('should be told when links put the foam first, with a check to add before it', () => {
    const [finding] = ofRule(
      van({ tasks: [BELTS, PILLARS], links: [link('pillars', 'belts')] }),
      'belts-before-insulation',
    );
    expect(finding).toMatchObject({
      standing: 'missing',
      sentence: '“PILLARS” has no belt check before it.',
      harm: 'legal',
      repair: { kind: 'add-task', entry: 'belt-check', before: ['pillars'] },
    });
  });

  it('should be told when nothing holds the check first', () => {
    const [finding] = ofRule(van({ tasks: [BELTS, PILLARS] }), 'belts-before-insulation');
    expect(finding).toMatchObject({
      tasks: ['belts', 'pillars'],
      repair: { kind: 'link', links: [{ from: 'belts', to: 'pillars' }] },
    });
  });

  it('should be quiet with the check before the foam', () => {
    const held = van({ tasks: [BELTS, PILLARS], links: [link('belts', 'pillars')] });
    expect(ofRule(held, 'belts-before-insulation')).toEqual([]);
  });
});

describe('lining before overhead blocking', () => {
  const LINING = work('lining', ['lining'], ['L:finish']);
  const LOCKER = work('locker', ['furniture', 'overhead'], ['L:furniture']);
  const BLOCKING = work('blocking', ['blocking'], ['L:batten']);

  it('should be told when there is no blocking for the locker', () => {
    expect(ofRule(van({ tasks: [LINING, LOCKER] }), 'blocking-for-overhead')).toMatchObject([
      { standing: 'missing', sentence: '“LINING” has no blocking before it.', zones: ['L'] },
    ]);
    expect(ofRule(van({ tasks: [LINING] }), 'blocking-for-overhead')).toEqual([]);
  });

  it('should be told when links put the lining first, and the link turned round', () => {
    const file = van({ tasks: [LINING, LOCKER, BLOCKING], links: [link('lining', 'blocking')] });
    expect(ofRule(file, 'behind-before-lining')).toMatchObject([
      {
        standing: 'wrong',
        tasks: ['blocking', 'lining'],
        sentence: 'Links and covers put “LINING” before “BLOCKING”: usually it is the other way round.',
        repair: {
          kind: 'link',
          links: [{ from: 'blocking', to: 'lining' }],
          drops: [{ from: 'lining', to: 'blocking', kind: 'FS' }],
        },
      },
    ]);
  });

  it('should have no repair where more than one link says the opposite', () => {
    const file = van({
      tasks: [LINING, BLOCKING, work('between', [])],
      links: [link('lining', 'between'), link('between', 'blocking')],
    });
    expect(ofRule(file, 'behind-before-lining')).toMatchObject([{ standing: 'wrong', repair: null }]);
  });
});

describe('floor covering before cutting', () => {
  const VINYL = work('vinyl', ['floor-covering'], ['F:finish']);

  it('should be told when the links, or only the dates, put it first', () => {
    const linked = van({ tasks: [VINYL, FAN], links: [link('vinyl', 'fan')] });
    expect(ofRule(linked, 'cutting-before-covering')).toMatchObject([
      { standing: 'wrong', tasks: ['fan', 'vinyl'], harm: 'keeps-clean', zones: [] },
    ]);
    const dated = van({ tasks: [VINYL, FAN], order: ['vinyl', 'fan'] });
    expect(ofRule(dated, 'cutting-before-covering')).toMatchObject([
      {
        standing: 'dates',
        sentence: 'By the dates “VINYL” begins before “FAN” is done, and nothing holds it back.',
      },
    ]);
  });

  it('should be softer where the dates happen to be right, with the same key', () => {
    const [soft] = ofRule(van({ tasks: [VINYL, FAN], order: ['fan', 'vinyl'] }), 'cutting-before-covering');
    const [hard] = ofRule(van({ tasks: [VINYL, FAN], order: ['vinyl', 'fan'] }), 'cutting-before-covering');
    expect(soft).toMatchObject({
      standing: 'unheld',
      sentence: 'Nothing holds “FAN” before “VINYL”: the dates happen to be right.',
    });
    expect(soft!.key).toBe(hard!.key);
  });

  it('should be told when the covering has begun, and not when the cutting is done', () => {
    const at = { startedAt: '2026-06-02T08:00' };
    const file = (fan: object, vinyl: object) =>
      van({
        build: { asOf: '2026-06-10T00:00' },
        tasks: [
          work('vinyl', ['floor-covering'], ['F:finish'], vinyl),
          work('fan', ['cut-opening'], ['C:opening'], fan),
        ],
      });
    expect(ofRule(file({}, { state: 'started', ...at }), 'cutting-before-covering')).toMatchObject([
      { standing: 'begun', sentence: '“VINYL” has begun, and “FAN” is not done.', repair: null },
    ]);
    const done = { state: 'finished', ...at, finishedAt: '2026-06-02T09:00' };
    expect(ofRule(file(done, {}), 'cutting-before-covering')).toEqual([]);
  });
});

describe('first power before the dead tests', () => {
  const POWER = work('power', ['first-power']);
  const TESTS = work('tests', ['dead-test']);

  it('should be told when the links put it first, or when there is no test at all', () => {
    expect(
      ofRule(van({ tasks: [POWER, TESTS], links: [link('power', 'tests')] }), 'dead-before-live'),
    ).toMatchObject([{ standing: 'wrong', tasks: ['tests', 'power'], harm: 'legal' }]);
    expect(ofRule(van({ tasks: [POWER] }), 'tests-before-power')).toMatchObject([
      { standing: 'missing', sentence: '“POWER” has no dead tests before it.' },
    ]);
  });

  it('should be quiet when the tests are linked first', () => {
    const file = van({ tasks: [POWER, TESTS], links: [link('tests', 'power')] });
    expect(ofRule(file, 'dead-before-live')).toEqual([]);
    expect(ofRule(file, 'tests-before-power')).toEqual([]);
  });
});

describe('the trade check', () => {
  it('should hold an order only by what ends before the other starts', () => {
    const alongside = van({
      tasks: [work('vinyl', ['floor-covering'], ['F:finish']), FAN],
      links: [link('fan', 'vinyl', { kind: 'SS' })],
    });
    expect(ofRule(alongside, 'cutting-before-covering')).toHaveLength(1);
  });

  it('should leave alone what lies in front of the cover', () => {
    const skirting = van({
      tasks: [work('hoses', ['hose'], ['L:furniture']), work('lining', ['lining'], ['L:finish'])],
      links: [link('lining', 'hoses')],
    });
    expect(ofRule(skirting, 'services-before-closing')).toEqual([]);
  });

  it('should say nothing of kinds it does not know, and nothing of a task that is none of them', () => {
    expect(
      findingsOf(van({ tasks: [work('a', ['ice-box'], ['L:finish']), work('b', ['other'], ['L:metal'])] })),
    ).toEqual([]);
  });

  it('should stop at a number one can read, and name the rules that have more', () => {
    const cuts = Array.from({ length: 60 }, (_, i) => work(`cut-${i}`, ['cut-opening'], ['F:opening']));
    const file = van({ tasks: [...cuts, work('vinyl', ['floor-covering'], ['C:finish'])] });
    const { findings, untold } = computePlan(file, { now: '2026-06-01T00:00' }).trade;
    expect(findings.filter(({ rule }) => rule === 'cutting-before-covering')).toHaveLength(40);
    expect(untold).toContain('cutting-before-covering');
  });

  it('should find in the demo what is wrong there, all of it about the awning that came late', () => {
    const file = wagtail();
    const findings = computePlan(file, { now: file.build.asOf! }).trade.findings;
    expect(findings.map(({ rule, standing, tasks }) => [rule, standing, tasks.join(' ')]).sort()).toEqual([
      // Drilled after the wax was begun and the sheet was on.
      ['drilling-before-cavity-wax', 'begun', 'awning cavity-wax'],
      ['openings-first', 'begun', 'awning skin-right'],
      // The story dropped its links to the swarf hunt and the hose test; it has a leak check of its own, but no hunt.
      ['openings-first', 'unheld', 'awning skin-arch'],
      ['swarf-hunt', 'missing', 'awning skin-arch'],
    ]);
  });

  it('should find nothing in the catalogue’s own order', () => {
    expect(findingsOf(untouchedVan('round the clock'))).toEqual([]);
  });

  it('should not depend on the order of records', () => {
    const file = withoutLinks(untouchedVan('round the clock'), 5);
    const shown = JSON.stringify(computePlan(file, { now: file.build.asOf! }).trade);
    fc.assert(
      fc.property(shuffled(file.tasks), shuffled(file.links), shuffled(file.zones), (tasks, links, zones) => {
        const other = { ...file, tasks, links, zones };
        expect(JSON.stringify(computePlan(other, { now: file.build.asOf! }).trade)).toBe(shown);
      }),
      { numRuns: 5 },
    );
  });
});

// Helpers

/** Every n-th link gone: plenty to find. */
function withoutLinks(file: BuildFile, n: number): BuildFile {
  return { ...file, links: file.links.filter((_, i) => i % n !== 0) };
}

function shuffled<T>(list: readonly T[]) {
  return fc.shuffledSubarray([...list], { minLength: list.length, maxLength: list.length });
}
