/**
 * The order of the trade in starter builds: every rule of common practice holds in each of them, whatever its windows,
 * insulation, heat and water, and the eight places where a simple stack is wrong are modelled, not noted.
 */
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { readAnswers, type Answers } from '#shared/starter/answers.ts';
import { starterBuild } from '#shared/starter/starter-build.ts';
import { closure, coverPairs } from '../support/cover-rule.ts';
import { head } from '../support/starter.ts';
import { BEFORE_RULES } from './trade-before.ts';
import { TRADE_RULES } from './trade-hidden-by.ts';

const EVERYTHING: Partial<Answers> = {
  van: 'long',
  inside: 'converted',
  windows: 'all',
  roofVent: 'fan-and-light',
  cooling: 'roof-unit',
  roofRack: 'yes',
  awning: 'yes',
  rearCarrier: 'yes',
  lights: 'outside-and-work',
  seats: 'belted',
  suspension: 'raised',
};

const BUILDS = {
  'as the questions begin': {},
  'with everything': EVERYTHING,
  'with spray foam': { ...EVERYTHING, van: 'medium', insulation: 'foam' },
  'with wool': { insulation: 'wool', windows: 'all', suspension: 'helper-springs' },
  'with gas': { heater: 'gas', cooking: 'gas', hotWater: 'gas', mains: 'no', windows: 'all' },
  'with tanks below and no inlet': { freshWater: 'below', mains: 'no' },
  'with tanks inside and a folding bed': { wasteWater: 'inside', bed: 'folding', van: 'short' },
  'with next to nothing': {
    van: 'short',
    windows: 'none',
    roofVent: 'none',
    solar: 'none',
    lights: 'none',
    heater: 'none',
    cooking: 'none',
    freshWater: 'none',
    mains: 'no',
    seats: 'cab',
    toilet: 'no',
  },
} as const satisfies Record<string, Partial<Answers>>;
type BuildName = keyof typeof BUILDS;

interface Looked {
  readonly file: BuildFile;
  readonly after: ReadonlyMap<string, ReadonlySet<string>>;
}

/** Each build with everything that comes after each task, by links and by covers. */
const LOOKED = new Map<BuildName, Looked>(
  (Object.keys(BUILDS) as BuildName[]).map((name) => {
    const file = starterBuild(readAnswers(BUILDS[name]), head());
    const pairs = [
      ...file.links.map(({ from, to }) => [from, to] as const),
      ...coverPairs(file).map(({ inner, cover }) => [inner, cover] as const),
    ];
    return [
      name,
      {
        file,
        after: closure(
          file.tasks.map(({ key }) => key),
          pairs,
        ),
      },
    ];
  }),
);

const RULES = [...TRADE_RULES, ...BEFORE_RULES];

describe('the order of the trade in starter builds (common practice)', () => {
  it('should be 112 rules, each held by some build or with the reason why it cannot be', () => {
    const ids = RULES.map(({ id }) => id);
    expect(ids.toSorted()).toEqual(
      Array.from({ length: 112 }, (_, i) => `C${String(i + 1).padStart(3, '0')}`),
    );
    const silent = BEFORE_RULES.filter(({ notHere }) => notHere !== undefined);
    expect(silent.map(({ id, pairs }) => [id, pairs.length])).toEqual([
      ['C034', 0],
      ['C067', 0],
      ['C068', 0],
      ['C111', 0],
    ]);
  });

  for (const { id, says, pairs, ...rest } of RULES) {
    if (pairs.length > 0)
      it(`should hold in every build: ${id}, ${says}`, () => {
        const met = new Set<string>();
        for (const [name, { after }] of LOOKED)
          for (const [first, then] of pairs) {
            if (!after.has(first) || !after.has(then)) continue;
            met.add(`${first} > ${then}`);
            expect(after.get(first)!.has(then), `${first}, then ${then} (${name})`).toBe(true);
          }
        // A pair no build has would say nothing.
        expect(pairs.map(([first, then]) => `${first} > ${then}`).filter((pair) => !met.has(pair))).toEqual(
          [],
        );
      });
    const inHand = 'inHand' in rest ? (rest.inHand as readonly (readonly [string, string])[]) : [];
    for (const [part, task] of inHand)
      it(`should be in hand before ${task}: ${part}, ${id}, ${says}`, () => {
        const lines = [...LOOKED.values()].flatMap(({ file }) =>
          file.purchases.flatMap((purchase) => purchase.lines).filter(({ key }) => key === part),
        );
        expect(lines.length).toBeGreaterThan(0);
        for (const { neededBy } of lines) expect(neededBy).toContain(task);
      });
  }
});

