/** Repairs and dismissals: a repair removes its finding and closes no circle; a dismissal hides exactly its finding. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { TradeFinding } from '#shared/contract/plan-trade.ts';
import { readBuild } from '#shared/contract/read.ts';
import { compileGraph } from '#shared/graph/compile.ts';
import { isAcyclic } from '#shared/graph/order.ts';
import { taskGraph } from '#shared/graph/task-graph.ts';
import { liveTasks } from '#shared/schedule/basis.ts';
import { applyTradeRepair } from '#shared/trade/apply-repair.ts';
import { link } from '../../support/builds.ts';
import { untouchedVan } from '../../support/untouched-van.ts';
import { findingsOf, ofRule, van, work } from './van.ts';

describe('a repair of the trade check', () => {
  it('should add the hose test of the catalogue with its check, between the cut and what goes over it', () => {
    const file = van({
      tasks: [
        work('fan', ['cut-opening'], ['C:opening']),
        work('sheet', ['insulation'], ['C:insulation>fixing']),
      ],
    });
    const [finding] = ofRule(file, 'leak-test');
    const after = readBuild(applyTradeRepair(file, finding!));
    const test = after.tasks.find(({ key }) => key === 'hose-test-1');
    expect(test).toMatchObject({
      kinds: ['leak-test'],
      phase: null,
      conditions: [],
      places: [{ zone: 'C', depth: 'opening', hides: null }],
      holdPoints: [{ kind: 'leak', when: 'exit' }],
    });
    expect(after.links.map(({ from, to, why, reason }) => [from, to, why, reason])).toEqual([
      ['fan', 'hose-test-1', 'hidden-by', finding!.reason],
      ['hose-test-1', 'sheet', 'hidden-by', finding!.reason],
    ]);
    expect(ofRule(after, 'leak-test')).toEqual([]);
  });

  it('should add a plain task where the catalogue has none of the kind', () => {
    const file = van({ tasks: [work('power', ['first-power'])] });
    const [finding] = ofRule(file, 'tests-before-power');
    const plain = { ...finding!, repair: { ...finding!.repair!, entry: 'belt-check' } } as TradeFinding;
    expect(applyTradeRepair(file, plain).tasks.at(-1)).toMatchObject({
      key: 'belt-check',
      name: 'Belt check',
      kinds: ['belt-check'],
    });
  });

  it('should leave a second task of a name its own key', () => {
    const file = van({
      tasks: [
        work('hose-test-1', [], []),
        work('fan', ['cut-opening'], ['C:opening']),
        work('sheet', ['insulation'], ['C:insulation>fixing']),
      ],
    });
    const [finding] = ofRule(file, 'leak-test');
    expect(applyTradeRepair(file, finding!).tasks.map(({ key }) => key)).toContain('hose-test-1-2');
  });

  it('should refuse when what it would change is gone', () => {
    const file = van({
      tasks: [work('vinyl', ['floor-covering'], ['F:finish']), work('fan', ['cut-opening'], ['C:opening'])],
    });
    const [finding] = ofRule(file, 'cutting-before-covering');
    const less = { ...file, tasks: file.tasks.slice(0, 1) };
    expect(() => applyTradeRepair(less, finding!)).toThrow('there is no task "fan" any more');
  });

  it('should remove its finding and never make a circle, on plans of any order', () => {
    let applied = 0;
    fc.assert(
      fc.property(plans, (file) => {
        const before = isInOrder(file);
        for (const finding of findingsOf(file)) {
          if (finding.repair === null) continue;
          applied++;
          const after = readBuild(applyTradeRepair(file, finding));
          expect(
            findingsOf(after).map(({ key }) => key),
            finding.sentence,
          ).not.toContain(finding.key);
          if (before) expect(isInOrder(after), finding.sentence).toBe(true);
        }
      }),
    );
    expect(applied).toBeGreaterThan(200);
  });

  it('should remove its finding in the catalogue’s van without some of its links', () => {
    const whole = untouchedVan('round the clock');
    const file = { ...whole, links: whole.links.filter((_, i) => i % 4 !== 0) };
    const findings = findingsOf(file).filter(({ repair }) => repair !== null);
    expect(findings.length).toBeGreaterThan(10);
    for (const finding of findings) {
      const after = readBuild(applyTradeRepair(file, finding));
      expect(
        findingsOf(after).map(({ key }) => key),
        finding.sentence,
      ).not.toContain(finding.key);
      expect(isInOrder(after), finding.sentence).toBe(true);
    }
  });
});

describe('a dismissal', () => {
  const file = van({
    tasks: [
      work('vinyl', ['floor-covering'], ['F:finish']),
      work('fan', ['cut-opening'], ['C:opening']),
      work('hatch', ['cut-opening'], ['F:opening']),
    ],
  });

  it('should fold exactly its finding, with its reason', () => {
    const findings = findingsOf(file);
    expect(findings.length).toBeGreaterThan(2);
    for (const { key } of findings) {
      const dismissed = findingsOf(
        readBuild({ ...file, dismissals: [{ key, reason: 'laid loose', on: null }] }),
      );
      expect(dismissed.map((one) => [one.key, one.dismissed])).toEqual(
        findings.map((one) => [one.key, one.key === key ? 'laid loose' : null]),
      );
    }
  });

  it('should survive edits that are not about its tasks', () => {
    const keys = (one: BuildFile) => ofRule(one, 'cutting-before-covering').map(({ key }) => key);
    const edited = van({
      tasks: [
        work('vinyl', ['floor-covering'], ['F:finish'], { name: 'Lino' }),
        work('fan', ['cut-opening'], ['C:opening']),
        work('hatch', ['cut-opening'], ['F:opening']),
        work('cut-more', ['cut-opening'], ['L:opening']),
      ],
      order: ['vinyl'],
      links: [link('hatch', 'cut-more')],
    });
    expect(keys(edited)).toEqual(expect.arrayContaining(keys(file)));
    expect(keys(edited)).toHaveLength(keys(file).length + 1);
  });

  it('should have a key of at most 80 characters, however long those of the tasks are', () => {
    const long = (end: string) => `${'x'.repeat(79)}${end}`;
    const found = findingsOf(
      van({
        tasks: [
          work(long('a'), ['floor-covering'], ['F:finish']),
          work(long('b'), ['cut-opening'], ['F:opening']),
        ],
      }),
    );
    for (const { key } of found) expect(key).toMatch(/^[A-Za-z0-9][A-Za-z0-9._-]{0,79}$/);
  });
});

// Helpers

const KINDS = [
  'cut-opening',
  'seal',
  'leak-test',
  'swarf',
  'insulation',
  'foam',
  'lining',
  'cable',
  'cable-test',
  'fixing-point',
  'pull-test',
  'floor-covering',
  'furniture',
  'belt-check',
  'hose',
  'pressure-test',
];
const PLACES = [
  'L:opening',
  'L:services',
  'L:insulation>fixing',
  'L:finish>batten',
  'C:opening',
  'C:finish>film',
  'F:furniture',
];

/** Up to nine tasks of any kinds and places, links in any direction. */
const plans = fc
  .tuple(
    fc.array(
      fc.tuple(
        fc.uniqueArray(fc.constantFrom(...KINDS), { maxLength: 2 }),
        fc.uniqueArray(fc.constantFrom(...PLACES), { maxLength: 2 }),
      ),
      { minLength: 2, maxLength: 9 },
    ),
    fc.array(fc.tuple(fc.nat(8), fc.nat(8), fc.constantFrom('FS', 'FS', 'FS', 'SS')), { maxLength: 8 }),
  )
  .map(([tasks, links]) => {
    const pairs = new Map(
      links
        .filter(([a, b]) => a !== b && a < tasks.length && b < tasks.length)
        .map(([a, b, kind]) => [`${a} ${b} ${kind}`, link(`t${a}`, `t${b}`, { kind })]),
    );
    return van({
      tasks: tasks.map(([kinds, places], i) => work(`t${i}`, kinds, places)),
      links: [...pairs.values()],
    });
  });

function isInOrder(file: BuildFile): boolean {
  return isAcyclic(compileGraph(taskGraph(file), liveTasks(file.tasks)));
}
