import { describe, expect, it } from 'vitest';
import { readBuild } from '#shared/contract/read.ts';
import { CATALOGUE_LINKS, CATALOGUE_TASKS } from '#shared/starter/catalogue.ts';
import { readAnswers, type Answers } from '#shared/starter/answers.ts';
import { EXTRA_TASKS } from '#shared/starter/extras.ts';
import { starterBuild } from '#shared/starter/starter-build.ts';
import { fileOf, head, RHYTHM, starterFaults } from '../../support/starter.ts';

describe('a build from answers', () => {
  it('should be an ordinary build, the same for the same answers', () => {
    const build = make({});
    expect(readBuild(build)).toEqual(build);
    expect(make({})).toEqual(build);
    expect(build.tasks.every(({ state }) => state === 'not-started')).toBe(true);
    expect(build.purchases.every(({ state }) => state === 'wanted')).toBe(true);
    expect(build.purchases.flatMap(({ lines }) => lines).every(({ priceConfirmed }) => !priceConfirmed)).toBe(
      true,
    );
  });

  it('should carry the head as it was told', () => {
    const told = head({ name: 'Plover', budget: 2_000_000, targetFinishOn: '2028-06-03' });
    expect(starterBuild(readAnswers({}), told).build).toMatchObject({
      name: 'Plover',
      startOn: '2026-03-07',
      targetFinishOn: '2028-06-03',
      budget: 2_000_000,
      vehicle: 'high-roof, medium-wheelbase panel van',
    });
  });

  it('should have every task of the catalogue in some van, but the market of one', () => {
    const missing = new Set([...CATALOGUE_TASKS, ...EXTRA_TASKS].map(({ key }) => key));
    for (const answers of [
      { windows: 'all', roofVent: 'fan-and-light', awning: 'yes', rearCarrier: 'yes', seats: 'belted' },
      {
        insulation: 'foam',
        inside: 'converted',
        cooling: 'roof-unit',
        roofRack: 'yes',
        lights: 'outside-and-work',
      },
      { heater: 'gas', cooking: 'gas', hotWater: 'gas', suspension: 'helper-springs', bed: 'folding' },
      { freshWater: 'below', wasteWater: 'inside', suspension: 'raised' },
    ] as const)
      for (const { key } of make(answers).tasks) missing.delete(key);
    expect([...missing]).toEqual(['market-trial']);
  });

  it('should have two, three or four bays by the size of the van', () => {
    const bays = (van: Answers['van']) => Math.max(...make({ van }).zones.map(({ bay }) => bay ?? 0));
    expect((['short', 'medium', 'long'] as const).map(bays)).toEqual([2, 3, 4]);
  });

  it('should leave no link out and give every link that bridges a task its reason', () => {
    const has = new Set(make({}).tasks.map(({ key }) => key));
    const links = make({}).links;
    const kept = CATALOGUE_LINKS.filter(({ from, to }) => has.has(from) && has.has(to));
    for (const { from, to } of kept)
      expect(links.some((link) => link.from === from && link.to === to)).toBe(true);
    const bare = make({ insulation: 'wool', windows: 'none', roofVent: 'none' });
    const bridges = bare.links.filter(({ why }) => why === null);
    expect(bridges.length).toBeGreaterThan(0);
    for (const { reason } of bridges)
      expect(reason).toMatch(/^the order stays although this van has no task “.+”$/);
  });

  it('should list the tasks of a phase in an order one could work in', () => {
    const keys = make({ insulation: 'foam', inside: 'converted' }).tasks.map(({ key }) => key);
    const inTurn = [
      'out-furniture',
      'strip',
      'conduit-left',
      'foam-mask',
      'foam-spray',
      'furring-walls',
      'close-left',
    ];
    expect(keys.filter((key) => inTurn.includes(key))).toEqual(inTurn);
  });

  it('should buy only what some task needs, a shared part with the next that uses it up', () => {
    const lines = (answers: Partial<Answers>) =>
      new Map(make(answers).purchases.flatMap((purchase) => purchase.lines.map((line) => [line.key, line])));
    expect(lines({ windows: 'none' }).has('p025')).toBe(false);
    expect(lines({ windows: 'none' }).get('p008')!.neededBy).toEqual(['fan-cut']);
    expect(lines({ windows: 'none', roofVent: 'none' }).get('p035')!.neededBy).toEqual(['side-inlets']);
    expect(lines({ heater: 'gas' }).has('p071')).toBe(false);
    expect(lines({ heater: 'gas' }).has('gas-heater')).toBe(true);
    expect(lines({ van: 'long' }).get('p097')!.quantity).toBeCloseTo(28.8);
  });

  it('should name only what the van has', () => {
    const name = (answers: Partial<Answers>, key: string) =>
      make(answers).tasks.find((task) => task.key === key)!.name;
    expect(name({ mains: 'no', freshWater: 'none' }, 'side-inlets')).toBe('Side inlets: fridge vents left');
    expect(name({}, 'side-inlets')).toBe(
      'Side inlets: fridge vents left, shore socket left and water filler right',
    );
    expect(name({ heater: 'none', hotWater: 'none' }, 'consent')).not.toMatch(/heater/);
  });

  it('should ask licensed trades by name, and a helping hand of whoever builds alone', () => {
    const both = make({});
    expect(both.people.map(({ key }) => key)).toEqual(['ann', 'ben', 'the-electrician']);
    expect(both.tasks.find(({ key }) => key === 'elec-cert')!.who).toEqual(['the-electrician']);
    const alone = starterBuild(
      readAnswers({ heater: 'gas', cooking: 'none', mains: 'no' }),
      head({ people: [{ name: 'Ann', week: RHYTHM }] }),
    );
    expect(alone.people.map(({ key }) => key)).toEqual(['ann', 'a-helping-hand', 'the-gas-fitter']);
    expect(alone.people[1]!.week).toMatchObject({ tue: [], sat: RHYTHM.sat });
    expect(alone.tasks.find(({ key }) => key === 'close-left')!.who).toEqual(['ann', 'a-helping-hand']);
    expect(alone.tasks.find(({ key }) => key === 'gas-test')!.who).toEqual(['the-gas-fitter']);
  });

  it('should give two people of one name a key each', () => {
    const people = ['Ann', 'Ann'].map((name) => ({ name, week: RHYTHM }));
    const build = starterBuild(readAnswers({}), head({ people }));
    expect(build.people.map(({ key }) => key)).toEqual(['ann', 'ann-2', 'the-electrician']);
  });

  it('should leave questions open, by the answers, that lock tasks it has', () => {
    const keys = (answers: Partial<Answers>) => make(answers).decisions.map(({ key }) => key);
    expect(keys({ insulation: 'foam', heater: 'gas' })).toEqual(
      expect.arrayContaining(['foam-hands', 'gas-hands', 'heater-place']),
    );
    expect(keys({ heater: 'none', cooking: 'none', mains: 'no' })).not.toContain('inlet-place');
  });
});

