/** A bay's tasks copied to another bay: what comes along, what is shared, what cannot. */
import { describe, expect, it } from 'vitest';
import { nameForBay, textForBay } from '#shared/changes/bay-names.ts';
import { copyBay, type BayAsked } from '#shared/changes/copy-bay.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { readBuild } from '#shared/contract/read.ts';
import { computePlan } from '#shared/plan.ts';
import { link, makeBuild, NOW, task, type BuildParts } from '../support/builds.ts';

const LEFT = { key: 'L2', name: 'left wall, middle', face: 'left', bay: 2 };
const RIGHT = { key: 'R2', name: 'right wall, middle', face: 'right', bay: 2 };

describe('names of another bay', () => {
  it.each([
    ['Threaded inserts left', 'Threaded inserts right'],
    ['Left window: cut, prime', 'Right window: cut, prime'],
    ['Panel on L2, left wall, middle', 'Panel on R2, right wall, middle'],
    ['Rib fill', 'Rib fill, right wall, middle'],
    ['XL2 screws for L20', 'XL2 screws for L20, right wall, middle'],
  ])('should make %s into %s', (name, made) => {
    expect(nameForBay(name, LEFT, RIGHT)).toBe(made);
  });

  it('should leave a single word alone in running text, where it may mean something else', () => {
    expect(textForBay('Leave 3 mm left of L2 free', LEFT, RIGHT)).toBe('Leave 3 mm left of R2 free');
  });

  it('should keep a name within its length', () => {
    expect(nameForBay('x'.repeat(196), LEFT, RIGHT)).toBe(`${'x'.repeat(196)}, ri`);
  });
});