describe('where a simple stack is wrong (common practice)', () => {
  it('should have services behind spray foam, and in front of bonded sheet with loose fill around them', () => {
    const depths = (name: BuildName) => zone(name, 'L2').depths;
    const sheet = depths('as the questions begin');
    expect(sheet.indexOf('services')).toBeGreaterThan(sheet.indexOf('insulation'));
    expect(sheet.indexOf('fill')).toBeGreaterThan(sheet.indexOf('services'));
    const foam = depths('with spray foam');
    expect(foam.indexOf('services')).toBeLessThan(foam.indexOf('insulation'));
    expect(foam).not.toContain('fill');
    before('with spray foam', 'conduit-left pull-left pull-cooling labels cable-test', 'foam-spray');
    before('as the questions begin', 'skin-left', 'conduit-left');
    before('with wool', 'conduit-left cable-test', 'fill');
  });

  it('should wax cavities after damping and the last drilling, before foam, and hide nothing by it', () => {
    for (const name of LOOKED.keys()) {
      before(name, 'damping pull-test anchor-plates', 'cavity-wax');
      before(name, 'cavity-wax', 'skin-left foam-spray fill skin-doors');
      expect(task(name, 'cavity-wax').places.every(({ hides }) => hides === null)).toBe(true);
    }
  });

  it('should run fresh-water hoses in front of the lining, never in the wall', () => {
    for (const [name, { file }] of LOOKED) {
      if (!file.tasks.some(({ key }) => key === 'hoses')) continue;
      for (const { zone: key, depth } of task(name, 'hoses').places) {
        const { depths } = zone(name, key);
        expect(depth).toBe('skirting');
        expect(depths.indexOf(depth)).toBeGreaterThan(depths.indexOf('finish'));
      }
      before(name, 'close-left close-right', 'hoses');
    }
  });

  it('should keep doors removable: a lining that comes off in two hours, walls in twenty or more', () => {
    for (const name of LOOKED.keys()) {
      expect(task(name, 'door-panels').reopenMinutes).toBe(120);
      for (const wall of ['close-left', 'close-right'])
        expect(task(name, wall).reopenMinutes).toBeGreaterThanOrEqual(1200);
    }
  });

  it('should have a hole in the floor in both zones of its sheet, inside and below', () => {
    for (const name of LOOKED.keys()) {
      const faces = task(name, 'floor-holes').places.map((place) => zone(name, place.zone).face);
      expect(new Set(faces)).toEqual(new Set(['floor', 'underbody']));
      before(name, 'floor-holes', 'subfloor-fit under-wax');
    }
  });

  it('should lay the floor covering after walls and ceiling, though the floor is ready long before', () => {
    for (const name of LOOKED.keys())
      before(name, 'subfloor-fit close-ceiling close-left close-right', 'vinyl');
  });

  it('should ask for a part before the task that uses it, where marking or cutting hangs on it', () => {
    const lines = LOOKED.get('with everything')!.file.purchases.flatMap((purchase) => purchase.lines);
    const neededBy = (part: string) => lines.find(({ key }) => key === part)!.neededBy;
    expect(neededBy('p025')).toEqual(['open-confirm', 'win-left-cut']);
    expect(neededBy('p134')).toEqual(['cut-sheets', 'fridge']);
    expect(neededBy('p124')).toEqual(['batteries', 'elec-locker']);
    expect(neededBy('belted-seats')).toEqual(['mark-points', 'seat-frame']);
  });

  it('should ask for consent before bulkhead, swivel, seats, springs and mains, not at the end', () => {
    for (const [name, { file }] of LOOKED) {
      before(
        name,
        'consent',
        'bulkhead-out swivel seat-frame raise helper-springs pull-230 inverter-230 gas-locker',
      );
      if (file.tasks.some(({ key }) => key === 'elec-prelook'))
        before(name, 'elec-prelook', 'fill foam-spray close-left');
      before(name, 'consent bulkhead-out', 'deep-clean damping');
      expect(file.tasks.find(({ key }) => key === 'consent')!.waitMinutes).toBeGreaterThan(0);
    }
  });
});