describe('what could still be left out', () => {
  const optionOf = (answers: Partial<Answers>, key: string) =>
    make(answers).tasks.find((task) => task.key === key)!.option;

  it('should be the option the answer chose, none where the van needs the task', () => {
    expect(optionOf({ roofRack: 'yes' }, 'rack-mount')).toBe('roof rack');
    expect(optionOf({}, 'fan-cut')).toBe('roof fan');
    expect(optionOf({}, 'close-left')).toBeNull();
  });

  it('should leave what two options stand on to neither', () => {
    expect(optionOf({ lights: 'outside' }, 'roof-gland')).toBe('solar panels');
    expect(optionOf({ lights: 'outside-and-work' }, 'roof-gland')).toBeNull();
    expect(optionOf({ heater: 'gas', cooking: 'induction', hotWater: 'none' }, 'gas-pipe')).toBe('heater');
    expect(optionOf({ heater: 'gas', cooking: 'gas' }, 'gas-pipe')).toBeNull();
    expect(optionOf({ cooking: 'induction' }, 'elec-cert')).toBeNull();
    expect(optionOf({ cooking: 'none' }, 'elec-cert')).toBe('mains');
    expect(optionOf({}, 'hoses')).toBeNull();
    expect(optionOf({ hotWater: 'none', wasteWater: 'none' }, 'hoses')).toBe('water');
  });
});

describe('the fast check of a starter build', () => {
  const file = fileOf({});

  it('should find nothing wrong with what the starter writes', () => {
    expect(starterFaults(file)).toEqual([]);
  });

  it('should find a circle, of links and of a link against a cover', () => {
    const [first] = file.links as [(typeof file.links)[number]];
    const back = { ...first, from: 'register', to: 'measure' };
    expect(starterFaults({ ...file, links: [...file.links, back] })[0]).toMatch(/wait for each other/);
    const against = { ...first, from: 'close-left', to: 'pull-left' };
    expect(starterFaults({ ...file, links: [against] })[0]).toMatch(/wait for each other/);
  });

  it('should find what is missing: a task of a link, a zone nobody works in, a cover with nothing behind', () => {
    const without = (key: string) => ({ ...file, tasks: file.tasks.filter((task) => task.key !== key) });
    expect(starterFaults(without('swivel')).join()).toMatch(/names swivel, which is not there/);
    expect(starterFaults(without('cab-arch')).join()).toMatch(/nobody works at trim in K/);
    const cover = file.tasks.find(({ key }) => key === 'close-left')!;
    const hidden = { ...file, links: [], decisions: [], purchases: [], tasks: [cover] };
    expect(starterFaults(hidden).join()).toMatch(/close-left hides nothing in L1/);
  });
});

// Helpers

function make(answers: Partial<Answers>) {
  return starterBuild(readAnswers(answers), head());
}