describe('a bay copied', () => {
  it('should bring its tasks with hours, checks, steps and places, and nothing of what was done', () => {
    const file = bays({
      tasks: [
        task('fill', 120, {
          name: 'Rib fill left',
          places: [place('L2', 'fill', 'metal')],
          state: 'finished',
          startedAt: '2026-05-30T10:00',
          finishedAt: '2026-05-30T12:00',
          waitMinutes: 600,
          steps: [{ text: 'Cut for L2', done: true }],
          holdPoints: [
            { key: 'look', name: 'Look at L2', attempts: [{ at: '2026-05-30T12:00', by: 'a', pass: true }] },
          ],
        }),
      ],
      build: { startOn: '2026-05-25' },
    });
    const { file: after, tasks } = copy(file);
    expect(tasks).toEqual([{ of: 'fill', key: 'fill-R2' }]);
    expect(taskIn(after, 'fill-R2')).toMatchObject({
      name: 'Rib fill right',
      minutes: { low: 120, likely: 120, high: 120 },
      waitMinutes: 600,
      state: 'not-started',
      startedAt: null,
      places: [{ zone: 'R2', depth: 'fill', hides: 'metal' }],
      steps: [{ text: 'Cut for R2', done: false }],
      holdPoints: [{ key: 'look', name: 'Look at R2', attempts: [] }],
    });
    expect(taskIn(after, 'fill')).toBe(taskIn(file, 'fill'));
  });

  it('should take the share of a task that works in several zones', () => {
    const file = bays({
      tasks: [
        task('film', 90, {
          reopenMinutes: 60,
          places: [place('L1', 'fill'), place('L2', 'fill'), place('C1', 'fill')],
        }),
      ],
    });
    const { file: after } = copy(file);
    expect(taskIn(after, 'film-R2')).toMatchObject({
      minutes: { low: 30, likely: 30, high: 30 },
      reopenMinutes: 20,
      places: [{ zone: 'R2', depth: 'fill' }],
    });
  });

  it('should copy links among the tasks and to others, exceptions and what decisions lock', () => {
    const file = bays({
      tasks: [
        task('fill', 60, { places: [place('L2', 'fill')] }),
        task('panel', 60, { places: [place('L2', 'panel', 'fill')] }),
        task('wire', 60),
        task('lamp', 60),
      ],
      links: [
        link('wire', 'fill', { reason: 'needs it' }),
        link('fill', 'panel', { lagMinutes: 30 }),
        link('panel', 'lamp', { kind: 'SS' }),
        link('wire', 'lamp'),
      ],
      exceptions: [{ inner: 'fill', cover: 'panel', reason: 'through the hatch' }],
      decisions: [{ key: 'colour', question: 'Which colour?', locksTasks: ['panel'] }],
    });
    const { file: after } = copy(file);
    const added = after.links.slice(file.links.length);
    expect(added.map(({ from, to, kind, lagMinutes }) => [from, to, kind, lagMinutes])).toEqual([
      ['wire', 'fill-R2', 'FS', 0],
      ['fill-R2', 'panel-R2', 'FS', 30],
      ['panel-R2', 'lamp', 'SS', 0],
    ]);
    expect(after.exceptions.at(-1)).toMatchObject({ inner: 'fill-R2', cover: 'panel-R2' });
    expect(after.decisions[0]!.locksTasks).toEqual(['panel', 'panel-R2']);
  });

  it('should leave alone what works in both already', () => {
    const file = bays({
      tasks: [
        task('clean', 60, { places: [place('L2', 'metal'), place('R2', 'metal')] }),
        task('fill', 60, { places: [place('L2', 'fill')] }),
      ],
      links: [link('clean', 'fill')],
    });
    const { file: after, left } = copy(file);
    expect(left).toEqual([{ task: 'clean', why: 'there' }]);
    expect(after.links.at(-1)).toMatchObject({ from: 'clean', to: 'fill-R2' });
  });

  it('should give the other bay the depths it lacks, where they lie in this one', () => {
    const file = bays({
      tasks: [
        task('rail', 60, { places: [place('L2', 'rail')] }),
        task('panel', 60, { places: [place('L2', 'panel', 'rail')] }),
      ],
      zones: [
        { ...LEFT, depths: ['metal', 'fill', 'rail', 'panel'] },
        { ...RIGHT, depths: ['metal', 'panel'] },
      ],
    });
    const { file: after, addedDepths } = copy(file);
    expect(addedDepths).toEqual(['rail']);
    expect(after.zones.find(({ key }) => key === 'R2')!.depths).toEqual(['metal', 'rail', 'panel']);
  });

  it('should not put work behind what is closed up there', () => {
    const file = bays({
      build: { startOn: '2026-05-25' },
      tasks: [
        task('fill', 60, { places: [place('L2', 'fill')] }),
        task('trim', 60, { places: [place('L2', 'trim')] }),
        task('shut', 60, {
          places: [place('R2', 'panel', 'fill')],
          state: 'finished',
          startedAt: '2026-05-26T10:00',
          finishedAt: '2026-05-26T12:00',
        }),
      ],
      links: [link('fill', 'trim')],
    });
    const { tasks, left, file: after } = copy(file);
    expect(left).toEqual([{ task: 'fill', why: 'closed' }]);
    expect(tasks).toEqual([{ of: 'trim', key: 'trim-R2' }]);
    // The copy does not wait for the other bay's work in place of its own.
    expect(after.links).toEqual(file.links);
    expect(computePlan(after, { now: NOW }).errors).toEqual([]);
  });

  it('should leave out a link that would put a cover before what it hides there', () => {
    const file = bays({
      tasks: [
        task('panel', 60, { places: [place('L2', 'panel', 'fill')] }),
        task('hose', 60, { places: [place('R2', 'fill')] }),
      ],
      links: [link('panel', 'hose')],
    });
    const { file: after, linksLeft } = copy(file);
    expect(linksLeft).toMatchObject([{ from: 'panel-R2', to: 'hose' }]);
    expect(computePlan(after, { now: NOW }).errors).toEqual([]);
  });

  it('should ask for materials once more and share tools', () => {
    const file = bays({
      tasks: [
        task('fill', 60, { places: [place('L2', 'fill')] }),
        task('other', 60, { places: [place('R2', 'fill')] }),
        task('list', 60),
      ],
      purchases: [
        {
          key: 'wool',
          state: 'received',
          supplier: 'Shop',
          leadDays: 5,
          shipping: 900,
          orderedOn: '2026-05-01',
          lines: [
            line('roll', ['list', 'fill', 'other'], {
              quantity: 5,
              unitPrice: 1200,
              mass: 3000,
              x: 1,
              y: 2,
              z: 3,
            }),
            line('knife', ['fill'], { category: 'tool' }),
            line('glue', ['other']),
          ],
        },
      ],
    });
    const again = copy(file, { parts: 'again' });
    expect(again.purchases).toEqual(['wool-again']);
    const [first, fresh] = again.file.purchases;
    expect(first!.lines.map(({ neededBy }) => neededBy)).toEqual([
      ['list', 'fill', 'other'],
      ['fill', 'fill-R2'],
      ['other'],
    ]);
    expect(fresh).toMatchObject({
      state: 'wanted',
      supplier: 'Shop',
      leadDays: 5,
      shipping: 0,
      orderedOn: null,
    });
    expect(fresh!.lines).toMatchObject([
      { neededBy: ['fill-R2'], quantity: 3, unitPrice: 1200, mass: 1800, x: null, priceConfirmed: false },
    ]);
    const none = copy(file, { parts: 'none' });
    expect(none.purchases).toEqual([]);
    expect(none.file.purchases).toHaveLength(1);
  });
});

// Helpers

function place(zone: string, depth: string, hides: string | null = null) {
  return { zone, depth, hides };
}

function line(key: string, neededBy: readonly string[], more: object = {}) {
  return { key, name: `${key} left`, neededBy, quantity: 1, unitPrice: 100, ...more };
}

function bays(parts: BuildParts): BuildFile {
  const depths = ['metal', 'fill', 'rail', 'panel', 'trim'];
  return makeBuild({
    depths,
    zones: [
      { key: 'L1', name: 'left wall, front', depths },
      { ...LEFT, depths },
      { ...RIGHT, depths },
      { key: 'C1', name: 'ceiling', depths },
    ],
    ...parts,
  });
}

function copy(file: BuildFile, asked: Partial<BayAsked> = {}) {
  const copied = copyBay(file, { from: 'L2', to: 'R2', parts: 'none', ...asked });
  expect(readBuild(JSON.parse(JSON.stringify(copied.file)))).toEqual(copied.file);
  return copied;
}

function taskIn(file: BuildFile, key: string) {
  return file.tasks.find((one) => one.key === key);
}