describe('work that wants weather (common practice)', () => {
  it('should cut the roof only on dry days above the limit of its sealant', () => {
    for (const key of ['fan-cut', 'rooflight', 'cooling-cut', 'rack-points', 'roof-gland']) {
      const { conditions, waitConditions } = task('with everything', key);
      expect(conditions).toEqual(expect.arrayContaining(['dry-day', 'yard-10']));
      expect(waitConditions).toEqual(['yard-10']);
    }
  });

  it('should wax the underbody and let it cure at 16 °C or more', () => {
    for (const name of LOOKED.keys()) {
      const { conditions, waitConditions, waitMinutes } = task(name, 'under-wax');
      expect(conditions).toContain('bay-16');
      expect(waitConditions).toEqual(['bay-16']);
      expect(waitMinutes).toBeGreaterThanOrEqual(24 * 60);
    }
  });
});

describe('a task that can hurt someone', () => {
  it('should carry its cautions wherever the answers bring it in', () => {
    const cautions = (name: BuildName, key: string) => task(name, key).cautions;
    expect(cautions('with gas', 'gas-pipe')).toContain('gas');
    expect(cautions('with gas', 'heat-test')).toEqual(expect.arrayContaining(['gas', 'exhaust']));
    expect(cautions('with spray foam', 'foam-spray')).toContain('solvents');
    expect(cautions('with spray foam', 'foam-mask')).toEqual(expect.arrayContaining(['airbag', 'seat-belt']));
    expect(cautions('with everything', 'seat-frame')).toEqual(
      expect.arrayContaining(['seat-belt', 'drilling']),
    );
    expect(cautions('with everything', 'cooling-fit')).toEqual(expect.arrayContaining(['height', 'lifting']));
    expect(cautions('with everything', 'raise')).toEqual(
      expect.arrayContaining(['under-vehicle', 'brake-lines']),
    );
    expect(cautions('with everything', 'out-services')).toEqual(expect.arrayContaining(['gas', 'mains']));
    expect(cautions('as the questions begin', 'pull-230')).toContain('mains');
  });
});

// Helpers

function task(name: BuildName, key: string): BuildFile['tasks'][number] {
  return LOOKED.get(name)!.file.tasks.find((one) => one.key === key)!;
}

function zone(name: BuildName, key: string): BuildFile['zones'][number] {
  return LOOKED.get(name)!.file.zones.find((one) => one.key === key)!;
}

/** Each of the first tasks before each of the others, as far as the build has them; it has one pair of them at least. */
function before(name: BuildName, first: string, then: string): void {
  const { after } = LOOKED.get(name)!;
  const there = (keys: string) => keys.split(' ').filter((key) => after.has(key));
  for (const a of there(first))
    for (const b of there(then)) expect(after.get(a)!.has(b), `${a}, then ${b} (${name})`).toBe(true);
  expect(there(first).length * there(then).length).toBeGreaterThan(0);
}
